#include "forecast/done_sign.h"

#include <string>

#include "forecast/embedded_table.h"
#include "quantity/table.h"

namespace maslin {
namespace {

constexpr double k_golden_lightness = 62.0;  // common practice, no source
constexpr double k_flat_lightness = 65.0;    // the middle of golden; common practice, no source
constexpr double k_loaf_lightness = 56.0;    // a "light" sandwich loaf's top has 55: Therdthai 2005

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

bool loaf_like(PieceShape shape) {
  return shape == PieceShape::tin_loaf || shape == PieceShape::hearth ||
         shape == PieceShape::baton || shape == PieceShape::ring;
}

bool flat(PieceShape shape) {
  return shape == PieceShape::flat || shape == PieceShape::sheet;
}

/// Degrees Celsius of "core 94 C"; 0 where there is none.
double stated_core_celsius(std::string_view until) {
  const std::size_t word = until.find("core ");
  if (word == std::string_view::npos) {
    return 0.0;
  }
  double out = 0.0;
  for (std::size_t i = word + 5; i < until.size() && until[i] >= '0' && until[i] <= '9'; ++i) {
    out = 10.0 * out + (until[i] - '0');
  }
  return out;
}

}  // namespace

DoneRule done_rule_of(const PlannedBake& bake, const Lanes& core_k, bool enriched, bool covered) {
  DoneRule rule;
  rule.core_k = core_k;
  rule.by = loaf_like(bake.shape) ? DoneBy::loaf : DoneBy::core;
  rule.lightness = loaf_like(bake.shape) ? k_loaf_lightness : rule.lightness;
  if (flat(bake.shape) && !bake.soft && !covered) {
    // Hot through within minutes, it stays in until it is golden.
    rule.by = DoneBy::core_and_colour;
    rule.lightness = k_flat_lightness;
  }
  const std::string until = lower(bake.until);
  // No crumb is done colder than this or gets hotter than that.
  const double stated = stated_core_celsius(until);
  if (stated >= 70.0 && stated <= 105.0) {
    rule.by = DoneBy::core;
    rule.core_k = stated + 273.15;
    return rule;
  }
  bool sounds_hollow = false;
  const Table words(forecast_data::embedded_table("done_words.tsv"));
  for (std::size_t row = 0; row < words.size(); ++row) {
    if (until.find(words.cell(row, "word")) == std::string::npos) {
      continue;
    }
    const std::string_view sign = words.cell(row, "sign");
    if (sign == "loaf" && !loaf_like(bake.shape)) {
      sounds_hollow = true;
      continue;  // a colour may be said too
    }
    rule.by = sign == "loaf"     ? DoneBy::loaf
              : sign == "colour" ? DoneBy::core_and_colour
                                 : DoneBy::core;
    rule.lightness = words.number(row, "lightness", rule.lightness);
    break;
  }
  if (sounds_hollow) {
    // A small piece sounds so when its crumb is set and its skin dry, golden above and no longer
    // pale beneath: it asks for no loaf's brown crust, nor for a tenth of the weight.
    rule.by = DoneBy::loaf;
    rule.weight_loss_pct = 0.0;
    rule.base_lightness = crust_bounds(Crust::pale).low;
    return rule;
  }
  if (enriched && rule.by == DoneBy::loaf && loaf_like(bake.shape)) {
    rule.by = DoneBy::core_and_colour;
    rule.lightness = k_golden_lightness;
  }
  return rule;
}

}  // namespace maslin
