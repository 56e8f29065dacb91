// A trial is one bake of one version in one kitchen: what was begun and done on the
// checklist, what was seen and when, and pictures of it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "store/picture_file.h"
#include "store/sqlite.h"

namespace maslin {

struct NewTrial {
  std::int64_t recipe = 0;                    // the name it is baked under
  std::int64_t version = 0;                   // the document that is baked
  std::optional<std::int64_t> kitchen;        // the name of the kitchen
  std::optional<std::int64_t> kitchen_state;  // the kitchen as it is at the start
  std::int64_t started_at_ms = 0;
};
/// Answers the number of the trial.
std::int64_t start_trial(Transaction& transaction, const NewTrial& trial);

struct Trial {
  std::int64_t number = 0;
  std::string recipe;
  std::string title;
  std::int64_t version = 0;
  std::string version_id;
  std::string kitchen;                        // empty when none was named
  std::optional<std::int64_t> kitchen_state;  // document
  std::string kitchen_state_id;
  std::int64_t started_at_ms = 0;
  std::optional<std::int64_t> closed_at_ms;
  int notes = 0;
};
std::optional<Trial> trial_of(Database& database, std::int64_t number);

enum class TrialFilter : std::uint8_t { all, open };
/// Newest first.
std::vector<Trial> all_trials(Database& database, TrialFilter filter);

struct NewNote {
  std::int64_t trial = 0;
  std::int64_t at_ms = 0;
  std::string text;
  std::string observations = "[]";         // a JSON list
  std::optional<std::int64_t> instead_of;  // a note of the same trial that this one corrects
  std::string sender_key;                  // the sender's own name for it; may be empty
  std::vector<std::int64_t> pictures;
};
/// Answers the number of the note.
std::int64_t add_note(Transaction& transaction, const NewNote& note);

struct Note {
  std::int64_t number = 0;
  std::int64_t at_ms = 0;
  std::string text;
  std::string observations;
  std::string sender_key;
  std::optional<std::int64_t> instead_of;
  std::vector<std::string> pictures;  // ids
  bool corrected = false;             // a later note stands instead of it
};
/// The note, if the trial has it.
std::optional<Note> note_of(Database& database, std::int64_t trial, std::int64_t number);
/// The note of the trial that its sender gave this name.
std::optional<Note> note_by_key(Database& database, std::int64_t trial, std::string_view key);
/// In the order they were written.
std::vector<Note> notes_of(Database& database, std::int64_t trial);

enum class Mark : std::uint8_t { begun, done, undone };
std::string_view mark_name(Mark mark);
std::optional<Mark> mark_from(std::string_view name);

struct StepMark {
  int step = 1;  // place on the checklist, from 1
  Mark mark = Mark::begun;
  std::int64_t at_ms = 0;
};
void mark_step(Transaction& transaction, std::int64_t trial, const StepMark& mark);
/// In the order they were made.
std::vector<StepMark> marks_of(Database& database, std::int64_t trial);

/// Ends a trial, or takes its end back (nothing).
void set_closed(Transaction& transaction, std::int64_t trial, std::optional<std::int64_t> at_ms);

/// Keeps a picture that was cleaned; the same picture again is the same row.
std::int64_t keep_picture(Transaction& transaction, const CleanPicture& picture);
struct KeptPicture {
  std::string id;  // SHA-256 of the bytes
  PictureKind kind = PictureKind::jpeg;
  std::string bytes;
};
/// By its id or the first six or more digits of it, if only one picture has them.
std::optional<KeptPicture> picture_of(Database& database, std::string_view id);

}  // namespace maslin
