#include "recipe/kitchen.h"

#include <array>
#include <cmath>

#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr std::array<std::string_view, 9> k_oven_names{
    "conventional", "fan", "gas", "wood", "charcoal_drum", "pot", "none", "steamer", "toaster"};

constexpr double k_day_minutes = 1440.0;

}  // namespace

std::optional<double> hour_of_day_from(std::string_view text) {
  while (!text.empty() && text.front() == ' ') {
    text.remove_prefix(1);
  }
  while (!text.empty() && text.back() == ' ') {
    text.remove_suffix(1);
  }
  const std::size_t colon = text.find(':');
  const auto hour = number_from(text.substr(0, colon));
  const auto minute =
      colon == std::string_view::npos ? std::optional(0.0) : number_from(text.substr(colon + 1));
  if (!hour || !minute || *hour < 0.0 || *minute < 0.0 || *minute >= 60.0 ||
      60.0 * *hour + *minute > k_day_minutes) {
    return std::nullopt;
  }
  return std::round(60.0 * *hour + *minute);
}

std::string hour_of_day_text(double minutes) {
  const long whole = std::lround(minutes);
  const auto two = [](long n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return two(whole / 60) + ":" + two(whole % 60);
}

std::optional<DailyHours> daily_hours_from(std::string_view text) {
  std::size_t at = text.find('-');
  std::size_t length = 1;
  if (at == std::string_view::npos) {
    at = text.find(" to ");
    length = 4;
  }
  if (at == std::string_view::npos) {
    return std::nullopt;
  }
  auto from = hour_of_day_from(text.substr(0, at));
  const auto to = hour_of_day_from(text.substr(at + length));
  if (from == k_day_minutes) {
    from = 0.0;  // what begins at 24 begins at 0
  }
  return from && to && *from != *to ? std::optional(DailyHours{*from, *to}) : std::nullopt;
}

std::string daily_hours_text(const DailyHours& hours) {
  return hour_of_day_text(hours.from_minutes) + "-" + hour_of_day_text(hours.to_minutes);
}

std::string_view oven_kind_name(OvenKind kind) {
  return k_oven_names[static_cast<std::size_t>(kind)];
}

std::optional<OvenKind> oven_kind_from(std::string_view name) {
  for (std::size_t i = 0; i < k_oven_names.size(); ++i) {
    if (k_oven_names[i] == name) {
      return static_cast<OvenKind>(i);
    }
  }
  return std::nullopt;
}

}  // namespace maslin
