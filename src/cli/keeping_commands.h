// The commands that keep things: library, kitchen and trial.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "cli/commands.h"

namespace maslin {

/// What the commands may be given beyond CommonOptions.
struct KeepingOptions {
  std::vector<std::string> words;  // files, names or words, by command
  std::string name;
  std::string why;
  std::string from;
  std::vector<std::string> tags;
  bool remove = false;
  int most = 200;
  std::string at;  // a moment
  std::int64_t trial = 0;
  int step = 0;
  std::string mark;
  std::int64_t instead_of = 0;  // 0: none
  std::vector<std::string> pictures;
  bool sure = false;
  bool no_forecast = false;  // keep the note and say no more
  std::vector<std::string> faults;
  bool open = false;
  std::string sense;
  std::vector<std::string> limits;
  std::string out;
};

int library_save(const CommonOptions& options, const KeepingOptions& keeping);
int library_list(const CommonOptions& options, const KeepingOptions& keeping);
int library_show(const CommonOptions& options, const KeepingOptions& keeping);
int library_history(const CommonOptions& options, const KeepingOptions& keeping);
int library_search(const CommonOptions& options, const KeepingOptions& keeping);
int library_tag(const CommonOptions& options, const KeepingOptions& keeping);
int library_export(const CommonOptions& options, const KeepingOptions& keeping);
int library_import(const CommonOptions& options, const KeepingOptions& keeping);
int library_backup(const CommonOptions& options, const KeepingOptions& keeping);
int library_check(const CommonOptions& options, const KeepingOptions& keeping);

int kitchen_add(const CommonOptions& options, const KeepingOptions& keeping);
int kitchen_list(const CommonOptions& options, const KeepingOptions& keeping);
int kitchen_show(const CommonOptions& options, const KeepingOptions& keeping);

int trial_start(const CommonOptions& options, const KeepingOptions& keeping);
/// The text "-" takes each line of standard input as a note, and answers each as soon as
/// it is safe on the disk.
int trial_note(const CommonOptions& options, const KeepingOptions& keeping);
int trial_step(const CommonOptions& options, const KeepingOptions& keeping);
int trial_close(const CommonOptions& options, const KeepingOptions& keeping);
/// Why it went wrong.
int trial_diagnose(const CommonOptions& options, const KeepingOptions& keeping);
/// What to change for the next bake.
int trial_next(const CommonOptions& options, const KeepingOptions& keeping);
int trial_reopen(const CommonOptions& options, const KeepingOptions& keeping);
int trial_list(const CommonOptions& options, const KeepingOptions& keeping);
/// A bake that a living card noted, as a trial.
int trial_import(const CommonOptions& options, const KeepingOptions& keeping);
int trial_show(const CommonOptions& options, const KeepingOptions& keeping);
int trial_picture(const CommonOptions& options, const KeepingOptions& keeping);

}  // namespace maslin
