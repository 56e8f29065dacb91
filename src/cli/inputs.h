// What a command is given: files, standard input, and what is kept under a name; and the
// sentence when that cannot be had.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

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
/// Puts what --room says into the kitchen; false once it is complained of.
bool take_room(const CommonOptions& options, Kitchen& kitchen);

/// The prices in a file; complains of what is wrong in it.
std::optional<PriceList> prices_of(const std::string& file);

/// The observations in notes given on the command line as --seen; complains of one that says
/// nothing measurable, and asks about what can hardly be so.
bool take_seen(const Tools& tools, const std::vector<std::string>& notes,
               std::vector<Observation>& seen);

/// Reads each file as a recipe and hands it on; the worst status of all.
template <typename Use>
int for_each_recipe(const Tools& tools, const std::vector<std::string>& files,
                    const CommonOptions& options, const Use& use) {
  int status = k_done;
  for (const std::string& file : files) {
    const auto recipe = recipe_of(tools, file, options);
    status = std::max(status, recipe ? use(*recipe, file) : k_input_at_fault);
  }
  return status;
}

/// A bar on standard error, for a person who waits at a terminal.
void show_progress(double share);

}  // namespace maslin
