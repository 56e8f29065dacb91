// Wants as they are said made into bounds on the dough of this recipe.
#pragma once

#include <string>
#include <vector>

#include "adjust/setting.h"

namespace maslin {

/// The first want of a kind; null when there is none.
const Want* first_of(const std::vector<Want>& wants, WantKind kind);

/// How many pieces are wanted, else how many the recipe makes.
double pieces_wanted(const Recipe& recipe, const std::vector<Want>& wants);

/// Wants on pieces become one on the whole dough, of `total_g` now.
std::vector<Want> with_mass(const Recipe& recipe, std::vector<Want> wants, double total_g,
                            std::vector<std::string>& notes);

/// "300 g of flour" is the whole recipe so many times: spelt out in place; a sentence when the
/// recipe has none of it. Flour counts a sponge's too.
std::string spell_out_scale(std::vector<Want>& wants, const Recipe& recipe, const Setting& setting);

/// A feel that the dough has already, half a point inside its class, asks for no change; the
/// middle of the class is for those that must move.
void leave_feel_that_is_there(std::vector<Want>& wants, const Balance& balance,
                              const std::vector<double>& now);

/// A cost of one piece is so many times that of all.
void cost_of_all(std::vector<Want>& wants, double pieces);

/// "A fifth less sugar", "a class softer": bounds from the dough as it stands.
void resolve_relative(std::vector<Want>& wants, const Balance& balance,
                      const std::vector<double>& now, std::vector<std::string>& notes);

}  // namespace maslin
