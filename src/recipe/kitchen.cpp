#include "recipe/kitchen.h"

#include <array>

namespace maslin {
namespace {

constexpr std::array<std::string_view, 9> k_oven_names{
    "conventional", "fan", "gas", "wood", "charcoal_drum", "pot", "none", "steamer", "toaster"};

}  // namespace

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
