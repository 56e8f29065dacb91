// What the yeast meets in the water of a dough: how free the water is, how sour.
#pragma once

#include <array>

#include "dough/hydration.h"
#include "numerics/lanes.h"
#include "properties/portion.h"

namespace maslin {

/// Water activity of a dough or batter, 0..1, from grams of each component:
///   a = a_polymer(water / polymer solids) a_salt(m) product of a_sugar(x)
/// Ross's product, each solute taken alone in all the water; sugars by Norrish
/// (a = x_w exp(-K x_s^2)), sodium chloride by its osmotic coefficient, starch, protein
/// and fibre by Oswin's isotherm (0.113 g/g, 0.33). Holds from about 0.75 to 0.99;
/// likely 0.01 high. Sources: Baeza et al. 2010 (form of Norrish, abstract); constants,
/// osmotic coefficients after Robinson & Stokes, and Oswin's values from memory.
Lanes water_activity_of(const std::array<Lanes, k_component_count>& grams);

/// pH of the mixture, every ingredient a linear buffer about its own pH: the mean of the
/// pH weighted by buffer (data/hydration.tsv) plus, where it holds acid, the acid's own
/// (67 g per mole of acid spread from its pH to 8.1, as it would be titrated).
/// An ingredient of unknown pH counts 6.1 (flour), 3.5 when it holds acid. Derived.
Lanes ph_of(const Portions& portions, const HydrationTable& table);

}  // namespace maslin
