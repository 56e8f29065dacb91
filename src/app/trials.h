// Trials: one bake of one version in one kitchen, from its start over notes, pictures and
// the checklist to its close.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/app.h"
#include "app/library.h"
#include "recipe/note_words.h"
#include "recipe/observation.h"
#include "store/trials.h"

namespace maslin {

/// A step of the recipe in a trial: when it was begun and done.
struct ChecklistStep {
  int step = 1;  // place on the checklist, from 1
  std::string part;
  Step what;
  std::optional<std::int64_t> begun_at_ms;
  std::optional<std::int64_t> done_at_ms;
  PartKind of = PartKind::dough;
};

/// The steps of all parts, parts before those that use them, with their marks.
std::vector<ChecklistStep> checklist_of(const Recipe& recipe, const std::vector<StepMark>& marks);

struct StartRequest {
  /// A recipe that is kept first, or the words for a version that is kept already.
  std::optional<Recipe> recipe;
  std::string version;
  std::string name;  // to keep the recipe under; empty: its title
  std::optional<Kitchen> kitchen;
  std::string kitchen_name;  // of a kitchen that is kept already
  std::int64_t at_ms = 0;
};
struct StartedTrial {
  Trial trial;
  std::vector<ChecklistStep> checklist;
};
Result<StartedTrial> start_trial(Store& store, const StartRequest& request);

/// Whether a value that is outside the usual is questioned, or stands because the baker
/// is sure of it.
enum class Certainty : std::uint8_t { ask, sure };

struct NoteRequest {
  std::int64_t trial = 0;
  std::string text;
  std::int64_t at_ms = 0;
  std::optional<std::int64_t> instead_of;
  std::vector<std::string> pictures;  // the files' bytes
  std::string sender_key = {};        // of whoever sends it: the same key again is kept once
  Certainty certainty = Certainty::ask;
};
struct WrittenNote {
  std::int64_t trial = 0;
  Note note;
  std::vector<Observation> observations;
  std::vector<std::string> unread;  // clauses that said nothing measurable
};
/// Keeps a note. When this answers, the note is on the disk. A trial that is closed takes what
/// teaches its kitchen nothing: a score, a picture, words. An observation without a time
/// of its own is timed by the clock from the step it belongs to, if that was begun.
Result<WrittenNote> write_note(Store& store, const NoteWords& words, const NoteRequest& request);

Result<ChecklistStep> mark_trial_step(Store& store, std::int64_t trial, const StepMark& mark);

/// A trial that was closed, and what it taught its kitchen (app/learning.h).
struct ClosedTrial {
  Trial trial;
  std::vector<Observation> observations;  // of the notes that stand
  std::vector<std::string> learnt;        // what the kitchen learnt, in words
  std::string learning;                   // why nothing was learnt; else empty
};

struct TrialView {
  Trial trial;
  std::vector<ChecklistStep> checklist;
  std::vector<Note> notes;
  std::vector<std::string> learnt;  // what its kitchen learnt of it, in words; once closed
};
Result<TrialView> view_trial(Store& store, std::int64_t trial);
Result<std::vector<Trial>> list_trials(Store& store, TrialFilter filter);

/// "core 96 °C at 20 min": what was read from a note.
std::string observation_words(const Observation& one);

/// A kept picture by its id.
Result<KeptPicture> picture_in_library(Store& store, std::string_view id);

// The documents of the commands (docs/store.md).
std::string started_to_json(const StartedTrial& started);
std::string note_to_json(const WrittenNote& note);
std::string step_to_json(std::int64_t trial, const ChecklistStep& step);
std::string closed_to_json(const ClosedTrial& closed);
std::string trial_to_json(const TrialView& view);
std::string trials_to_json(const std::vector<Trial>& trials);

}  // namespace maslin
