// One clause of a note: each reader takes the items it understands out of it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "recipe/note_questions.h"
#include "recipe/note_words.h"
#include "recipe/observation.h"

namespace maslin {

/// What a clause hands on to the next: "done at 30, a shade dark".
struct NoteContext {
  std::optional<double> at_minutes;
  std::string prove;
  bool mass_before = false;
};

class NoteClause {
 public:
  NoteClause(std::string_view note, std::vector<NoteItem> items, const NoteWords& words);

  const std::string& text() const { return text_; }
  std::vector<Observation> read(NoteContext& context);

 private:
  using At = std::size_t;

  // note_clause.cpp: looking about, and what is said of the clause as a whole.
  bool role_at(At at, NoteRole role) const;
  bool has(NoteRole role) const;
  /// The first item of that role; the end when there is none.
  At first(NoteRole role) const;
  /// The next item that is not a mere word, going `by` +1 or -1; the end if there is none.
  At telling(At from, int by) const;
  /// An item that was understood becomes a mere word.
  void spend(At at);
  std::string text_of(At at) const;
  Observation& add(ObservationKind kind, double value);
  void take_prove(NoteContext& context);
  void take_time(NoteContext& context);
  bool says_only_when() const;
  void take_done(const NoteContext& context);
  void take_classes();
  void finish(Observation& one, const NoteContext& context);

  void take_glaze();

  // note_measures.cpp: what was measured.
  void take_flour_left();
  void take_masses(NoteContext& context);
  void take_mass_at(NoteContext& context, At at);
  void add_mass(NoteContext& context, At at, ObservationKind kind);
  void take_scores();
  void add_score(At begin, At from, At to, double out_of);
  std::string subject_between(At from, At to) const;
  void take_temperatures();
  void take_colour();
  bool is_bare_temperature(At subject, At at) const;
  void add_temperature(NoteRole subject, At at);
  void take_ratios();
  void add_growth(At low, At high);
  void add_ratio(At at, double value);
  void take_height();
  /// The two ends of "from 4 cm to 9 cm"; the first may go without a unit.
  struct FromTo {
    At low = 0;
    At high = 0;
  };
  std::optional<FromTo> take_from_to(NoteDimension dimension);

  std::string_view note_;
  std::vector<NoteItem> items_;  // spent one by one
  std::vector<NoteItem> as_were_;
  const NoteWords& words_;
  std::string text_;
  std::vector<Observation> out_;
  std::string prove_;
  bool of_prove_ = false;
  std::optional<double> clock_;  // minutes after midnight
  std::optional<double> time_;   // minutes
};

bool is_of(const NoteItem& item, NoteDimension dimension);
/// Without white space at its ends.
std::string trimmed(std::string_view text);

}  // namespace maslin
