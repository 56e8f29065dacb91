// Law: a recipe written in the schema.org vocabulary reads back to the same recipe.
#include "handon/jsonld.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "laws/recipe_kit.h"
#include "pantry/pantry.h"
#include "reading/found.h"
#include "reading/reading.h"

using namespace maslin;
using recipe_kit::pantry;

namespace {

const Words& words() {
  static const Words k_words(pantry());
  return k_words;
}

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::stringstream out;
  out << file.rdbuf();
  return out.str();
}

/// Weights of up to 20 g are written to a tenth, others to the gram.
bool same_weight(const Line& was, const Line& is) {
  const double grams = was.grams.p50();
  return was.weighed == is.weighed &&
         std::fabs(is.grams.p50() - grams) <= std::max(0.5, 0.005 * grams);
}

/// Lines and steps of the recipe, and how many of them came back in their part.
struct Kept {
  int lines = 0;
  int lines_back = 0;
  int steps = 0;
  int steps_back = 0;
};

Kept kept(const Recipe& was, const Recipe& is) {
  Kept out;
  for (const Part& part : was.parts) {
    // The only part goes without its heading.
    const bool alone = was.parts.size() == 1 && is.parts.size() == 1;
    const Part* back = alone ? &is.parts.front() : is.part_named(part.name);
    for (const Line& line : part.lines) {
      out.lines += 1;
      out.lines_back += back != nullptr &&
                        std::any_of(back->lines.begin(), back->lines.end(), [&](const Line& one) {
                          return one.ingredient_id == line.ingredient_id && one.part == line.part &&
                                 same_weight(line, one);
                        });
    }
    for (const Step& step : part.steps) {
      out.steps += 1;
      out.steps_back += back != nullptr &&
                        std::any_of(back->steps.begin(), back->steps.end(), [&](const Step& one) {
                          return one.kind == step.kind && one.minutes == step.minutes &&
                                 one.celsius == step.celsius;
                        });
    }
  }
  return out;
}

Recipe back_from(const Recipe& recipe) {
  const Reading reading =
      read_found(handon::recipe_to_jsonld(recipe, pantry(), {}), pantry(), words(), {});
  REQUIRE(!reading.problem.has_value());
  return reading.recipe;
}

}  // namespace

TEST_CASE("any recipe comes back from JSON-LD with its parts, weights and settings") {
  const bool held = rc::check([] {
    const Recipe recipe = recipe_kit::any_recipe();
    const Recipe back = back_from(recipe);
    RC_LOG() << handon::recipe_to_jsonld(recipe, pantry(), {});
    RC_ASSERT(back.title == recipe.title);
    RC_ASSERT(back.locale == recipe.locale);
    RC_ASSERT(back.pieces == recipe.pieces);
    RC_ASSERT(back.parts.size() == recipe.parts.size());
    for (std::size_t p = 0; p < back.parts.size(); ++p) {
      RC_ASSERT(back.parts[p].kind == recipe.parts[p].kind);
      RC_ASSERT(back.parts[p].lines.size() == recipe.parts[p].lines.size());
    }
    const Kept all = kept(recipe, back);
    RC_ASSERT(all.lines_back == all.lines);
    RC_ASSERT(all.steps_back == all.steps);
  });
  CHECK(held);
}

TEST_CASE("a language is said where the words are English, and believed") {
  // "Masa harina" alone would be read as Spanish, in which "Filling:" is no heading.
  Recipe recipe;
  recipe.title = "Saturday buns";
  for (const PartKind kind : {PartKind::dough, PartKind::filling}) {
    Line line;
    line.ingredient_id = "masa_harina";
    line.name = pantry().find("masa_harina")->name;
    line.grams = point(200);
    line.found = {Range{200, 200}, "g", "", ""};
    line.weighed = true;
    recipe.parts.push_back(
        {kind, std::string(part_kind_name(kind)), {line, line, line}, {}, point(1.0)});
  }
  const Recipe back = back_from(recipe);
  REQUIRE(back.parts.size() == 2);
  CHECK(back.parts[0].kind == PartKind::dough);
  CHECK(back.parts[1].kind == PartKind::filling);
  CHECK(handon::recipe_to_jsonld(recipe, pantry(), {}).find("\"inLanguage\": \"en\"") !=
        std::string::npos);
}

TEST_CASE("the tin comes back") {
  Recipe recipe;
  recipe.title = "Tin loaf";
  Line flour;
  flour.ingredient_id = "plain_flour";
  flour.name = "plain flour";
  flour.grams = point(500);
  flour.found = {Range{500, 500}, "g", "", ""};
  flour.weighed = true;
  recipe.parts.push_back({PartKind::dough, "dough", {flour}, {}, point(1.0)});
  recipe.tin = Tin{"loaf", 230, 130, 70, 0, "", ""};
  const Recipe back = back_from(recipe);
  REQUIRE(back.tin.has_value());
  CHECK(back.tin->kind == "loaf");
  CHECK(back.tin->length_mm == doctest::Approx(230));
  CHECK(back.tin->width_mm == doctest::Approx(130));
}

TEST_CASE("found recipes come back from JSON-LD, nearly all of them whole") {
  Kept sum;
  for (const auto& entry :
       std::filesystem::directory_iterator(MASLIN_SOURCE_DIR "/tests/reading/found")) {
    if (entry.path().extension() != ".txt") {
      continue;
    }
    const Reading first = read_found(text_of(entry.path()), pantry(), words(), {});
    if (first.problem) {
      continue;
    }
    const Kept one = kept(first.recipe, back_from(first.recipe));
    sum.lines += one.lines;
    sum.lines_back += one.lines_back;
    sum.steps += one.steps;
    sum.steps_back += one.steps_back;
  }
  MESSAGE(sum.lines_back, " of ", sum.lines, " lines and ", sum.steps_back, " of ", sum.steps,
          " steps came back");
  // What does not: parts with headings no language knows, steps without words of their own.
  CHECK(sum.lines_back >= 0.95 * sum.lines);
  CHECK(sum.steps_back >= 0.9 * sum.steps);
}
