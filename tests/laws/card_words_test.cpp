// Law: whatever a card can say has words in each of its languages.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "handon/card_words.h"
#include "pantry/pantry.h"
#include "quantity/table.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"

using namespace maslin;

namespace {

const std::filesystem::path k_root(MASLIN_SOURCE_DIR);

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::stringstream out;
  out << file.rdbuf();
  return out.str();
}

/// The columns of the tables that have one for each language but English.
const std::vector<std::string> k_columns = [] {
  std::vector<std::string> out;
  for (const auto& [tag, name] : handon::card_languages()) {
    if (!tag.starts_with("en")) {
      out.push_back(tag);
    }
  }
  return out;
}();

/// The first column of a table; each row has something in each language's column.
std::set<std::string> keys_of(const std::string& name, const std::string& key) {
  const std::string text = text_of(k_root / "data" / name);
  const Table table(text);
  std::set<std::string> out;
  for (std::size_t row = 0; row < table.size(); ++row) {
    const std::string here(table.cell(row, key));
    out.insert(here);
    for (const std::string& column : k_columns) {
      CHECK_MESSAGE(!table.cell(row, column).empty(), name, " ", here, " ", column);
    }
  }
  CHECK(!out.empty());
  return out;
}

const std::set<std::string>& phrases() {
  static const std::set<std::string> k_phrases = keys_of("words/card.tsv", "key");
  return k_phrases;
}

void has(const std::string& key) {
  CHECK_MESSAGE(phrases().count(key) == 1, "no words for ", key);
}

}  // namespace

TEST_CASE("every phrase that the code asks for is in the table") {
  const std::regex asked(R"re(say\(\s*"([a-z_]+)")re");
  int found = 0;
  for (const char* folder : {"src/handon", "src/print", "src/app"}) {
    for (const auto& entry : std::filesystem::directory_iterator(k_root / folder)) {
      if (entry.path().extension() != ".cpp") {
        continue;
      }
      const std::string code = text_of(entry.path());
      for (std::sregex_iterator at(code.begin(), code.end(), asked), end; at != end; ++at) {
        const std::string key = (*at)[1];
        found += 1;
        if (key.back() != '_') {
          has(key);
        }
      }
    }
  }
  CHECK(found > 60);
}

TEST_CASE("every phrase keeps its holes in every language") {
  const std::string text = text_of(k_root / "data/words/card.tsv");
  const Table table(text);
  const auto holes = [](std::string_view words) {
    std::set<char> out;
    for (std::size_t i = 0; i + 2 < words.size(); ++i) {
      if (words[i] == '{' && words[i + 2] == '}') {
        out.insert(words[i + 1]);
      }
    }
    return out;
  };
  for (std::size_t row = 0; row < table.size(); ++row) {
    for (const std::string& column : k_columns) {
      CHECK_MESSAGE(holes(table.cell(row, column)) == holes(table.cell(row, "en")),
                    table.cell(row, "key"), " ", column);
    }
  }
}

TEST_CASE("every kind of thing on a card has a name") {
  for (const PartKind kind :
       {PartKind::dough, PartKind::preferment, PartKind::soaker, PartKind::extract,
        PartKind::filling, PartKind::topping, PartKind::wash, PartKind::glaze}) {
    has("part_" + std::string(part_kind_name(kind)));
  }
  for (int kind = 0; kind <= static_cast<int>(StepKind::finish); ++kind) {
    has("step_" + std::string(step_kind_name(static_cast<StepKind>(kind))));
  }
  for (int kind = 0; kind <= static_cast<int>(OvenKind::toaster); ++kind) {
    const std::string name(oven_kind_name(static_cast<OvenKind>(kind)));
    has("oven_" + name);
    has("room_" + name);
  }
  const std::string densities = text_of(k_root / "data/densities.tsv");
  const Table packings(densities);
  for (std::size_t row = 0; row < packings.size(); ++row) {
    const std::string packing(packings.cell(row, "packing"));
    if (packing != "level") {
      has("packing_" + packing);
    }
  }
  const std::string portions = text_of(k_root / "data/portions.tsv");
  const Table counted(portions);
  for (std::size_t row = 0; row < counted.size(); ++row) {
    const std::string unit(counted.cell(row, "word"));
    const std::string size(counted.cell(row, "size"));
    if (!unit.empty() && unit != "piece") {
      has("measure_" + unit);
    }
    if (!size.empty()) {
      has("size_" + size);
    }
  }
  const std::string measures = text_of(k_root / "data/measures.tsv");
  const Table vessels(measures);
  for (std::size_t row = 0; row < vessels.size(); ++row) {
    has("measure_" + std::string(vessels.cell(row, "unit")));
  }
  const Pantry pantry(embedded_pantry_tables());
  for (const Ingredient& one : pantry.ingredients()) {
    for (const std::string& allergen : one.allergens) {
      has("allergen_" + allergen);
    }
  }
}

TEST_CASE("cautions, stand-ins, advice and ingredients have words in every language") {
  const std::set<std::string> cautions = keys_of("words/cautions.tsv", "id");
  for (const auto& [file, column] :
       {std::pair("kitchen_cautions.tsv", "when"), std::pair("cautions.tsv", "id")}) {
    const std::string text = text_of(k_root / "data" / file);
    const Table table(text);
    for (std::size_t row = 0; row < table.size(); ++row) {
      const std::string id(table.cell(row, column));
      CHECK_MESSAGE(cautions.count(id) == 1, "no words for the caution ", id);
    }
  }
  const std::set<std::string> stand_ins = keys_of("words/stand_ins.tsv", "en");
  const std::string text = text_of(k_root / "data/substitutions.tsv");
  const Table table(text);
  for (std::size_t row = 0; row < table.size(); ++row) {
    const std::string changes(table.cell(row, "changes"));
    CHECK_MESSAGE(stand_ins.count(changes) == 1, "no words for the stand-in: ", changes);
  }
  keys_of("handon/bake_advice.tsv", "when");
  keys_of("card_words.tsv", "en");
  keys_of("words/until.tsv", "word");
  const std::set<std::string> names = keys_of("words/ingredient_names.tsv", "id");
  const Pantry pantry(embedded_pantry_tables());
  for (const Ingredient& one : pantry.ingredients()) {
    CHECK_MESSAGE(names.count(one.id) == 1, "no name for ", one.id);
  }
}
