#include "recipe/json.h"

#include <cmath>

namespace maslin {
namespace {

constexpr int k_deepest = 64;

/// Deep nesting is refused before the library builds a tree from it.
bool nests_too_deep(std::string_view text) {
  int depth = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '\\') {
        ++i;
      } else if (c == '"') {
        quoted = false;
      }
    } else if (c == '"') {
      quoted = true;
    } else if (c == '{' || c == '[') {
      if (++depth > k_deepest) {
        return true;
      }
    } else if (c == '}' || c == ']') {
      --depth;
    }
  }
  return false;
}

std::string dumped(const Json& document, int indent) {
  return document.dump(indent, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

std::optional<Json> parse_json(std::string_view text) {
  if (nests_too_deep(text)) {
    return std::nullopt;
  }
  Json document = Json::parse(text.begin(), text.end(), nullptr, false);
  return document.is_discarded() ? std::nullopt : std::optional(std::move(document));
}

std::string json_text(const Json& document) {
  return dumped(document, -1);
}
std::string json_pages(const Json& document) {
  return dumped(document, 2);
}

const Json* member(const Json& object, std::string_view key) {
  if (!object.is_object()) {
    return nullptr;
  }
  const auto at = object.find(std::string(key));
  return at == object.end() ? nullptr : &*at;
}

std::optional<double> number_at(const Json& object, std::string_view key) {
  const Json* value = member(object, key);
  if (value == nullptr || !value->is_number()) {
    return std::nullopt;
  }
  const double number = value->get<double>();
  return std::isfinite(number) ? std::optional(number) : std::nullopt;
}

std::string text_at(const Json& object, std::string_view key) {
  const Json* value = member(object, key);
  return value != nullptr && value->is_string() ? value->get<std::string>() : std::string();
}

std::span<const Json> list_at(const Json& object, std::string_view key) {
  const Json* value = member(object, key);
  const auto* elements = value != nullptr ? value->get_ptr<const Json::array_t*>() : nullptr;
  return elements != nullptr ? std::span<const Json>(*elements) : std::span<const Json>();
}

Json rounded(double value) {
  if (!std::isfinite(value)) {
    return nullptr;
  }
  if (value == 0.0) {
    return 0.0;
  }
  const double magnitude = std::floor(std::log10(std::fabs(value)));
  if (magnitude > 9 || magnitude < -9) {
    return value;
  }
  // Scale by an exact power of ten, up or down, so that 0.1 stays 0.1.
  const int digits = 5 - static_cast<int>(magnitude);
  double scale = 1.0;
  for (int i = 0; i < std::abs(digits); ++i) {
    scale *= 10.0;
  }
  return digits >= 0 ? std::round(value * scale) / scale : std::round(value / scale) * scale;
}

Json distribution_json(const Distribution& d) {
  Json out{{"p10", rounded(d.p10())}, {"p50", rounded(d.p50())}, {"p90", rounded(d.p90())}};
  out["shape"] = std::string(shape_name(d.shape));
  out["a"] = d.a;
  out["b"] = d.b;
  out["c"] = d.c;
  return out;
}

std::optional<Distribution> distribution_from(const Json& value) {
  if (value.is_number()) {
    const double number = value.get<double>();
    return std::isfinite(number) ? std::optional(point(number)) : std::nullopt;
  }
  const auto a = number_at(value, "a");
  if (a) {
    return Distribution{shape_from(text_at(value, "shape")), *a,
                        number_at(value, "b").value_or(0.0), number_at(value, "c").value_or(0.0)};
  }
  const auto p50 = number_at(value, "p50");
  if (!p50) {
    return std::nullopt;
  }
  const auto p10 = number_at(value, "p10");
  const auto p90 = number_at(value, "p90");
  if (!p10 || !p90 || !(*p90 > *p10)) {
    return point(*p50);
  }
  // Quantiles alone: a log-normal of that median and width, or a normal below zero.
  constexpr double k_two_z90 = 2 * 1.2815515655446004;
  if (*p10 > 0) {
    return Distribution{Shape::lognormal, *p50, log_same(*p90 / *p10) / k_two_z90, 0.0};
  }
  return normal(*p50, (*p90 - *p10) / k_two_z90);
}

Json range_json(const std::optional<Range>& range) {
  if (!range) {
    return nullptr;
  }
  const Distribution d = uniform(range->low, range->high);
  return Json{{"low", rounded(range->low)},
              {"high", rounded(range->high)},
              {"p10", rounded(d.p10())},
              {"p50", rounded(d.p50())},
              {"p90", rounded(d.p90())}};
}

std::optional<Range> range_from(const Json* value) {
  if (value == nullptr) {
    return std::nullopt;
  }
  if (value->is_number()) {
    const double number = value->get<double>();
    return std::isfinite(number) ? std::optional(Range{number, number}) : std::nullopt;
  }
  const auto low = number_at(*value, "low");
  const auto high = number_at(*value, "high");
  if (low || high) {
    return Range{low.value_or(*(high ? high : low)), high.value_or(*(low ? low : high))};
  }
  const auto p10 = number_at(*value, "p10");
  const auto p90 = number_at(*value, "p90");
  if (p10 && p90) {
    return Range{*p10, *p90};
  }
  return std::nullopt;
}

}  // namespace maslin
