// The blind bake-off: whole published recipes from their text through reading and
// forecast, each stage against what the source states. Writes docs/bakeoff.md's table to
// BUILD/bakeoff.md and its rows to the book of checks.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "app/app.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "support/all_cases.h"
#include "support/book.h"

using namespace maslin;

namespace {

std::string text_of(const std::string& name) {
  const std::ifstream file(std::string(MASLIN_SOURCE_DIR) + "/tests/bakeoff/" + name);
  REQUIRE_MESSAGE(file.good(), name);
  std::ostringstream out;
  out << file.rdbuf();
  return out.str();
}

/// One stage of one split: how far the middles lie off, and how many ranges hold.
struct Stage {
  std::vector<double> errors;
  int held = 0;
  double median() const {
    std::vector<double> sorted = errors;
    std::sort(sorted.begin(), sorted.end());
    return sorted.empty() ? 0.0 : sorted[sorted.size() / 2];
  }
};

/// Stages by split: [seen, unseen].
struct Report {
  Stage bulk[2];
  Stage prove[2];
  Stage bake[2];
  int feel_right[2] = {0, 0};
  int feel_of[2] = {0, 0};
  std::string table;
};

struct Stated {
  double low = 0.0;
  double high = 0.0;
  double middle() const { return std::sqrt(low * high); }
};

std::optional<Stated> stated_in(const Table& table, std::size_t row, const std::string& stage) {
  const double low = table.number(row, stage + "_low", -1.0);
  return low < 0.0 ? std::nullopt
                   : std::optional<Stated>({low, table.number(row, stage + "_high", low)});
}

/// The stage's cell of the table, its row in the book, and its error.
std::string judge(Stage& stage, const std::optional<Stated>& stated, const Band& got,
                  const std::string& what, std::string_view source) {
  const auto round = [](double x) { return number_text(x, 0); };
  const std::string range = round(got.p50) + " [" + round(got.p10) + "–" + round(got.p90) + "]";
  if (!stated) {
    return " – | " + range + " |";
  }
  stage.errors.push_back(std::fabs(got.p50 / stated->middle() - 1.0));
  const bool held = got.p10 <= stated->high && got.p90 >= stated->low;
  stage.held += held ? 1 : 0;
  book::as_noted({"bake-off", what, "min", source, book::Mark::read,
                  held ? "" : "outside the forecast's range: docs/bakeoff.md"},
                 range,
                 stated->low == stated->high ? round(stated->low)
                                             : round(stated->low) + " to " + round(stated->high),
                 held);
  return " " + round(stated->low) + (stated->low == stated->high ? "" : "–" + round(stated->high)) +
         " | " + (held ? "" : "🔴 ") + range + " |";
}

std::string judge_feel(Report& report, int group, std::string_view expected,
                       const std::string& feel, const std::string& what, std::string_view source) {
  if (expected.empty()) {
    return " – | " + feel + " |";
  }
  const std::vector<std::string_view> words = split(expected, '|');
  const bool right = std::find(words.begin(), words.end(), feel) != words.end();
  report.feel_right[group] += right ? 1 : 0;
  ++report.feel_of[group];
  book::as_noted({"bake-off", what, "", source, book::Mark::read,
                  right ? "" : "another class than stated: docs/bakeoff.md"},
                 feel, expected, right);
  std::string words_text(expected);
  std::replace(words_text.begin(), words_text.end(), '|', '/');
  return " " + words_text + " | " + (right ? "" : "🔴 ") + feel + " |";
}

std::string total(const char* name, const Stage stages[2]) {
  std::string out = std::string("| ") + name + " |";
  for (int group = 0; group < 2; ++group) {
    const Stage& stage = stages[group];
    out += " " + number_text(100.0 * stage.median(), 0) + " % | " + std::to_string(stage.held) +
           " of " + std::to_string(stage.errors.size()) + " |";
  }
  return out + "\n";
}

// The bound of what is baked at large was set on the texts up to this number; those that come
// later are unseen, and told apart.
constexpr int k_last_with_bound = 1600;
constexpr const char* k_with_bound = "all, of texts 1 to 1600";
constexpr const char* k_later = "all, of later texts";
/// The usual check takes one text in so many, the slow one all of them.
constexpr std::size_t k_usual_stride = 4;

/// Minutes in the oven of every found text that states them, by the shape that was taken.
using Shapes = std::map<std::string, Stage>;
Shapes bakes_at_large(const Tools& tools) {
  Shapes out;
  std::vector<std::filesystem::path> files;
  for (const auto& file :
       std::filesystem::directory_iterator(MASLIN_SOURCE_DIR "/tests/reading/found")) {
    if (file.path().extension() != ".tsv") {
      files.push_back(file.path());
    }
  }
  std::sort(files.begin(), files.end());
  if (!all_cases()) {
    std::size_t index = 0;
    std::erase_if(files, [&index](const auto&) { return index++ % k_usual_stride != 0; });
  }
  std::ofstream rows(MASLIN_BINARY_DIR "/bakes_at_large.tsv");  // to set two builds side by side
  for (const std::filesystem::path& file : files) {
    std::ifstream in(file);
    std::ostringstream text;
    text << in.rdbuf();
    const auto recipe = read_recipe(tools, {text.str(), file.filename().string(), ""});
    if (!recipe.value) {
      continue;
    }
    ForecastRequest request;
    request.options.draws = 64;
    request.options.heed_stated_minutes = false;
    const auto forecast = forecast_recipe(tools, *recipe.value, request);
    if (!forecast.value || !forecast.value->bake || !forecast.value->bake->stated_minutes ||
        *forecast.value->bake->stated_minutes <= 0.0) {
      continue;
    }
    const BakeSummary& bake = *forecast.value->bake;
    rows << file.filename().string() << '\t' << bake.shape << '\t'
         << number_text(*bake.stated_minutes, 1) << '\t' << number_text(bake.minutes.p50, 1)
         << '\n';
    // What stands over boiling water (brown breads, two to five hours of it) is in no oven: apart.
    const bool steamed = bake.setting_celsius <= 100.5;
    const bool bound = std::atoi(file.filename().c_str()) <= k_last_with_bound;
    for (const std::string& shape :
         steamed ? std::vector<std::string>{"steamed"}
                 : std::vector<std::string>{bake.shape, "all", bound ? k_with_bound : k_later}) {
      out[shape].errors.push_back(std::fabs(bake.minutes.p50 / *bake.stated_minutes - 1.0));
      out[shape].held +=
          bake.minutes.p10 <= *bake.stated_minutes && bake.minutes.p90 >= *bake.stated_minutes;
    }
  }
  return out;
}

void write_report(const Report& report, std::size_t recipes, const Shapes& at_large) {
  std::ofstream out(MASLIN_BINARY_DIR "/bakeoff.md");
  std::ostringstream large;
  for (const auto& [shape, stage] : at_large) {
    large << "| " << shape << " | " << stage.errors.size() << " | "
          << number_text(100.0 * stage.median(), 0) << " % | " << stage.held << " |\n";
  }
  out << "# The blind bake-off\n\n"
      << recipes
      << " whole published recipes, from their text through reading and forecast with nothing else "
         "told: no kitchen, no correction. Made by `tests/bakeoff/bakeoff_test.cpp`; do not edit. "
         "*Unseen* recipes were collected after every constant was set, and none is set by them. "
         "The first run had the unseen feel right 12 times of 21 and a median error of 46 % in "
         "the last rise; it led to three changes of principle: the feel named is the middle "
         "draw's; a later rise without a place is where the first one was (46 to 28 %); whole "
         "dried "
         "fruit and nuts keep their sugar to themselves (which moved the first rise from 32 to "
         "34 %). "
         "Sources stand in `tests/bakeoff/stated.tsv`.\n\n"
      << "| stage | seen: median error | ranges that hold | unseen: median error | ranges that "
         "hold "
         "|\n| --- | --: | --: | --: | --: |\n"
      << total("first rise", report.bulk) << total("last rise", report.prove)
      << total("bake", report.bake) << "\nFeel right: seen " << report.feel_right[0] << " of "
      << report.feel_of[0] << ", unseen " << report.feel_right[1] << " of " << report.feel_of[1]
      << ".\n\nMinutes: stated, then the forecast's middle and what 8 of 10 fall between. A range "
         "that only touches what is stated holds.\n\n"
      << "Of the texts in `tests/reading/found` that state minutes in the oven, read and forecast "
         "with nothing else told and the stated minutes not looked at (no constant is set by "
         "them; what shape is baked and how many is told by most only in passing; the usual check "
         "takes every fourth text, ctest's bakeoff_all_cases all of them):\n\n"
      << "| taken as | texts | median error | ranges that hold |\n| --- | --: | --: | --: |\n"
      << large.str()
      << "\n| recipe | | feel | forecast | first rise | forecast | last rise | forecast | bake | "
         "forecast |\n| --- | --- | --- | --- | --: | --: | --: | --: | --: | --: |\n"
      << report.table;
}

}  // namespace

TEST_CASE("whole published recipes rise and bake about as long as they say") {
  const std::string text = text_of("stated.tsv");
  const Table table(text);
  REQUIRE(table.size() >= 30);
  const Tools tools;
  Report report;
  for (std::size_t row = 0; row < table.size(); ++row) {
    const std::string name(table.cell(row, "name"));
    const std::string_view source = table.cell(row, "source");
    const int group = table.cell(row, "split") == "seen" ? 0 : 1;
    CAPTURE(name);
    const auto recipe = read_recipe(tools, {text_of("recipes/" + name + ".txt"), name, ""});
    REQUIRE(recipe.value.has_value());
    ForecastRequest request;
    request.options.draws = 256;
    request.options.heed_stated_minutes = false;  // they are what is asked
    const auto forecast = forecast_recipe(tools, *recipe.value, request);
    REQUIRE_MESSAGE(forecast.value.has_value(), forecast.problem);
    const ForecastSummary& got = *forecast.value;
    REQUIRE(got.dough.has_value());
    REQUIRE(got.bake.has_value());
    REQUIRE_FALSE(got.proves.empty());
    const std::string what = name + (group == 0 ? "" : " (unseen)");
    report.table += "| " + name + " | " + std::string(table.cell(row, "split")) + " |" +
                    judge_feel(report, group, table.cell(row, "feel"),
                               got.dough->feel.front().first, what + ": feel", source) +
                    judge(report.bulk[group], stated_in(table, row, "bulk"),
                          got.proves.front().minutes, what + ": first rise", source) +
                    judge(report.prove[group], stated_in(table, row, "prove"),
                          got.proves.back().minutes, what + ": last rise", source) +
                    judge(report.bake[group], stated_in(table, row, "bake"), got.bake->minutes,
                          what + ": bake", source) +
                    "\n";
  }
  const Shapes at_large = bakes_at_large(tools);
  if (!all_cases()) {
    write_report(report, table.size(), at_large);  // the same in every check
  }
  MESSAGE("unseen: feel ", report.feel_right[1], " of ", report.feel_of[1], ", first rise ",
          report.bulk[1].median(), ", last rise ", report.prove[1].median(), ", bake ",
          report.bake[1].median());
  // No worse than it was: what is wanted (feel 9 in 10, rises 25 %, bake 15 %) is missed and
  // recorded in docs/bakeoff.md.
  CHECK(report.feel_right[1] >= 13);
  CHECK(report.bulk[1].median() < 0.35);
  CHECK(report.prove[1].median() < 0.30);
  CHECK(report.bake[1].median() < 0.24);
  const Stage& all = at_large.at("all");
  MESSAGE("at large: ", all.errors.size(), " texts, median error ", all.median(), ", ", all.held,
          " ranges hold");
  const Stage& bound = at_large.at(k_with_bound);
  MESSAGE("of texts 1 to 1600: ", bound.errors.size(), ", ", bound.median(),
          "; later: ", at_large.at(k_later).errors.size(), ", ", at_large.at(k_later).median());
  CHECK(bound.errors.size() > (all_cases() ? 600 : 150));
  // Wanted 15 %: see docs/models/bake.md.
  CHECK(bound.median() < 0.235);
}
