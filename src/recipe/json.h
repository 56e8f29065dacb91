// The one place that knows the JSON library. Nothing here throws: parsing returns
// nothing on bad text, look-ups return nothing on a wrong type, and writing replaces
// broken UTF-8. Include it in sources, never in headers.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "quantity/distribution.h"
#include "recipe/recipe.h"

namespace maslin {

using Json = nlohmann::ordered_json;

/// The document, or nothing when the text is not JSON or nests deeper than 64.
std::optional<Json> parse_json(std::string_view text);
/// One line; broken UTF-8 is replaced, never thrown at.
std::string json_text(const Json& document);
/// Indented for reading.
std::string json_pages(const Json& document);

/// The member, or null when `object` is no object or has none.
const Json* member(const Json& object, std::string_view key);
std::optional<double> number_at(const Json& object, std::string_view key);
std::string text_at(const Json& object, std::string_view key);
/// The array's elements; empty when there is none.
std::span<const Json> list_at(const Json& object, std::string_view key);

/// {"p10","p50","p90"} and the shape with its parameters, so that it comes back.
Json distribution_json(const Distribution& distribution);
std::optional<Distribution> distribution_from(const Json& value);
/// {"low","high","p10","p50","p90"} of a stated range (taken as uniform); null if none.
Json range_json(const std::optional<Range>& range);
/// From an object with low and high (or p10 and p90), or a bare number.
std::optional<Range> range_from(const Json* value);
/// A number rounded to what its size deserves (6 significant digits), null if not finite.
Json rounded(double value);

}  // namespace maslin
