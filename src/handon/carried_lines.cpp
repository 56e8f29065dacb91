#include "handon/carried_lines.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "quantity/number_text.h"

namespace maslin::handon {
namespace {

bool one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// Taken by eye wherever it is: a pinch is a pinch.
bool by_eye(std::string_view unit) {
  return one_of(unit, {"pinch", "smidgen", "dash", "tad", "drop", "splash", "drizzle", "squeeze",
                       "handful", "dollop", "knob"});
}

/// Weighed or measured at home, so measured there: also packs, which differ by country.
bool to_be_measured(const Line& line, const Pantry& pantry) {
  const std::string& unit = line.found.unit;
  if (!line.found.number) {
    return line.weighed;
  }
  return !by_eye(unit) &&
         (grams_in(unit) > 0.0 || pantry.measure(unit, "").has_value() ||
          one_of(unit, {"packet", "stick", "cube", "cake", "tablet", "percent", "part"}));
}

std::string counted_words(const FoundAmount& found, const CardWords& words) {
  std::string out =
      found.number->low == found.number->high
          ? words.fraction(found.number->low)
          : words.fraction(found.number->low) + "–" + words.fraction(found.number->high);
  if (!found.size.empty()) {
    out += " " + words.say("size_" + found.size);
  }
  if (!found.unit.empty() && found.unit != "piece") {
    out += " " + words.measure(found.unit, found.number->high);
  }
  return out;
}

/// Whole eggs for a weight of egg; nothing when no whole number comes near.
std::optional<HouseholdAmount> as_eggs(const Ingredient& one, double grams,
                                       const LineTools& tools) {
  constexpr double k_near = 0.05;
  const auto egg = tools.pantry.portion(one, "piece", "", "");
  if (one.id != "egg" || !egg) {
    return std::nullopt;
  }
  const double count = std::round(grams / egg->grams);
  if (count < 1.0 || std::fabs(count * egg->grams - grams) > k_near * grams) {
    return std::nullopt;
  }
  HouseholdAmount out;
  out.way = AmountWay::counted;
  out.grams = count * egg->grams;
  out.error_pct = 100.0 * (out.grams - grams) / grams;
  out.words = tools.words.fraction(count);
  return out;
}

double limit_for(const Ingredient* one) {
  return one == nullptr ? k_free_limit_pct : limit_pct(care_for(*one));
}

/// How far beyond their limits the amounts of the whole recipe err, in points.
double beyond_limits(const Recipe& recipe, const LineTools& tools, double factor) {
  double sum = 0.0;
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      const Ingredient* one = tools.pantry.find(line.ingredient_id);
      if (one == nullptr || !line.weighed || !to_be_measured(line, tools.pantry)) {
        continue;
      }
      const double grams = line.grams.p50() * factor;
      const auto amount = measured(tools.means, tools.pantry, *one, line.found.packing, grams);
      if (amount) {
        const double weight = care_for(*one) == Care::exact ? 1.0 : 0.2;
        sum += weight * std::max(0.0, std::fabs(amount->error_pct) - limit_for(one));
      }
    }
  }
  return sum;
}

}  // namespace

double written_grams(double grams) {
  const double step = grams >= 20.0 ? 1.0 : grams >= 1.0 ? 10.0 : 100.0;
  return std::round(grams * step) / step;
}

std::string grams_words(double grams, const CardWords& words) {
  return words.number(written_grams(grams), 2) + " g";
}

std::string amount_words(const HouseholdAmount& amount, const CardWords& words) {
  std::string out;
  for (std::size_t i = 0; i < amount.counts.size(); ++i) {
    const MeasureCount& one = amount.counts[i];
    out += i == 0 ? "" : i + 1 == amount.counts.size() ? " " + words.say("and") + " " : ", ";
    out += words.fraction(one.count) + " " + words.measure(one.measure, one.count);
  }
  if (!amount.packing.empty() && amount.packing != "level") {
    out += " " + words.say("packing_" + amount.packing);
  }
  return out;
}

HouseholdAmount amount_of(const Line& line, const LineTools& tools) {
  HouseholdAmount out;
  const Ingredient* one = tools.pantry.find(line.ingredient_id);
  if (!line.part.empty()) {
    out.way = AmountWay::part;
    out.grams = line.weighed ? line.grams.p50() : 0.0;
    out.words = line.weighed ? grams_words(out.grams, tools.words) : std::string();
    return out;
  }
  if (!line.weighed || !to_be_measured(line, tools.pantry)) {
    out.way = line.weighed && line.found.number ? AmountWay::counted : AmountWay::as_found;
    out.grams = line.weighed ? line.grams.p50() : 0.0;
    out.words = line.found.number ? counted_words(line.found, tools.words) : std::string();
    return out;
  }
  const double grams = line.grams.p50();
  if (one != nullptr && !tools.means.scale) {
    if (auto eggs = as_eggs(*one, grams, tools)) {
      return *eggs;
    }
    if (auto amount = measured(tools.means, tools.pantry, *one, line.found.packing, grams)) {
      amount->words = amount_words(*amount, tools.words);
      return *amount;
    }
  }
  out.way = AmountWay::scale;
  out.grams = grams;
  out.words = grams_words(grams, tools.words);
  return out;
}

double batch_factor(const Recipe& recipe, const LineTools& tools) {
  constexpr double k_least = 0.9;
  constexpr double k_most = 1.12;
  constexpr double k_step = 0.01;
  // What a hundredth more or less dough must gain, in points beyond the limits.
  constexpr double k_price = 0.5;
  if (tools.means.scale) {
    return 1.0;
  }
  double best = 1.0;
  double best_cost = beyond_limits(recipe, tools, 1.0);
  if (best_cost <= 0.0) {
    return 1.0;
  }
  for (int i = 0; k_least + i * k_step <= k_most + 1e-9; ++i) {
    const double factor = k_least + i * k_step;
    const double cost =
        beyond_limits(recipe, tools, factor) + k_price * std::fabs(factor - 1.0) / k_step;
    if (cost < best_cost - 1e-9) {
      best_cost = cost;
      best = factor;
    }
  }
  return best;
}

void write_grams(Recipe& recipe, const Pantry& pantry, double factor) {
  for (Part& part : recipe.parts) {
    for (Line& line : part.lines) {
      if (!line.weighed || !to_be_measured(line, pantry)) {
        continue;
      }
      const double grams = written_grams(line.grams.p50() * factor);
      line.grams = point(grams);
      line.found = {Range{grams, grams}, "g", "",
                    line.found.packing == "heaped" ? std::string() : line.found.packing};
    }
  }
}

}  // namespace maslin::handon
