#include "reading/reading.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "quantity/number_text.h"
#include "reading/found.h"

using namespace maslin;

namespace {

const Pantry& pantry() {
  static const Pantry k_pantry(embedded_pantry_tables());
  return k_pantry;
}
const Words& words() {
  static const Words k_words(pantry());
  return k_words;
}

Reading read(const std::string& text) {
  return read_found(text, pantry(), words(), {});
}

/// A list of one line among plain ones, so that the style is a list.
std::vector<Line> lines_of(const std::string& line) {
  const Reading reading =
      read("Buns\n\nIngredients\n500 g strong white flour\n" + line + "\n10 g salt\n");
  std::vector<Line> out;
  for (const Part& part : reading.recipe.parts) {
    for (const Line& one : part.lines) {
      const bool frame = one.text == "500 g strong white flour" || one.text == "10 g salt";
      if (!frame) {
        out.push_back(one);
      }
    }
  }
  return out;
}

std::vector<Step> steps_of(const std::string& method) {
  const Reading reading = read(
      "Buns\n\nIngredients\n500 g strong white flour\n320 g water\n10 g salt\n7 g instant yeast\n\n"
      "Method\n" +
      method + "\n");
  std::vector<Step> out;
  for (const Part& part : reading.recipe.parts) {
    out.insert(out.end(), part.steps.begin(), part.steps.end());
  }
  return out;
}

struct LineCase {
  const char* text;
  const char* id;
  double low;  // below zero: no number
  double high;
  const char* unit;
};

std::string folder_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream out;
  out << in.rdbuf();
  return out.str();
}

/// Letters and digits only, small: what must not be lost.
std::map<std::string, int> word_counts(const std::string& text) {
  std::map<std::string, int> out;
  std::string word;
  for (const char c : text + " ") {
    const auto u = static_cast<unsigned char>(c);
    if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || u >= 0x80) {
      word += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    } else if (!word.empty()) {
      ++out[word];
      word.clear();
    }
  }
  return out;
}

std::string everything(const Recipe& recipe) {
  std::string out = recipe.title + "\n";
  for (const Part& part : recipe.parts) {
    out += part.name + "\n";
    for (const Line& line : part.lines) {
      out += line.text + "\n";
    }
    for (const Step& step : part.steps) {
      out += step.text + "\n";
    }
  }
  for (const std::string& remark : recipe.remarks) {
    out += remark + "\n";
  }
  return out;
}

}  // namespace

TEST_CASE("amounts are read in every way cooks write them") {
  // Ids and units by the pantry and the list of kitchen units; the writing is common.
  for (const LineCase& one : std::vector<LineCase>{
           {"1½ tsp fine salt", "salt", 1.5, 1.5, "tsp"},
           {"1-1/2 cups bread flour", "strong_white_flour", 1.5, 1.5, "cup"},
           {"2 & 1/2 c plain flour", "plain_flour", 2.5, 2.5, "cup"},
           {"one and a half cups of warm milk", "whole_milk", 1.5, 1.5, "cup"},
           {"a teaspoon and a half of bread soda", "bicarbonate_of_soda", 1.5, 1.5, "tsp"},
           {"three quarters of a cup of sugar", "granulated_sugar", 0.75, 0.75, "cup"},
           {"half a dozen eggs", "egg", 6, 6, ""},
           {"a couple of cloves of garlic", "garlic", 2, 2, "piece"},
           {"350 to 400g plain flour", "plain_flour", 350, 400, "g"},
           {"150-175ml warm milk", "whole_milk", 150, 175, "ml"},
           {"450g-500g wholemeal flour", "wholemeal_flour", 450, 500, "g"},
           {"1 lb 2 oz strong white flour", "strong_white_flour", 1.125, 1.125, "lb"},
           {"1/2 cup plus 2 tablespoons water", "water", 0.625, 0.625, "cup"},
           {"1 x 7g sachet easy-blend dried yeast", "instant_yeast", 1, 1, "packet"},
           {"7g sachet fast-action dried yeast", "instant_yeast", 7, 7, "g"},
           {"2 (14 oz) cans coconut milk", "coconut_milk", 2, 2, "can"},
           {"half a 340g jar of honey", "honey", 0.5, 0.5, "jar"},
           {"4 cups (520 g) bread flour", "strong_white_flour", 520, 520, "g"},
           {"1 egg (50 g)", "egg", 50, 50, "g"},
           {"450g / 1lb strong white flour", "strong_white_flour", 450, 450, "g"},
           {"flour, 300 grams", "plain_flour", 300, 300, "g"},
           {"Milk: 390 g (52 %)", "whole_milk", 390, 390, "g"},
           {"Butter ........ 60 g", "butter", 60, 60, "g"},
           {"a little milk", "whole_milk", -1, -1, "some"},
           {"handful chopped parsley", "parsley_fresh", 1, 1, "handful"},
           {"butter the size of an egg", "butter", 1, 1, "piece"},
           {"3 tbsp milk, plus 1 tbsp for a second coat", "whole_milk", 3, 3, "tbsp"},
           {"2 oz butter or margarine", "butter", 2, 2, "oz"},
           {"l½ tsp mustard powder", "mustard_powder", 1.5, 1.5, "tsp"},
           {"45Og wholemeaI flour", "wholemeal_flour", 450, 450, "g"},
           {"1 teasp suger", "granulated_sugar", 1, 1, "tsp"},
           {"2 T butter", "butter", 2, 2, "tbsp"},
           {"5# bread flour", "strong_white_flour", 5, 5, "lb"},
       }) {
    CAPTURE(std::string(one.text));
    const std::vector<Line> lines = lines_of(one.text);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].ingredient_id == one.id);
    CHECK(lines[0].found.unit == one.unit);
    CHECK(lines[0].found.number.has_value() == (one.low >= 0));
    if (lines[0].found.number && one.low >= 0) {
      CHECK(lines[0].found.number->low == doctest::Approx(one.low));
      CHECK(lines[0].found.number->high == doctest::Approx(one.high));
    }
  }
}

TEST_CASE("one line may hold several ingredients") {
  const std::vector<Line> lime = lines_of("juice and zest of 1 lime");
  REQUIRE(lime.size() == 2);
  CHECK(lime[0].ingredient_id == "lime_juice");
  CHECK(lime[1].ingredient_id == "lime_zest");
  CHECK(lines_of("1 tsp each cinnamon, nutmeg and mace").size() == 3);
  CHECK(lines_of("salt and pepper").size() == 2);
  CHECK(lines_of("1 onion, finely chopped").size() == 1);
  CHECK(lines_of("50 g raisins; 30 g currants; 2 tbsp rum").size() == 3);
}

TEST_CASE("a weight beside a volume rules, and a disagreement names both") {
  const Reading reading = read(
      "Loaf\n\n3 cups (270g) bread flour\n1 cup (240g) water\n1 1/2 tsp (9g) salt\n2 tsp yeast\n");
  CHECK(reading.recipe.parts[0].lines[0].grams.p50() == doctest::Approx(270));
  int doubted = 0;
  for (const Doubt& doubt : reading.recipe.doubts) {
    if (doubt.why.find("do not agree") != std::string::npos) {
      ++doubted;
      CHECK(doubt.text.find("flour") != std::string::npos);
      CHECK(doubt.why.find("270 g") != std::string::npos);
    }
  }
  CHECK(doubted == 1);
}

TEST_CASE("times, temperatures, pieces and untils are read from the method") {
  const std::vector<Step> steps = steps_of(
      "1. Knead for 8 to 10 minutes until silky.\n2. Cover and leave to rise for an hour and a "
      "half, or until doubled.\n3. Divide into 12 pieces of 75 g. Shape and leave for 40 "
      "minutes.\n4. Bake at 220C/200C fan/gas 7 for 15-18 minutes, to an internal temperature of "
      "94C.");
  const auto first = [&](StepKind kind) {
    for (const Step& step : steps) {
      if (step.kind == kind) {
        return step;
      }
    }
    return Step{};
  };
  CHECK(first(StepKind::knead).minutes == Range{8, 10});
  CHECK(first(StepKind::prove).minutes == Range{90, 90});
  CHECK(first(StepKind::divide).pieces == Range{12, 12});
  CHECK(first(StepKind::divide).piece_grams == doctest::Approx(75));
  CHECK(first(StepKind::bake).minutes == Range{15, 18});
  CHECK(first(StepKind::bake).celsius == Range{220, 220});
  CHECK(first(StepKind::bake).until == "core 94 C");
}

TEST_CASE("an oven's scale, fan and marks all come to degrees of a still oven") {
  struct Case {
    const char* text;
    double celsius;
  };
  // Gas marks and fan: see data/ovens.tsv; Fahrenheit exactly.
  for (const Case& one : std::vector<Case>{{"Bake at 375F for 20 minutes.", 190.6},
                                           {"Bake at 350 for 20 minutes.", 176.7},
                                           {"Bake at 200 fan for 20 minutes.", 220},
                                           {"Bake 180C (160C fan) 20 min.", 180},
                                           {"Bake at Gas Mark 6 for 20 minutes.", 200},
                                           {"Bake at 425 degrees F 20 min.", 218.3},
                                           {"Oven at 230, twenty minutes.", 230}}) {
    CAPTURE(std::string(one.text));
    bool found = false;
    for (const Step& step : steps_of(one.text)) {
      if (step.kind == StepKind::bake && step.celsius) {
        CHECK(step.celsius->middle() == doctest::Approx(one.celsius).epsilon(0.01));
        CHECK(step.minutes == Range{20, 20});
        found = true;
      }
    }
    CHECK(found);
  }
}

TEST_CASE("whose kitchen it was is told by words, units and scales") {
  const auto place = [&](const std::string& text) { return read(text).recipe.locale; };
  CHECK(place("Rolls\n\n3 cups all-purpose flour\n1 stick butter\n1 tsp salt\n\nBake at 350F.") ==
        "us");
  CHECK(place("Loaf\n\n500g strong white flour\n1 tsp caster sugar\n\nBake at gas mark 6.") ==
        "uk");
  CHECK(place("Buns\n\n3 cups plain flour\n1/4 cup caster sugar\n\nBake at 180°C fan-forced.") ==
        "au");
  ReadOptions options;
  options.locale = "jp";
  CHECK(read_text("Buns\n\n1 cup flour\n1 tsp salt\n", pantry(), words(), options).recipe.locale ==
        "jp");
}

TEST_CASE("what is missing is doubted, with the usual value") {
  const auto doubts = [&](const std::string& text) {
    std::string out;
    for (const Doubt& doubt : read(text).recipe.doubts) {
      out += doubt.why + "\n";
    }
    return out;
  };
  const std::string bare =
      doubts("Loaf\n\n500 g strong flour\n300 g water\n\nLeave to rise 1 hour. Bake 30 minutes.");
  CHECK(bare.find("no salt") != std::string::npos);
  CHECK(bare.find("no yeast") != std::string::npos);
  CHECK(bare.find("no oven temperature") != std::string::npos);
  CHECK(doubts("Jam\n\n1 kg plums\n500 g sugar\n").find("no flour") != std::string::npos);
  CHECK(doubts("Loaf\n\n500 g flour\n300 g water\n28 g instant yeast\n10 g salt\n")
            .find("was fresh yeast meant") != std::string::npos);
  // Of fresh yeast nobody asks whether it was meant.
  const std::string fresh =
      doubts("Loaf\n\n500 g flour\n300 g water\n70 g fresh yeast\n10 g salt\n");
  CHECK(fresh.find("fresh yeast, as dry, is 4.") != std::string::npos);
  CHECK(fresh.find("was fresh yeast meant") == std::string::npos);
}

TEST_CASE("what is no recipe gets one clear sentence") {
  std::string binary = "\x89PNG\r\n";
  binary.append(200, '\0');
  for (const std::string& text :
       {std::string(), std::string("  \n\n "), binary, std::string(10'000'000, 'a'),
        std::string("%PDF-1.7 stuff"), std::string("the quick brown fox")}) {
    const Reading reading = read(text);
    REQUIRE(reading.problem.has_value());
    CHECK(!reading.problem->what.empty());
    CHECK(!reading.problem->mend.empty());
  }
}

TEST_CASE("absurd and broken input is read with a doubt or refused, never weighed as found") {
  const Reading reading = read(
      "Loaf\n\n99999999999999999999999999 kg flour\n-5 g salt\n\xff\xfe 300 g water\n1e308 cups "
      "sugar\n");
  for (const Part& part : reading.recipe.parts) {
    for (const Line& line : part.lines) {
      CHECK(line.grams.p50() < 1e8);
    }
  }
}

/// Without lines of at most three words and no figure: headings ("Method"), which are read, not
/// kept.
std::string without_headings(const std::string& text) {
  std::string out;
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t to = std::min(text.find('\n', from), text.size());
    const std::string line = text.substr(from, to - from);
    const bool figure = line.find_first_of("0123456789") != std::string::npos;
    if (figure || word_counts(line).size() > 3) {
      out += line + "\n";
    }
    from = to + 1;
  }
  return out;
}

TEST_CASE("nothing of a found recipe is lost") {
  const std::filesystem::path folder =
      std::filesystem::path(MASLIN_SOURCE_DIR) / "tests/reading/found";
  std::size_t lost = 0;
  std::size_t all = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".txt") {
      continue;
    }
    const std::string text = folder_text(entry.path());
    const std::map<std::string, int> after = word_counts(everything(read(text).recipe));
    for (const auto& [word, count] : word_counts(without_headings(text))) {
      all += 1;
      const auto at = after.find(word);
      if (at == after.end()) {
        ++lost;
      }
    }
  }
  CHECK(all > 2000);
  // Numbers of steps and the halves of words broken at a line's end are read, not kept.
  CHECK(lost * 50 < all);
}

TEST_CASE("captions, pages and structured recipes come to the same recipe") {
  const std::string list = "3 cups bread flour\n1 cup water\n1 tsp salt\n2 tsp instant yeast\n";
  const std::string json =
      R"({"@context":"https://schema.org","@graph":[{"@type":["Recipe"],"name":"Loaf",)"
      R"("recipeIngredient":["3 cups bread flour","1 cup water","1 tsp salt",)"
      R"("2 tsp instant yeast"],"recipeInstructions":[{"@type":"HowToStep",)"
      R"("text":"Bake at 220&deg;C for 30 minutes."}]}]})";
  const std::string page = "<!doctype html><html><head><script type=\"application/ld+json\">" +
                           json + "</script></head><body><p>Hello</p></body></html>";
  const std::string micro =
      "<html><body><div itemscope itemtype=\"https://schema.org/Recipe\"><h1 itemprop=\"name\">"
      "Loaf</h1><ul><li itemprop=\"recipeIngredient\">3 cups bread flour</li><li "
      "itemprop=\"recipeIngredient\">1 cup water</li><li itemprop=\"recipeIngredient\">1 tsp "
      "salt</li><li itemprop=\"recipeIngredient\">2 tsp instant "
      "yeast</li></ul></div></body></html>";
  const std::string plain_page =
      "<html><body><nav><ul><li>Home</li></ul></nav><h1>Loaf</h1><ul><li>3 cups bread "
      "flour</li><li>1 cup water</li><li>1 tsp salt</li><li>2 tsp instant "
      "yeast</li></ul></body></html>";
  const std::string captions =
      "WEBVTT\n\n00:00:01.000 --> 00:00:03.000\nyou need three cups of bread\n\n00:00:03.000 --> "
      "00:00:05.000\nflour and a cup of water\n\n00:00:05.000 --> 00:00:08.000\na teaspoon of salt "
      "and two teaspoons of instant yeast\n";
  for (const std::string& found : {"Loaf\n\n" + list, json, page, micro, plain_page, captions}) {
    CAPTURE(found);
    const Reading reading = read(found);
    CHECK(!reading.problem);
    REQUIRE(!reading.recipe.parts.empty());
    const std::vector<Line>& lines = reading.recipe.parts[0].lines;
    REQUIRE(lines.size() == 4);
    CHECK(lines[0].ingredient_id == "strong_white_flour");
    CHECK(lines[0].found.number == Range{3, 3});
    CHECK(lines[1].ingredient_id == "water");
    CHECK(lines[3].ingredient_id == "instant_yeast");
    CHECK(lines[3].found.unit == "tsp");
  }
}

TEST_CASE("any soup of words is read without harm and comes back whole") {
  const bool held = rc::check([] {
    const auto word = rc::gen::element<std::string>(
        "1", "2 1/2", "½", "cups", "g", "flour", "salt", "(", ")", ",", ".", "bake", "at", "220",
        "°C", "minutes", "until", "doubled", "the", "sponge", ":", "\n", "For the filling", "-",
        "and", "of", "a", "half", "x", "7g", "sachet", "\xF0\x9F\x8D\x9E", "1 lemon", "zest", "%");
    const auto soup = *rc::gen::container<std::vector<std::string>>(word);
    std::string text;
    for (const std::string& one : soup) {
      text += one + " ";
    }
    const Reading reading = read_text(text, pantry(), words(), {});
    if (!reading.problem) {
      RC_ASSERT(!reading.recipe.parts.empty());
    }
    for (const Part& part : reading.recipe.parts) {
      for (const Line& line : part.lines) {
        RC_ASSERT(std::isfinite(line.grams.p50()));
      }
    }
  });
  CHECK(held);
}
