// What a careful baker reads out of a found recipe, row by row, and whether a reading says the
// same.
#pragma once

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "quantity/number_text.h"
#include "quantity/table.h"
#include "recipe/recipe.h"

namespace maslin {

inline std::string file_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream out;
  out << in.rdbuf();
  return out.str();
}

/// White space runs as one blank, for finding a fragment across broken lines.
inline std::string squeezed(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool space = c == ' ' || c == '\n' || c == '\t' || c == '\r';
    if (!space) {
      out += c;
    } else if (!out.empty() && out.back() != ' ') {
      out += ' ';
    }
  }
  while (!out.empty() && out.back() == ' ') {
    out.pop_back();
  }
  return out;
}

inline std::string lowered(std::string text) {
  for (char& c : text) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return text;
}

struct Tally {
  int right = 0;
  int all = 0;
  void add(bool good) {
    right += good ? 1 : 0;
    ++all;
  }
  double percent() const { return all == 0 ? 100.0 : 100.0 * right / all; }
};

struct Score {
  Tally lines;
  Tally parts;
  Tally weights;
  Tally steps;
  Tally doubts;
  Tally places;
  int extra_lines = 0;
};

struct LineRow {
  std::string part, id, low, high, unit, grams, tolerance, fragment;
};

inline bool near(double a, double b) {
  return std::fabs(a - b) <= 0.012 * std::max(1.0, std::fabs(b));
}

inline bool same_number(const std::string& want, const std::optional<Range>& got, bool low) {
  if (want == "-") {
    return true;
  }
  if (want.empty()) {
    return !got;
  }
  const double value = number_from(want).value_or(-1.0);
  return got && near(low ? got->low : got->high, value);
}

inline bool line_right(const LineRow& want, const Line& got) {
  const bool id = want.id == "-" || want.id == got.ingredient_id ||
                  (want.id == "?" && got.ingredient_id.empty());
  const bool unit = want.unit == "-" || want.unit == got.found.unit ||
                    (want.unit.empty() && got.found.unit.empty()) ||
                    (want.unit.empty() && !got.found.number) ||
                    (want.unit == "piece" && got.found.unit.empty());
  return id && unit && same_number(want.low, got.found.number, true) &&
         same_number(want.high, got.found.number, false);
}

inline bool weight_right(const LineRow& want, const Line& got) {
  const double grams = number_from(want.grams).value_or(0.0);
  const double tolerance = number_from(want.tolerance).value_or(10.0);
  return got.weighed && std::fabs(got.grams.p50() - grams) <= tolerance / 100.0 * grams + 1e-6;
}

struct Found {
  const Part* part = nullptr;
  const Line* line = nullptr;
  bool used = false;
};

/// The read line that a row speaks of: its text holds the fragment or stands in it.
inline Found* find_line(std::vector<Found>& lines, const LineRow& want) {
  Found* best = nullptr;
  int best_score = -1;
  const std::string fragment = squeezed(want.fragment);
  for (Found& one : lines) {
    const std::string text = squeezed(one.line->text);
    const bool holds = text.find(fragment) != std::string::npos;
    const bool inside = !text.empty() && fragment.find(text) != std::string::npos;
    if (one.used || (!holds && !inside)) {
      continue;
    }
    int score = holds ? 2 : 1;
    score += one.line->ingredient_id == want.id ? 8 : 0;
    score += part_kind_name(one.part->kind) == want.part ? 4 : 0;
    score += line_right(want, *one.line) ? 3 : 0;
    if (score > best_score) {
      best = &one;
      best_score = score;
    }
  }
  return best;
}

inline std::string number_words(const std::optional<Range>& r) {
  return r ? number_text(r->low, 3) + ".." + number_text(r->high, 3) : "none";
}

inline std::string line_words(const Found& one) {
  const Line& l = *one.line;
  return std::string(part_kind_name(one.part->kind)) + " | " + l.ingredient_id +
         (l.part.empty() ? "" : "[" + l.part + "]") + " | " + number_words(l.found.number) + " " +
         l.found.unit + " " + l.found.size + " " + l.found.packing + " | " +
         (l.weighed ? number_text(l.grams.p10(), 1) + "/" + number_text(l.grams.p50(), 1) + "/" +
                          number_text(l.grams.p90(), 1)
                    : "unweighed") +
         " | name=" + l.name + " | note=" + l.note + " | " + l.text;
}

inline std::string step_words(const Step& s) {
  return std::string(step_kind_name(s.kind)) + " min=" + number_words(s.minutes) +
         " C=" + number_words(s.celsius) + (s.fan ? " fan" : "") +
         " pieces=" + number_words(s.pieces) + " until=" + s.until + " " + s.place + " | " + s.text;
}

inline bool step_right(const std::vector<std::string_view>& want, const Step& got) {
  if (step_kind_name(got.kind) != want[1]) {
    return false;
  }
  const auto cell = [&](std::size_t i) { return i < want.size() ? std::string(want[i]) : "-"; };
  const bool low = cell(2) == "-" || same_number(cell(2), got.minutes, true);
  const bool high = cell(3) == "-" || same_number(cell(3), got.minutes, false);
  const bool pieces = cell(5) == "-" || same_number(cell(5), got.pieces, true);
  bool heat = true;
  if (cell(4) != "-" && !cell(4).empty()) {
    heat =
        got.celsius && std::fabs(got.celsius->middle() - number_from(cell(4)).value_or(0.0)) <= 4.0;
  }
  return low && high && pieces && heat;
}

}  // namespace maslin
