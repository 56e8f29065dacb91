#pragma once

#include "recipe/recipe.h"

namespace maslin {

/// No yeast dough is left to rise hotter than this, C: yeast dies within minutes from 55 on
/// (common practice; the rise's own constants say how fast). A hotter figure is an oven's.
constexpr double k_hottest_rise_celsius = 60.0;

/// A rise or rest that states an oven's heat.
inline bool is_hot_rise(const Step& step) {
  return (step.kind == StepKind::prove || step.kind == StepKind::rest) && step.celsius &&
         step.celsius->middle() > k_hottest_rise_celsius;
}

}  // namespace maslin
