#include "cli/keeping_arguments.h"

#include <CLI/CLI.hpp>

namespace maslin {
namespace {

using Command = int (*)(const CommonOptions&, const KeepingOptions&);

CLI::App* add(CLI::App& group, const CommandFrame& frame, const char* name, const char* words,
              Command command) {
  CLI::App* added = group.add_subcommand(name, words);
  frame.add_common(added);
  added->callback([&frame_status = frame.status, &options = frame.options, &keeping = frame.keeping,
                   command] { frame_status = command(options, keeping); });
  return added;
}

void add_moment(CLI::App* command, const CommandFrame& frame) {
  command->add_option("--at", frame.keeping.at,
                      "When it was: 14:30, or 2026-05-01T14:30; else now");
}

void add_library(CLI::App& library, const CommandFrame& frame) {
  KeepingOptions& keeping = frame.keeping;
  CLI::App* save =
      add(library, frame, "save", "Keep recipes, each as a new version of its name", library_save);
  save->add_option("RECIPE", keeping.words, "Recipe texts or documents; - is standard input")
      ->required();
  save->add_option("--name", keeping.name, "The name to keep it under; else its title");
  save->add_option("--why", keeping.why, "What was changed, in your words");
  save->add_option("--from", keeping.from, "The version it was made from, if not the last one");
  save->add_option("--tag", keeping.tags, "A word to find it by; may be repeated")
      ->expected(1)
      ->take_all();

  CLI::App* list = add(library, frame, "list", "What is kept", library_list);
  list->add_option("--tag", keeping.name, "Only what bears this word");

  CLI::App* show = add(library, frame, "show", "A version as it was kept", library_show);
  show->add_option("VERSION", keeping.words, "A name, name@2 for its second version, or an id")
      ->required();

  CLI::App* history = add(library, frame, "history", "The versions of a recipe", library_history);
  history->add_option("NAME", keeping.name, "A kept recipe")->required();
  history->add_option("--most", keeping.most, "How many of the newest")
      ->check(CLI::Range(1, 1000000));

  CLI::App* search =
      add(library, frame, "search", "Recipes and notes with these words", library_search);
  search->add_option("WORD", keeping.words, "Words, or their beginnings")->required();

  CLI::App* tag = add(library, frame, "tag", "Give a recipe words to be found by", library_tag);
  tag->add_option("NAME", keeping.name, "A kept recipe")->required();
  tag->add_option("WORD", keeping.words, "The words")->required();
  tag->add_flag("--remove", keeping.remove, "Take the words off again");

  CLI::App* write = add(library, frame, "export",
                        "Write all that is kept to one JSON file and pictures", library_export);
  write->add_option("FOLDER", keeping.name, "A new folder")->required();
  CLI::App* read =
      add(library, frame, "import", "Read such a folder into an empty store", library_import);
  read->add_option("FOLDER", keeping.name, "The folder")->required();
  CLI::App* backup =
      add(library, frame, "backup", "Copy the store while it is in use", library_backup);
  backup->add_option("FILE", keeping.name, "A new file")->required();
  add(library, frame, "check", "Look whether the store is sound", library_check);
}

void add_kitchen(CLI::App& kitchen, const CommandFrame& frame) {
  CLI::App* keep = add(kitchen, frame, "add", "Keep a kitchen under its name", kitchen_add);
  keep->add_option("FILE", frame.keeping.words, "A kitchen file; - is standard input")->required();
  keep->add_option("--name", frame.keeping.name, "The name to keep it under; else its own");
  add(kitchen, frame, "list", "The kitchens that are kept", kitchen_list);
  CLI::App* show = add(kitchen, frame, "show", "A kept kitchen", kitchen_show);
  show->add_option("NAME", frame.keeping.words, "Its name")->required();
}

void add_trial(CLI::App& trial, const CommandFrame& frame) {
  KeepingOptions& keeping = frame.keeping;
  const auto of_trial = [&keeping](CLI::App* command) {
    command->add_option("ID", keeping.trial, "The number of the trial")->required();
  };

  CLI::App* start = add(trial, frame, "start", "Start a trial of a recipe", trial_start);
  start->add_option("RECIPE", keeping.words, "A recipe text or document, or a kept version")
      ->required()
      ->expected(1);
  start->add_option("--name", keeping.name, "The name to keep the recipe under; else its title");
  add_moment(start, frame);

  CLI::App* note = add(trial, frame, "note", "Write down what you see", trial_note);
  of_trial(note);
  note->add_option("TEXT", keeping.words, "The note; - takes each line of standard input as one");
  note->add_option("--picture", keeping.pictures, "A JPEG, PNG or WebP file; may be repeated")
      ->expected(1)
      ->take_all();
  note->add_option("--instead-of", keeping.instead_of, "The number of a note this one corrects")
      ->check(CLI::PositiveNumber);
  note->add_flag("--no-forecast", keeping.no_forecast, "Only keep it");
  note->add_flag("--sure", keeping.sure, "It was so, however unusual: ask nothing");
  add_moment(note, frame);

  CLI::App* step = add(trial, frame, "step", "Mark a step of the checklist", trial_step);
  of_trial(step);
  step->add_option("STEP", keeping.step, "Its number on the checklist")->required();
  step->add_option("MARK", keeping.mark, "begun, done or undone")
      ->required()
      ->check(CLI::IsMember({"begun", "done", "undone"}));
  add_moment(step, frame);

  CLI::App* close = add(trial, frame, "close", "End a trial", trial_close);
  of_trial(close);
  add_moment(close, frame);
  CLI::App* diagnose =
      add(trial, frame, "diagnose", "Why it went wrong, likeliest cause first", trial_diagnose);
  of_trial(diagnose);
  diagnose
      ->add_option("--fault", keeping.faults,
                   "dense, pale, 'too dark', 'gummy line', ...; else what the notes name")
      ->expected(1)
      ->take_all();
  CLI::App* next =
      add(trial, frame, "next",
          "What to change for the next bake of a recipe, by its scores and faults", trial_next);
  next->add_option("NAME", keeping.name, "A kept recipe")->required();
  next->add_option("--sense", keeping.sense,
                   "Which score counts: crumb, flavour, ...; else the mean of all");
  next->add_option("--limit", keeping.limits,
                   "Between what a figure may lie: sugar_pct_flour=10..20; may be repeated")
      ->expected(1)
      ->take_all();
  of_trial(add(trial, frame, "reopen", "Go on with a trial that was closed", trial_reopen));
  CLI::App* list = add(trial, frame, "list", "The trials there are", trial_list);
  list->add_flag("--open", keeping.open, "Only those that are not closed");
  of_trial(add(trial, frame, "show", "A trial with its checklist and notes", trial_show));
  CLI::App* bring = add(trial, frame, "import", "A bake noted on a living card", trial_import);
  bring->add_option("FILE", keeping.words, "What the card saved; - is standard input")
      ->required()
      ->expected(1);
  CLI::App* picture = add(trial, frame, "picture", "Write a kept picture to a file", trial_picture);
  picture->add_option("PICTURE", keeping.name, "Its id")->required();
  picture->add_option("--out", keeping.out, "A new file")->required();
}

}  // namespace

void add_keeping_commands(CLI::App& program, CLI::App& kitchen, const CommandFrame& frame) {
  CLI::App* library = program.add_subcommand("library", "Recipes kept, with their versions");
  library->require_subcommand(1);
  add_library(*library, frame);
  kitchen.require_subcommand(0, 1);
  add_kitchen(kitchen, frame);
  CLI::App* trial =
      program.add_subcommand("trial", "Start, note and close a trial; each note is kept at once");
  trial->require_subcommand(1);
  add_trial(*trial, frame);
}

}  // namespace maslin
