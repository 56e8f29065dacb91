// Two versions or bakes side by side, as a document and in words.
#include <algorithm>
#include <cmath>

#include "app/comparing.h"
#include "quantity/column_text.h"
#include "quantity/number_text.h"
#include "recipe/json.h"

namespace maslin {
namespace {

Json band_json(const std::optional<Band>& band) {
  if (!band) {
    return nullptr;
  }
  return {{"p10", rounded(band->p10)}, {"p50", rounded(band->p50)}, {"p90", rounded(band->p90)}};
}

Json side_json(const ComparedSide& side) {
  return {{"called", side.called},
          {"title", side.title},
          {"trial", side.trial ? Json(*side.trial) : Json(nullptr)},
          {"kitchen", side.kitchen}};
}

Json amount_json(const std::optional<LineAmountNow>& amount) {
  if (!amount) {
    return nullptr;
  }
  return {{"grams", rounded(amount->grams)},
          {"pct_flour", amount->pct_flour ? Json(rounded(*amount->pct_flour)) : Json(nullptr)}};
}

std::string amount_text(const std::optional<LineAmountNow>& amount) {
  if (!amount) {
    return "none";
  }
  const int digits = amount->grams < 20.0 ? 1 : 0;
  std::string out = number_text(amount->grams, digits) + " g";
  if (amount->pct_flour) {
    out += " (" + number_text(*amount->pct_flour, 1) + " %)";
  }
  return out;
}

std::string band_text(const std::optional<Band>& band) {
  if (!band || !std::isfinite(band->p50)) {
    return "–";
  }
  const int digits = std::fabs(band->p50) < 20.0 ? 1 : 0;
  return number_text(band->p50, digits) + " (" + number_text(band->p10, digits) + " to " +
         number_text(band->p90, digits) + ")";
}

std::string row_text(const std::string& what, const std::string& before, const std::string& after) {
  constexpr std::size_t k_what = 30;
  constexpr std::size_t k_side = 26;
  return "  " + padded(what, k_what) + " " + padded(before, k_side) + " " + after + "\n";
}

bool differs(const ComparedFigure& row) {
  if (!row.noted_before.empty() || !row.noted_after.empty() || !row.before || !row.after) {
    return true;
  }
  return band_text(row.before) != band_text(row.after);
}

std::string heading_of(const ComparedSide& side) {
  return side.called + (side.kitchen.empty() ? "" : ", " + side.kitchen);
}

}  // namespace

std::string comparison_to_json(const Comparison& comparison) {
  Json out{{"before", side_json(comparison.before)},
           {"after", side_json(comparison.after)},
           {"lines", Json::array()},
           {"steps", Json::array()},
           {"outcome", Json::array()},
           {"problems", comparison.problems}};
  for (const LineDifference& one : comparison.difference.lines) {
    out["lines"].push_back({{"part", one.part},
                            {"name", one.name},
                            {"ingredient", one.ingredient_id},
                            {"before", amount_json(one.before)},
                            {"after", amount_json(one.after)}});
  }
  for (const StepDifference& one : comparison.difference.steps) {
    out["steps"].push_back({{"part", one.part},
                            {"step", one.step},
                            {"what", one.what},
                            {"before", one.before},
                            {"after", one.after}});
  }
  for (const ComparedFigure& one : comparison.outcome) {
    out["outcome"].push_back({{"figure", one.figure},
                              {"words", one.words},
                              {"unit", one.unit},
                              {"before", band_json(one.before)},
                              {"after", band_json(one.after)},
                              {"noted_before", one.noted_before},
                              {"noted_after", one.noted_after}});
  }
  return json_text(out);
}

std::string comparison_report(const Comparison& comparison) {
  std::string out =
      row_text("", heading_of(comparison.before), heading_of(comparison.after)) + "Amounts\n";
  for (const LineDifference& one : comparison.difference.lines) {
    out += row_text(one.name, amount_text(one.before), amount_text(one.after));
  }
  out += comparison.difference.lines.empty() ? "  the same\n" : "";
  for (const StepDifference& one : comparison.difference.steps) {
    const auto said = [](const std::string& text) { return text.empty() ? "–" : text; };
    out += row_text(one.step + (one.what == "step" ? "" : ", " + one.what), said(one.before),
                    said(one.after));
  }
  out += "Forecast\n";
  for (const ComparedFigure& one : comparison.outcome) {
    if ((one.before || one.after) && differs(one)) {
      out += row_text(one.words + ", " + one.unit, band_text(one.before), band_text(one.after));
    }
  }
  std::string noted;
  for (const ComparedFigure& one : comparison.outcome) {
    if (!one.noted_before.empty() || !one.noted_after.empty()) {
      noted += row_text(one.words, one.noted_before.empty() ? "–" : one.noted_before,
                        one.noted_after.empty() ? "–" : one.noted_after);
    }
  }
  out += noted.empty() ? "" : "Noted\n" + noted;
  for (const std::string& problem : comparison.problems) {
    out += problem + "\n";
  }
  return out;
}

}  // namespace maslin
