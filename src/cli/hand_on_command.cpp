#include "cli/hand_on_command.h"

#include <CLI/CLI.hpp>
#include <fstream>
#include <iostream>
#include <memory>
#include <utility>

#include "app/hand_on.h"
#include "cli/inputs.h"
#include "handon/card_words.h"

namespace maslin {
namespace {

/// Asked for in words, or "json" when only --json says so.
std::string format_of(const HandOnOptions& hand_on, const CommonOptions& options) {
  return !hand_on.as.empty() ? hand_on.as : options.json ? "json" : "text";
}

int give(const std::string& card, const std::string& file) {
  if (file.empty()) {
    std::cout << card;
    return k_done;
  }
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out << card << std::flush;
  return out ? k_done
             : complain(file, "cannot be written; check the folder and that there is room.");
}

}  // namespace

void add_hand_on_command(
    CLI::App& program, const std::function<void(CLI::App*)>& common,
    std::function<void(const HandOnOptions&, const std::vector<std::string>&)> then) {
  struct Asked {
    HandOnOptions options;
    std::vector<std::string> files;
  };
  const auto asked = std::make_shared<Asked>();
  HandOnOptions& options = asked->options;
  CLI::App* command =
      program.add_subcommand("hand-on", "A card for another kitchen and its measures");
  command->add_option("RECIPE", asked->files, "Recipe texts or read documents; - is standard input")
      ->required();
  command->add_option("--to", options.to, "The kitchen it goes to: a file, or a kept one's name");
  command->add_option("--as", options.as, "The form of the card: " + card_format_names());
  command->add_option("--out", options.out, "A file for the card; else standard output");
  command->add_option("--language", options.language,
                      handon::card_language_tags() + "; else by the kitchen's country");
  command->add_option("--captions", options.captions, "The clip's captions, for forms about one");
  command->add_option("--ready-at", options.ready_at, "When it is to be ready, for forms of a day");
  command->add_flag("--living", options.living,
                    "One HTML file that weighs itself anew in any kitchen");
  common(command);
  command->callback([asked, then = std::move(then)] {
    if (asked->options.to.empty() && !asked->options.living) {
      throw CLI::RequiredError("--to or --living");
    }
    if (asked->options.living && asked->files.size() > 1) {
      throw CLI::ValidationError("--living", "is one recipe at a time");
    }
    then(asked->options, asked->files);
  });
}

int hand_on_command(const std::vector<std::string>& files, const HandOnOptions& hand_on,
                    const CommonOptions& options) {
  const Result<const CardFormat*> format = card_format_named(format_of(hand_on, options));
  if (!format.value) {
    return complain("--as", format.problem);
  }
  if (!(*format.value)->text && hand_on.out.empty()) {
    return complain("--as " + std::string((*format.value)->name),
                    "is not text: give a file for it with --out.");
  }
  if (!hand_on.out.empty() && files.size() > 1) {
    return complain("--out", "takes one card: give one recipe.");
  }
  CommonOptions there = options;
  there.kitchen = hand_on.to;
  const auto to = kitchen_of(there);
  const auto from = kitchen_of(options);
  if (!to || !from) {
    return k_input_at_fault;
  }
  HandOnRequest request{*to, *from,           hand_on.language, {options.seed, options.draws},
                        "",  hand_on.ready_at};
  if (!hand_on.captions.empty()) {
    const auto captions = text_of(hand_on.captions);
    if (!captions) {
      return complain(hand_on.captions, "cannot be read; give the clip's captions as a file.");
    }
    request.captions = *captions;
  }
  const Tools tools;
  return for_each_recipe(tools, files, options, [&](const Recipe& recipe, const std::string& file) {
    const Result<std::string> card = maslin::hand_on(tools, recipe, request, (*format.value)->name);
    return card.value ? give(*card.value, hand_on.out) : complain(name_of(file), card.problem);
  });
}

}  // namespace maslin
