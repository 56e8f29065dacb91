// Prints for each style of writing what share of the corpus' lines is read as in the original
// style, and fails below the style's floor. "reading_variants FOLDER": every tenth of the fixtures,
// or all of them where MASLIN_ALL_CASES is set;
// "reading_variants FOLDER STYLE [MANY]": prints the lines lost in that style;
// "reading_variants FOLDER STYLE 0 NAME": prints that text in that style.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "expected.h"
#include "pantry/pantry.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "reading/found.h"
#include "support/all_cases.h"
#include "variants.h"

using namespace maslin;

namespace {

/// The usual check takes one text in so many, the slow one and a look at one style all of them.
constexpr std::size_t k_usual_stride = 10;

/// A line's ingredient and amount, the unit as it is kept.
std::string key(const Line& line) {
  return line.ingredient_id + " " + number_words(line.found.number) + " " + line.found.unit;
}

struct Keys {
  std::vector<std::string> keys;
  std::map<std::string, std::string> text;
};

Recipe read(const std::string& text, const std::string& name, const Pantry& pantry,
            const Words& words) {
  ReadOptions options;
  options.name = name;
  return read_found(text, pantry, words, options).recipe;
}

std::vector<std::string> keys_of(const Recipe& recipe) {
  std::vector<std::string> out;
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      if (!line.ingredient_id.empty()) {
        out.push_back(key(line));
      }
    }
  }
  std::sort(out.begin(), out.end());
  return out;
}

/// The lines of a text; those marked that were read as one ingredient and nothing else.
Sheet sheet_of(const std::string& text, const Recipe& recipe) {
  std::map<std::string, int> read;
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      ++read[squeezed(line.text)];
    }
  }
  Sheet out;
  for (const std::string_view line : split(text, '\n')) {
    std::string own(line);
    while (!own.empty() && (own.back() == '\r' || own.back() == ' ')) {
      own.pop_back();
    }
    std::string bare = squeezed(own);
    for (const std::string_view sign : {"\xE2\x80\xA2 ", "- ", "* ", "\xC2\xB7 "}) {
      bare = bare.starts_with(sign) ? bare.substr(sign.size()) : bare;
    }
    const auto at = read.find(bare);
    out.listed.push_back(!bare.empty() && at != read.end() && at->second == 1);
    out.lines.push_back(std::move(own));
  }
  return out;
}

struct Text {
  std::string name;
  Sheet sheet;
  std::vector<std::string> keys;
  bool english = true;
};

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    std::printf("usage: reading_variants FOLDER [STYLE [MANY]]\n");
    return 2;
  }
  const std::filesystem::path folder = argv[1];
  const std::string only = argc > 2 ? argv[2] : "";
  const int most = argc > 3 ? std::atoi(argv[3]) : 40;
  const std::string wanted = argc > 4 ? argv[4] : "";
  const Pantry pantry(embedded_pantry_tables());
  const Words words(pantry);
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(folder / "found")) {
    if (entry.path().extension() == ".txt") {
      paths.push_back(entry.path());
    }
  }
  std::sort(paths.begin(), paths.end());
  const bool whole = all_cases() || !only.empty();
  if (!whole) {
    std::size_t index = 0;
    std::erase_if(paths, [&index](const auto&) { return index++ % k_usual_stride != 0; });
  }
  std::vector<Text> texts;
  for (const std::filesystem::path& path : paths) {
    const std::string text = file_text(path);
    Text one;
    one.name = path.filename().string();
    ReadOptions options;
    options.name = one.name;
    const Reading reading = read_found(text, pantry, words, options);
    one.english = reading.language == "en";
    one.sheet = sheet_of(text, reading.recipe);
    one.keys = keys_of(reading.recipe);
    const auto listed = std::count(one.sheet.listed.begin(), one.sheet.listed.end(), true);
    if (listed >= 3) {
      texts.push_back(std::move(one));
    }
  }
  const std::string floor_text = file_text(folder / "variant_floors.tsv");
  const Table floors(floor_text);
  std::map<std::string, double> least;
  for (std::size_t row = 0; row < floors.size(); ++row) {
    least[std::string(floors.cell(row, "style"))] =
        floors.number(row, whole ? "percent" : "percent_of_tenth");
  }
  bool good = true;
  Tally all;
  for (const Variant& variant : variants()) {
    if (!only.empty() && only != variant.name) {
      continue;
    }
    Tally lines;
    int extra = 0;
    int shown = 0;
    for (const Text& text : texts) {
      if (variant.english && !text.english) {
        continue;
      }
      const Sheet sheet = variant.rewrite(text.sheet);
      if (sheet.lines == text.sheet.lines && std::string(variant.name) != "as it stands") {
        continue;
      }
      if (!wanted.empty() && text.name.find(wanted) != std::string::npos) {
        std::printf("%s", sheet.text().c_str());
        return 0;
      }
      const std::vector<std::string> got = keys_of(read(sheet.text(), text.name, pantry, words));
      std::vector<std::string> lost;
      std::vector<std::string> more;
      std::set_difference(text.keys.begin(), text.keys.end(), got.begin(), got.end(),
                          std::back_inserter(lost));
      std::set_difference(got.begin(), got.end(), text.keys.begin(), text.keys.end(),
                          std::back_inserter(more));
      lines.right += static_cast<int>(text.keys.size() - lost.size());
      lines.all += static_cast<int>(text.keys.size());
      extra += static_cast<int>(more.size());
      if (!only.empty() && (!lost.empty() || !more.empty()) && shown < most) {
        ++shown;
        std::printf("== %s\n", text.name.c_str());
        for (const std::string& one : lost) {
          std::printf("  lost %s\n", one.c_str());
        }
        for (const std::string& one : more) {
          std::printf("  read %s\n", one.c_str());
        }
      }
    }
    all.right += lines.right;
    all.all += lines.all;
    const auto floor = least.find(variant.name);
    const bool holds = floor != least.end() && lines.percent() + 1e-9 >= floor->second;
    good = good && holds;
    std::printf("%-28s %6d of %6d  %6.2f %%  more %d%s\n", variant.name, lines.right, lines.all,
                lines.percent(), extra, holds ? "" : "  BELOW ITS FLOOR");
  }
  std::printf("%-28s %6d of %6d  %6.2f %%\n", "all styles", all.right, all.all, all.percent());
  return good || !only.empty() ? 0 : 1;
}
