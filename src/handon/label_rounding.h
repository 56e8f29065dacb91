// Rounding and tolerance of declared figures.
#pragma once

#include <string>

#include "handon/label_tables.h"

namespace maslin::handon {

/// The value in the step of its rows; three significant digits where there are no rows.
std::string declared_by(const std::vector<RoundingRow>& rows, double value);
/// The largest step that is no more than the value, for "at least"; empty below the first step.
std::string at_least_by(const std::vector<RoundingRow>& rows, double value);
/// The number a declared figure stands for: "<0.5" and "less than 1" stand for what they bound.
double figure_of(const std::string& declared);
/// Whether a sample that holds `value` agrees with what was declared, by a tolerance row
/// ("10:1.5 40:20% :8"); always when there is none.
bool within_tolerance(const std::string& tolerance, const std::string& declared, double value);

}  // namespace maslin::handon
