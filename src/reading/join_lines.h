#pragma once

#include <string_view>
#include <vector>

#include "reading/layout.h"

namespace maslin::reading {

/// "the dough should dou-": a word broken at the end of a line.
bool ends_hyphened(std::string_view line);

/// Joins what a narrow column broke: hyphens close up, sentences go on.
void join_narrow(std::vector<FoundLine>& lines);

/// Joins what goes on without a sign of its own in a list whose lines have one, and what goes
/// on in small letters where the line before broke off.
void join_broken_off(std::vector<FoundLine>& lines);

/// Joins lines that a mailer wrapped: long, no full stop, the next in small letters.
void join_wrapped(std::vector<FoundLine>& lines);

}  // namespace maslin::reading
