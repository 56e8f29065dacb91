// What was seen at a bake, out of a baker's own words: "doubled at 48 min", "core 96 °C",
// "15 g flour left", "done at 30, a shade dark". What cannot be read stays as text; what
// can hardly be so is kept and questioned.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace maslin {

class NoteWords;

enum class ObservationKind : std::uint8_t {
  volume_ratio,  // volume over that at the start of the prove
  minutes_done,  // minutes in the oven when it was done
  core_celsius,  // of the coldest place
  dough_celsius,
  room_celsius,
  flour_left_grams,   // of the flour that was weighed, not used
  feel,               // a class of the dough's feel
  crust,              // a class of the crust's colour
  crust_lightness,    // CIELAB L* of the open crust: of a colour that was picked
  mass_before_grams,  // of what went into the oven
  mass_after_grams,   // of what came out
  height,             // of a piece, mm
  glaze,              // a class of its thickness; the value is g of liquid to 100 g of sugar, or
                      // 0: the recipe's own amounts
  score               // of any sense the baker names
};
std::string_view observation_kind_name(ObservationKind kind);
std::optional<ObservationKind> observation_kind_from(std::string_view name);
/// "min", "°C", "g", "mm", "L*", or empty for a bare number and for a class.
std::string_view observation_unit(ObservationKind kind);

/// Whether the value was met, or the truth lies to one side: "not doubled at 60 min" is a
/// ratio below 2, "not done at 30" is done above 30 minutes.
enum class Bound : std::uint8_t { is, below, above };

struct Observation {
  ObservationKind kind = ObservationKind::volume_ratio;
  /// In the unit of the kind; 0 for a class, and for minutes_done without a time.
  double value = 0.0;
  /// glaze: wash, run, drizzle, coat, line, stiff, and "just line" at its thin edge;
  /// feel: very_stiff, stiff, medium, soft, slack, batter; crust: pale, light gold, golden,
  /// brown, dark, burnt; score: what was scored ("crumb"); else empty.
  std::string word;
  double out_of = 0.0;  // score: the best there is
  Bound bound = Bound::is;
  /// Since the prove began, or since the piece went into the oven; not always said.
  std::optional<double> at_minutes;
  /// Place on the trial's checklist of the step whose beginning at_minutes was counted from;
  /// empty when the baker said the time.
  std::optional<int> step;
  std::string prove;  // first, second, third, last, preferment; empty when not said
  std::string text;   // the words it was read from
  /// Asked of the baker when the value can hardly be so; else empty. Until it is answered
  /// the value is to be trusted little.
  std::string question;
  /// What the value, or the time of it, would be if the question is answered with yes.
  std::optional<double> meant;
  std::optional<double> meant_minutes;
  bool operator==(const Observation&) const = default;
};

struct NoteReading {
  std::vector<Observation> observations;
  std::vector<std::string> unread;  // clauses that said nothing measurable
};

/// Reads a note of up to 10 000 bytes; what is longer is read up to there.
NoteReading read_note(std::string_view text, const NoteWords& words);

/// What a program or a page says was seen: a JSON list of notes in words ("doubled at 48
/// min") and of observations as observations_to_json writes them.
struct SeenDocument {
  std::vector<Observation> observations;
  std::vector<std::string> unread;  // words that said nothing measurable
  std::string problem;              // a sentence when the list is at fault; else empty
};
SeenDocument seen_from_json(std::string_view list, const NoteWords& words);

/// A JSON list, exact both ways: {"kind", "value", "unit", "at_minutes", ...}; docs/store.md.
std::string observations_to_json(const std::vector<Observation>& observations);
/// Entries that are no observation are left out.
std::vector<Observation> observations_from_json(std::string_view text);

}  // namespace maslin
