#pragma once

#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "reading/ingredient_line.h"
#include "recipe/recipe.h"

namespace maslin::reading {

/// Tokens of a method line, kept until the whole text was seen.
struct DraftStep {
  const Text* text = nullptr;
  std::size_t from = 0;
  std::size_t to = 0;
};

struct DraftPart {
  PartKind kind = PartKind::dough;
  std::string name;
  std::vector<DraftLine> lines;
  std::vector<DraftStep> steps;
  bool guessed = false;  // its heading does not say what part it is
};

/// A recipe while it is being read: nothing weighed, steps not yet cut.
struct Draft {
  std::string title;
  std::deque<Text> texts;  // every line's tokens; steps point into them
  std::vector<DraftPart> parts;
  std::optional<Range> pieces;
  std::optional<double> piece_grams;
  std::optional<double> total_grams;
  std::optional<Tin> tin;
  std::string locale;  // said outright: "Measures: us"
  std::vector<std::string> remarks;
  std::vector<Doubt> doubts;
};

}  // namespace maslin::reading
