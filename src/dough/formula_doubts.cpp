#include "dough/formula_doubts.h"

#include <array>
#include <optional>

#include "dough/embedded_table.h"
#include "pantry/pantry.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin {
namespace {

struct Advice {
  std::string_view what;
  std::string_view too_low;
  std::string_view too_high;
};

constexpr std::array<Advice, 9> k_likely{{
    {"hydration", "a liquid was left out, or the flour was weighed twice",
     "a cup of liquid too many, or flour measured light"},
    {"salt", "salt was forgotten, or is in an ingredient not recognised",
     "a tablespoon written for a teaspoon"},
    {"yeast", "the yeast was left out", "fresh yeast given as dry, or a packet too many"},
    {"sugar", "the sugar was left out", "sugar of the filling or glaze counted with the dough"},
    {"fat", "the fat was left out", "fat of the filling counted with the dough"},
    {"egg", "the eggs were left out", "eggs for the wash counted with the dough"},
    {"spice", "", "spice of the filling counted with the dough"},
    {"sugar_per_water", "", "much sugar in little liquid"},
    {"ph", "acid fruit or much sour dairy", "too much soda"},
}};

std::optional<double> figure_of(const DoughState& state, std::string_view what) {
  const auto mean = [](const Lanes& x) { return sum(x) / static_cast<double>(k_lane_count); };
  if (what == "hydration") {
    return feel_at(mean(state.feel_score)) == DoughFeel::batter
               ? std::nullopt
               : std::optional(mean(state.water_pct_flour));
  }
  if (what == "salt") {
    return mean(state.salt_pct_flour);
  }
  if (what == "yeast") {
    return mean(state.yeast_pct_flour);
  }
  if (what == "sugar") {
    return mean(state.sugar_pct_flour);
  }
  if (what == "fat") {
    return mean(state.fat_pct_flour);
  }
  if (what == "egg") {
    return mean(state.egg_pct_flour);
  }
  if (what == "spice") {
    return mean(state.spice_pct_flour);
  }
  if (what == "sugar_per_water") {
    return mean(state.sugar_per_water);
  }
  return what == "ph" ? std::optional(mean(state.ph)) : std::nullopt;
}

std::string mend_of(const FormulaRange& range, double value, double flour_g) {
  if (range.what == "ph") {
    return value < range.low ? "keep acid fruit under a third of the flour's weight, or cook it "
                               "with its sugar and let it mellow"
                             : "leave the soda out";
  }
  if (range.what == "sugar_per_water") {
    return "use yeast made for sweet dough, or move part of the sugar to the filling or glaze";
  }
  const double limit = value < range.low ? range.low : range.high;
  const std::string grams = number_text(limit * flour_g / 100.0, flour_g * limit < 2000.0 ? 1 : 0);
  const std::string of = range.what == "hydration" ? std::string("water in all")
                         : range.what == "yeast"   ? std::string("instant yeast")
                                                   : range.what;
  return std::string(value < range.low ? "bring it to at least " : "bring it to at most ") + grams +
         " g of " + of + " for this flour";
}

}  // namespace

std::vector<FormulaRange> formula_ranges() {
  std::vector<FormulaRange> out;
  const Table table(dough_data::embedded_table("formula_ranges.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    FormulaRange range{std::string(table.cell(row, "kind")),
                       {},
                       std::string(table.cell(row, "what")),
                       table.number(row, "low"),
                       table.number(row, "high"),
                       std::string(table.cell(row, "source"))};
    for (const std::string_view word : split(table.cell(row, "words"), '|')) {
      range.words.push_back(folded_name(word));
    }
    out.push_back(std::move(range));
  }
  return out;
}

std::string formula_kind_of(const std::vector<FormulaRange>& ranges, std::string_view title) {
  const std::string folded = folded_name(title);
  std::string best = "any";
  std::size_t longest = 0;
  for (const FormulaRange& range : ranges) {
    for (const std::string& word : range.words) {
      if (word.size() > longest && folded.find(word) != std::string::npos) {
        longest = word.size();
        best = range.kind;
      }
    }
  }
  return best;
}

std::vector<FormulaDoubt> formula_doubts(const std::vector<FormulaRange>& ranges,
                                         std::string_view kind, const DoughState& state) {
  std::vector<FormulaDoubt> out;
  if (!state.has_flour) {
    return out;
  }
  const double flour_g = sum(state.flour_g) / static_cast<double>(k_lane_count);
  const auto own_range = [&](const FormulaRange& general) {
    for (const FormulaRange& range : ranges) {
      if (range.kind == kind && range.kind != "any" && range.what == general.what) {
        return true;
      }
    }
    return false;
  };
  for (const FormulaRange& range : ranges) {
    const bool applies = range.kind == kind || (range.kind == "any" && !own_range(range));
    const std::optional<double> value = applies ? figure_of(state, range.what) : std::nullopt;
    if (!value || (*value >= range.low && *value <= range.high)) {
      continue;
    }
    FormulaDoubt doubt{range.what, *value, range.low, range.high, range.kind, "", ""};
    for (const Advice& advice : k_likely) {
      if (advice.what == range.what) {
        doubt.likely = std::string(*value < range.low ? advice.too_low : advice.too_high);
      }
    }
    doubt.mend = mend_of(range, *value, flour_g);
    out.push_back(std::move(doubt));
  }
  return out;
}

}  // namespace maslin
