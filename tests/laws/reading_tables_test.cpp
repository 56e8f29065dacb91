// Law: no row of a language's table is lost for a slip of the pen.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>

#include "pantry/pantry.h"
#include "quantity/table.h"
#include "reading/words.h"
#include "recipe/recipe.h"

using namespace maslin;

namespace {

const std::filesystem::path k_tables = std::filesystem::path(MASLIN_SOURCE_DIR) / "data/reading";

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::stringstream out;
  out << file.rdbuf();
  return out.str();
}

/// Without a row of each of these a reader is deaf to something that every recipe says.
const std::set<std::string> k_needed{
    "number", "share",   "article", "unit",     "loose",   "time", "size", "packing", "of",
    "join",   "or",      "to",      "the",      "rest",    "stop", "note", "purpose", "section",
    "part",   "label",   "verb",    "piece",    "until",   "tin",  "fan",  "degree",  "oven",
    "place",  "part_of", "lead",    "roll_out", "roll_up", "name"};

}  // namespace

TEST_CASE("each row of each language has a class, and means what there is") {
  const Pantry pantry(embedded_pantry_tables());
  CHECK(reading::language_names().front() == "en");
  for (const std::string_view language : reading::language_names()) {
    CAPTURE(std::string(language));
    const std::string text = text_of(k_tables / (std::string(language) + ".tsv"));
    const Table table(text);
    REQUIRE(table.size() > 200);
    std::set<std::string> classes;
    for (std::size_t row = 0; row < table.size(); ++row) {
      const std::string cls(table.cell(row, "class"));
      const std::string words(table.cell(row, "words"));
      const std::string means(table.cell(row, "means"));
      CAPTURE(words);
      classes.insert(cls);
      CHECK_MESSAGE(reading::is_row_class(cls), "no such class: ", cls);
      if (cls == "manner") {
        CHECK_MESSAGE(reading::is_manner(means), "no such manner: ", means);
        continue;
      }
      CHECK(!words.empty());
      if (cls == "name" || cls == "counted") {
        CHECK_MESSAGE(pantry.find(means) != nullptr, "not in the pantry: ", means);
      } else if (cls == "verb") {
        CHECK_MESSAGE(step_kind_from(means).has_value(), "no such step: ", means);
      } else if (cls == "part") {
        CHECK_MESSAGE(part_kind_from(means).has_value(), "no such part: ", means);
      }
    }
    for (const std::string& needed : k_needed) {
      CHECK_MESSAGE(classes.count(needed) == 1, "no row of class ", needed);
    }
  }
}

TEST_CASE("the table of a language is read") {
  for (const auto& entry : std::filesystem::directory_iterator(k_tables)) {
    const std::string name = entry.path().stem().string();
    if (name.size() != 2) {
      continue;
    }
    const auto languages = reading::language_names();
    CHECK_MESSAGE(std::find(languages.begin(), languages.end(), name) != languages.end(), name,
                  ".tsv has no row in languages.tsv");
  }
}
