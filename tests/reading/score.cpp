// Reads every found recipe of tests/reading/found and holds the reading against what a
// careful baker reads out of it. Prints lines read right, weights within tolerance, steps
// read right, doubts and places found; fails when a share falls below its floor in
// floors.tsv, or a recipe has more misses than misses.tsv allows it.
// Usage: reading_score FOLDER [NAME]: a name (or part of one) prints what was read and
// each miss of that recipe only; "--misses" prints the table misses.tsv anew
// and nothing else.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "expected.h"
#include "pantry/pantry.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "reading/found.h"

using namespace maslin;

namespace {

class Judge {
 public:
  Judge(const Pantry& pantry, const Words& words, bool loud)
      : pantry_(pantry), words_(words), loud_(loud) {}

  void judge(const std::filesystem::path& text_path, const std::filesystem::path& expect_path,
             Score& total) {
    const std::string expected = file_text(expect_path);
    ReadOptions options;
    options.name = text_path.filename().string();
    const Reading reading = read_found(file_text(text_path), pantry_, words_, options);
    name_ = text_path.stem().string();
    if (reading.problem) {
      std::printf("%s: %s\n", name_.c_str(), sentence(*reading.problem).c_str());
    }
    const Recipe& recipe = reading.recipe;
    if (loud_) {
      print(recipe, reading.language);
    }
    std::vector<Found> lines;
    for (const Part& part : recipe.parts) {
      for (const Line& line : part.lines) {
        lines.push_back({&part, &line, false});
      }
    }
    std::vector<std::pair<const Step*, bool>> steps;
    for (const Part& part : recipe.parts) {
      for (const Step& step : part.steps) {
        steps.emplace_back(&step, false);
      }
    }
    for (const std::string_view row_text : split(expected, '\n')) {
      const std::vector<std::string_view> row = split(row_text, '\t');
      if (row.empty() || row[0].starts_with("#")) {
        continue;
      }
      if (row[0] == "line" && row.size() >= 9) {
        judge_line(row, lines, total);
      } else if (row[0] == "step" && row.size() >= 3) {
        judge_step(row, steps, total);
      } else if (row[0] == "doubt" && row.size() >= 2) {
        judge_doubt(std::string(row[1]), recipe, total);
      } else if (row[0] == "locale" && row.size() >= 2 && row[1] != "any") {
        // A country of the continent is a finer answer than "eu".
        const std::string& place = recipe.locale;
        const bool country = row[1] == "eu" && (place == "de" || place == "fr" || place == "es" ||
                                                place == "it" || place == "se" || place == "pl");
        const bool good = place == row[1] || country;
        total.places.add(good);
        miss(good, "place", std::string(row[1]) + ", read " + recipe.locale);
      }
    }
    for (const Found& one : lines) {
      if (!one.used && one.line->part.empty()) {
        ++total.extra_lines;
        if (loud_) {
          std::printf("  extra: %s\n", line_words(one).c_str());
        }
      }
    }
  }

  std::map<std::string, int> missed;
  bool quiet = false;

 private:
  void miss(bool good, const char* what, const std::string& words) {
    if (!good) {
      ++missed[name_];
    }
    if (!good && !quiet) {
      std::printf("%s: %s: %s\n", name_.c_str(), what, words.c_str());
    }
  }

  void judge_line(const std::vector<std::string_view>& row, std::vector<Found>& lines,
                  Score& total) {
    const LineRow want{std::string(row[1]), std::string(row[2]), std::string(row[3]),
                       std::string(row[4]), std::string(row[5]), std::string(row[6]),
                       std::string(row[7]), std::string(row[8])};
    Found* found = find_line(lines, want);
    const std::string wanted = want.part + " " + want.id + " " + want.low + ".." + want.high + " " +
                               want.unit + " " + want.grams + " g <" + want.fragment + ">";
    if (found == nullptr) {
      total.lines.add(false);
      if (want.grams != "-" && !want.grams.empty()) {
        total.weights.add(false);
      }
      miss(false, "line not read", wanted);
      return;
    }
    found->used = true;
    const bool good = line_right(want, *found->line);
    total.lines.add(good);
    miss(good, "line", wanted + "\n      read " + line_words(*found));
    if (want.part != "-") {
      const bool part = part_kind_name(found->part->kind) == want.part;
      total.parts.add(part);
      miss(part, "part", wanted + "\n      read " + line_words(*found));
    }
    if (want.grams != "-" && !want.grams.empty()) {
      const bool weight = weight_right(want, *found->line);
      total.weights.add(weight);
      if (good) {
        miss(weight, "weight", wanted + "\n      read " + line_words(*found));
      }
    }
  }

  void judge_step(const std::vector<std::string_view>& row,
                  std::vector<std::pair<const Step*, bool>>& steps, Score& total) {
    for (auto& [step, used] : steps) {
      if (!used && step_right(row, *step)) {
        used = true;
        total.steps.add(true);
        return;
      }
    }
    total.steps.add(false);
    std::string words;
    for (const std::string_view cell : row) {
      words += std::string(cell) + " ";
    }
    miss(false, "step", words);
  }

  void judge_doubt(const std::string& word, const Recipe& recipe, Score& total) {
    bool good = false;
    for (const Doubt& doubt : recipe.doubts) {
      good = good || lowered(doubt.text + " " + doubt.why).find(word) != std::string::npos;
    }
    total.doubts.add(good);
    miss(good, "doubt", word);
  }

  void print(const Recipe& recipe, const std::string& language) const {
    std::printf("== %s  title=%s  %s %.2f  %s  pieces=%s\n", name_.c_str(), recipe.title.c_str(),
                recipe.locale.c_str(), recipe.locale_probability, language.c_str(),
                number_words(recipe.pieces).c_str());
    for (const Part& part : recipe.parts) {
      std::printf(" [%s: %s]\n", std::string(part_kind_name(part.kind)).c_str(), part.name.c_str());
      for (const Line& line : part.lines) {
        std::printf("  %s\n", line_words({&part, &line, false}).c_str());
      }
      for (const Step& step : part.steps) {
        std::printf("  > %s\n", step_words(step).c_str());
      }
    }
    for (const std::string& remark : recipe.remarks) {
      std::printf("  remark: %s\n", remark.c_str());
    }
    for (const Doubt& doubt : recipe.doubts) {
      std::printf("  doubt: %s: %s\n", doubt.text.c_str(), doubt.why.c_str());
    }
  }

  const Pantry& pantry_;
  const Words& words_;
  bool loud_;
  std::string name_;
};

/// Whether no recipe of the table has more misses than it had; recipes not in the table
/// are new and judged by the floors alone.
bool none_worse(const Table& allowed, const std::map<std::string, int>& missed) {
  bool good = true;
  for (std::size_t row = 0; row < allowed.size(); ++row) {
    const auto at = missed.find(std::string(allowed.cell(row, "name")));
    const int misses = at == missed.end() ? 0 : at->second;
    const int most = static_cast<int>(allowed.number(row, "misses"));
    if (misses > most) {
      std::printf("%s: %d misses, it had %d\n", std::string(allowed.cell(row, "name")).c_str(),
                  misses, most);
      good = false;
    }
  }
  return good;
}

/// Compares a share with its floor; true when it holds.
bool holds(const Table& floors, std::string_view what, const Tally& tally) {
  for (std::size_t row = 0; row < floors.size(); ++row) {
    if (floors.cell(row, "what") == what) {
      const double floor = floors.number(row, "percent");
      const bool good = tally.percent() + 1e-9 >= floor;
      std::printf("%-8s %5d of %5d  %6.2f %%  (floor %.2f)%s\n", std::string(what).c_str(),
                  tally.right, tally.all, tally.percent(), floor, good ? "" : "  BELOW ITS FLOOR");
      return good;
    }
  }
  return false;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    std::printf("usage: reading_score FOLDER [NAME]\n");
    return 2;
  }
  const std::filesystem::path folder = argv[1];
  const bool table = argc > 2 && std::string(argv[2]) == "--misses";
  const std::string only = argc > 2 && !table ? argv[2] : "";
  const Pantry pantry(embedded_pantry_tables());
  const Words words(pantry);
  std::vector<std::filesystem::path> texts;
  for (const auto& entry : std::filesystem::directory_iterator(folder / "found")) {
    const std::filesystem::path& path = entry.path();
    const std::string name = path.filename().string();
    if (name.find(".expect.") == std::string::npos && name.find(only) != std::string::npos) {
      texts.push_back(path);
    }
  }
  std::sort(texts.begin(), texts.end());
  Score score;
  Judge judge(pantry, words, !only.empty());
  judge.quiet = table;
  std::size_t judged = 0;
  for (const std::filesystem::path& path : texts) {
    const std::filesystem::path expect = folder / "found" / (path.stem().string() + ".expect.tsv");
    if (std::filesystem::exists(expect)) {
      judge.judge(path, expect, score);
      ++judged;
    }
  }
  if (table) {
    std::printf(
        "# Misses that each found recipe has and may have: lines, parts, weights, steps, doubts, "
        "place. Only go down.\nname\tmisses\n");
    for (const std::filesystem::path& path : texts) {
      const auto at = judge.missed.find(path.stem().string());
      std::printf("%s\t%d\n", path.stem().string().c_str(),
                  at == judge.missed.end() ? 0 : at->second);
    }
    return 0;
  }
  const std::string floor_text = file_text(folder / "floors.tsv");
  const Table floors(floor_text);
  std::printf("\n%zu found recipes\n", judged);
  bool good = judged > 0;
  good = holds(floors, "lines", score.lines) && good;
  good = holds(floors, "parts", score.parts) && good;
  good = holds(floors, "weights", score.weights) && good;
  good = holds(floors, "steps", score.steps) && good;
  good = holds(floors, "doubts", score.doubts) && good;
  good = holds(floors, "places", score.places) && good;
  std::printf("lines nobody asked for: %d\n", score.extra_lines);
  const std::string misses_text = file_text(folder / "misses.tsv");
  good = none_worse(Table(misses_text), judge.missed) && good;
  return good || !only.empty() ? 0 : 1;
}
