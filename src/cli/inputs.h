// What a command is given: files, standard input, and what is kept under a name; and the
// sentence when that cannot be had.
#pragma once

#include <optional>
#include <string>

#include "app/app.h"
#include "app/report.h"
#include "cli/commands.h"

namespace maslin {

/// "where: sentence" on standard error; answers k_input_at_fault.
int complain(const std::string& where, const std::string& sentence);

/// The whole of a file, or of standard input for "-"; cut a little past 64 MB.
std::optional<std::string> text_of(const std::string& file);
std::string name_of(const std::string& file);
Colour colour();

/// The recipe in the file or, when there is no such file, the one that is kept under that
/// name; complains when there is neither.
std::optional<Recipe> recipe_of(const Tools& tools, const std::string& file,
                                const CommonOptions& options);
/// The same for --kitchen; without it a kitchen of which nothing is known.
std::optional<Kitchen> kitchen_of(const CommonOptions& options);

}  // namespace maslin
