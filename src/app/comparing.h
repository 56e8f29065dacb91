// comparing: two versions of a recipe, or two bakes, side by side: what was changed, what the
// models make of it, and what was noted.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app/live.h"
#include "recipe/difference.h"

namespace maslin {

/// One side as it is asked for: a recipe that was read, or the words for something kept: "3"
/// (trial 3), "knots", "knots@2", the start of an id.
struct CompareSide {
  std::string called;
  std::optional<Recipe> recipe;
};

struct CompareRequest {
  CompareSide before;
  CompareSide after;
  /// Where versions are forecast; a trial has its own, and lends it to a version beside it.
  std::optional<Kitchen> kitchen;
  LiveOptions options;
};

/// A side as it was found.
struct ComparedSide {
  std::string called;
  std::string title;
  std::optional<std::int64_t> trial;
  std::string kitchen;  // its name; empty when it has none
};

/// One figure on both sides: as forecast before anything was seen, and as noted.
struct ComparedFigure {
  std::string figure;  // "bake_minutes"
  std::string words;
  std::string unit;
  std::optional<Band> before;
  std::optional<Band> after;
  std::string noted_before;  // in the baker's words; empty: nothing
  std::string noted_after;
};

struct Comparison {
  ComparedSide before;
  ComparedSide after;
  RecipeDifference difference;
  std::vector<ComparedFigure> outcome;
  std::vector<std::string> problems;  // why a side has no forecast
};

/// `store` may be null when both sides are recipes that were read.
Result<Comparison> compare(const Tools& tools, Store* store, const CompareRequest& request);

/// docs/schema/compare.schema.json
std::string comparison_to_json(const Comparison& comparison);
std::string comparison_report(const Comparison& comparison);

}  // namespace maslin
