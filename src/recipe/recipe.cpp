#include "recipe/recipe.h"

#include <array>

namespace maslin {
namespace {

constexpr std::array<std::string_view, 8> k_part_names{"dough",   "preferment", "soaker", "extract",
                                                       "filling", "topping",    "wash",   "glaze"};
constexpr std::array<std::string_view, 16> k_step_names{
    "mix",  "rest",  "knead", "fold", "prove", "divide", "shape", "fill",
    "bake", "steam", "fry",   "cool", "soak",  "strain", "boil",  "finish"};

template <typename Kind, std::size_t N>
std::optional<Kind> kind_in(const std::array<std::string_view, N>& names, std::string_view name) {
  for (std::size_t i = 0; i < N; ++i) {
    if (names[i] == name) {
      return static_cast<Kind>(i);
    }
  }
  return std::nullopt;
}

enum class Visit : std::uint8_t { fresh, open, done };

bool visit(const Recipe& recipe, std::size_t index, std::vector<Visit>& state,
           std::vector<std::size_t>& order) {
  if (state[index] != Visit::fresh) {
    return state[index] == Visit::done;
  }
  state[index] = Visit::open;
  for (const Line& line : recipe.parts[index].lines) {
    for (std::size_t other = 0; !line.part.empty() && other < recipe.parts.size(); ++other) {
      if (recipe.parts[other].name == line.part && !visit(recipe, other, state, order)) {
        return false;
      }
    }
  }
  state[index] = Visit::done;
  order.push_back(index);
  return true;
}

}  // namespace

std::string_view part_kind_name(PartKind kind) {
  return k_part_names[static_cast<std::size_t>(kind)];
}
std::optional<PartKind> part_kind_from(std::string_view name) {
  return kind_in<PartKind>(k_part_names, name);
}
std::string_view step_kind_name(StepKind kind) {
  return k_step_names[static_cast<std::size_t>(kind)];
}
std::optional<StepKind> step_kind_from(std::string_view name) {
  return kind_in<StepKind>(k_step_names, name);
}

const Part* Recipe::part_named(std::string_view name) const {
  for (const Part& part : parts) {
    if (part.name == name) {
      return &part;
    }
  }
  return nullptr;
}

const Part* Recipe::dough() const {
  for (const Part& part : parts) {
    if (part.kind == PartKind::dough) {
      return &part;
    }
  }
  return parts.empty() ? nullptr : &parts.front();
}

std::optional<std::vector<std::size_t>> parts_in_order(const Recipe& recipe) {
  std::vector<Visit> state(recipe.parts.size(), Visit::fresh);
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < recipe.parts.size(); ++i) {
    if (!visit(recipe, i, state, order)) {
      return std::nullopt;
    }
  }
  return order;
}

}  // namespace maslin
