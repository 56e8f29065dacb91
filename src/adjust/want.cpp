#include "adjust/want.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "quantity/number_text.h"

namespace maslin {
namespace {

struct NamedKind {
  std::string_view name;
  WantKind kind;
};
constexpr std::array<NamedKind, 16> k_numbers{{
    {"effective_hydration", WantKind::effective_hydration},
    {"water_pct_flour", WantKind::water_pct_flour},
    {"sugar_pct_flour", WantKind::sugar_pct_flour},
    {"fat_pct_flour", WantKind::fat_pct_flour},
    {"salt_pct_flour", WantKind::salt_pct_flour},
    {"egg_pct_flour", WantKind::egg_pct_flour},
    {"yeast_pct_flour", WantKind::yeast_pct_flour},
    {"total_grams", WantKind::total_grams},
    {"pieces", WantKind::pieces},
    {"piece_grams", WantKind::piece_grams},
    {"scale", WantKind::scale},
    {"cost", WantKind::cost},
    {"prove_minutes", WantKind::prove_minutes},
    {"no_egg", WantKind::no_egg},
    {"no_dairy", WantKind::no_dairy},
    {"paste", WantKind::paste},
}};

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') {
    text.remove_prefix(1);
  }
  while (!text.empty() && text.back() == ' ') {
    text.remove_suffix(1);
  }
  return text;
}

std::string problem_of(std::string_view text) {
  return "The want \"" + std::string(text) +
         "\" is not understood; say for example feel=soft, sugar_pct_flour<=20, total_grams=900, "
         "pieces=12, scale=2, no_egg or swap butter=vegetable_oil.";
}

ParsedWant feel_want(Want want, std::string_view value, std::string_view text) {
  const std::optional<DoughFeel> feel = feel_from(value);
  if (!feel) {
    return {std::nullopt, "The feel in \"" + std::string(text) +
                              "\" must be very_stiff, stiff, medium, soft, slack or batter."};
  }
  aim_at_feel(want, *feel);
  return {want, ""};
}

/// Fills low and high from "=5", "<=5", ">=5", "=5..7".
bool read_bounds(Want& want, std::string_view relation, std::string_view value) {
  const std::size_t dots = value.find("..");
  if (dots != std::string_view::npos) {
    const auto low = number_from(trimmed(value.substr(0, dots)));
    const auto high = number_from(trimmed(value.substr(dots + 2)));
    want.low = low.value_or(0.0);
    want.high = high.value_or(0.0);
    return low && high && *low <= *high && *low >= 0.0;
  }
  const auto number = number_from(value);
  if (!number || *number < 0.0 || *number > 1e7) {
    return false;
  }
  want.low = relation.front() == '<' ? 0.0 : *number;
  want.high = relation.front() == '>' ? k_want_no_limit : *number;
  return true;
}

}  // namespace

void aim_at_feel(Want& want, DoughFeel feel) {
  const FeelBounds bounds = feel_bounds(feel);
  const double low = feel == DoughFeel::very_stiff ? bounds.high - 12.0 : bounds.low;
  const double high = feel == DoughFeel::batter ? bounds.low + 80.0 : bounds.high;
  const double quarter = 0.25 * (high - low);
  want.low = low + quarter;
  want.high = high - quarter;
}

void move_feel(Want& want, double score) {
  const auto now = static_cast<double>(feel_at(score));
  if (std::fabs(want.feel_classes) >= 1.0) {
    const double last = static_cast<double>(std::max(feel_at(score), DoughFeel::slack));
    if (want.feel_classes > 0.0 && feel_at(score) == DoughFeel::slack) {
      // What is softer than slack is a batter, and who wants a batter says so.
      const FeelBounds bounds = feel_bounds(feel_at(score));
      const double softest = bounds.high - 0.25 * std::min(bounds.high - bounds.low, 20.0);
      want.low = std::max(score, softest);
      want.high = std::max(score, bounds.high);
      return;
    }
    aim_at_feel(want, static_cast<DoughFeel>(std::clamp(now + want.feel_classes, 0.0, last)));
    return;
  }
  const FeelBounds bounds = feel_bounds(feel_at(score));
  const double width = std::min(bounds.high - bounds.low, 20.0);
  const double aim = score + want.feel_classes * width;
  want.low = aim - 0.1 * width;
  want.high = aim + 0.1 * width;
}

ParsedWant parse_want(std::string_view text_in) {
  const std::string_view text = trimmed(text_in);
  Want want;
  want.text = text;
  if (text.substr(0, 5) == "swap ") {
    const std::string_view rest = trimmed(text.substr(5));
    const std::size_t equals = rest.find('=');
    want.kind = WantKind::swap;
    want.from = trimmed(rest.substr(0, equals));
    want.to = equals == std::string_view::npos ? "" : trimmed(rest.substr(equals + 1));
    return want.from.empty() ? ParsedWant{std::nullopt, problem_of(text)} : ParsedWant{want, ""};
  }
  const std::size_t at = text.find_first_of("<>=");
  const std::string_view name = trimmed(text.substr(0, at));
  for (const WantKind kind : {WantKind::no_egg, WantKind::no_dairy}) {
    if (name == (kind == WantKind::no_egg ? "no_egg" : "no_dairy")) {
      want.kind = kind;
      return {want, ""};
    }
  }
  if (at == std::string_view::npos) {
    return {std::nullopt, problem_of(text)};
  }
  const std::size_t after = text.find_first_not_of("<>=", at);
  const std::string_view relation =
      text.substr(at, after == std::string_view::npos ? 1 : after - at);
  const std::string_view value =
      after == std::string_view::npos ? std::string_view() : trimmed(text.substr(after));
  if (name == "feel") {
    return feel_want(want, value, text);
  }
  if (name == "fill") {
    want.kind = WantKind::fill;
    return value == "right" ? ParsedWant{want, ""} : ParsedWant{std::nullopt, problem_of(text)};
  }
  for (const NamedKind& one : k_numbers) {
    if (one.name == name) {
      want.kind = one.kind;
      return read_bounds(want, relation, value) ? ParsedWant{want, ""}
                                                : ParsedWant{std::nullopt, problem_of(text)};
    }
  }
  return {std::nullopt, problem_of(text)};
}

Hold parse_hold(std::string_view text) {
  Hold out;
  out.text = trimmed(text);
  const std::size_t equals = out.text.find('=');
  out.what = trimmed(std::string_view(out.text).substr(0, equals));
  if (equals != std::string::npos) {
    std::string_view value = trimmed(std::string_view(out.text).substr(equals + 1));
    const bool grams = !value.empty() && value.back() == 'g';
    if (grams) {
      value = trimmed(value.substr(0, value.size() - 1));
    }
    (grams ? out.grams : out.count) = number_from(value);
  }
  return out;
}

}  // namespace maslin
