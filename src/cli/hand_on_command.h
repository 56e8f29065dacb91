#pragma once

#include <functional>
#include <string>
#include <vector>

#include "cli/commands.h"

namespace CLI {
class App;
}

namespace maslin {

struct HandOnOptions {
  std::string to;        // a kitchen file, or the name of one that is kept
  std::string as;        // text, html, ...; empty: text, or json with --json
  std::string out;       // a file; empty: standard output
  std::string language;  // of data/words/languages.tsv
  std::string captions;  // file of the clip's captions
  std::string ready_at;
  bool living = false;  // one HTML file that weighs itself anew; needs no --to
};

/// Adds `hand-on` with its options to the program; `then` is called with what was given.
void add_hand_on_command(
    CLI::App& program, const std::function<void(CLI::App*)>& common,
    std::function<void(const HandOnOptions&, const std::vector<std::string>&)> then);

/// --kitchen is where the recipe works, --to where it goes.
int hand_on_command(const std::vector<std::string>& files, const HandOnOptions& hand_on,
                    const CommonOptions& options);

}  // namespace maslin
