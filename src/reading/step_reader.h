#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "reading/measure.h"
#include "reading/step_text.h"

namespace maslin::reading {

// How a verb claims a step: see the verb rows of the word tables.
constexpr double k_noun_too = 1.0;
constexpr double k_weak = 2.0;
constexpr double k_waiting = 3.0;  // "leave", "stand": a prove or a rest
constexpr double k_cover = 4.0;    // says what follows unless another verb does
constexpr double k_frost = 6.0;    // "freeze", "thaw": waits, and never one with what follows
constexpr double k_awaited = 5.0;  // "until doubled": says what is waited for, is no step

/// Longest wait that is still a rest when nothing else says which, minutes.
constexpr double k_longest_rest = 14.0;

/// Shortest stay in an oven that bakes when the sentence has no verb of baking, minutes
/// (common practice: rolls take so long).
constexpr double k_shortest_bake = 8.0;

/// Longest rest of a yeast dough that is not meant to rise, minutes (common practice).
constexpr double k_longest_nap = 59.0;

/// Most lots of a dough that are divided again ("halve it, cut 20 from each"); more are the pieces.
constexpr double k_most_lots = 4.0;

/// Walks the tokens of one line and makes steps of them.
class StepReader {
 public:
  StepReader(const Text& text, std::size_t from, std::size_t to, StepContext& context)
      : text_(text), from_(from), to_(to), context_(context) {}

  std::vector<Step> run();

 private:
  struct Open {
    Step step;
    std::size_t from = 0;
    bool has_kind = false;
    double strength = 0.0;
    bool settled = false;  // has minutes, heat or pieces
    bool preheat = false;
    bool oven = false;         // an oven is spoken of
    bool until_rises = false;  // what is waited for is the rise
    bool inferred = false;     // the kind was guessed from a time alone
  };

  void open(std::size_t at);
  void close(std::size_t at);
  /// Waiting is a prove or a rest; a bake without heat takes the oven's.
  void resolve(Open& open);
  bool sentence_end(std::size_t i) const;
  std::size_t token(std::size_t i);
  std::size_t read_word(std::size_t i);
  void note_place(std::size_t i);
  /// A word that is verb and noun ("cream") is a verb where a sentence may begin.
  bool reads_as_verb(const Match& verb, std::size_t i) const;
  void take_verb(const Match& verb, std::size_t i);
  void set_kind(StepKind kind, double strength, std::size_t i);
  /// Starts a new step where the clause began, or at the verb itself.
  void turn(std::size_t i);
  /// "double make 10 balls": where the next thing to do begins without a full stop.
  bool begins_count(std::size_t i) const;
  bool to_the_oven(std::size_t i) const;
  std::size_t read_until(std::size_t i);
  std::size_t read_heat(std::size_t i);
  std::optional<Heat> bare_heat(std::size_t i) const;
  /// "375 x 20", "350 for 30-35": minutes at that heat, though no unit is said.
  std::optional<Time> bare_minutes(std::size_t i) const;
  /// "oven at 200", "bake 425", "200 fan", "three fifty for forty minutes".
  std::optional<Heat> bare_oven_heat(std::size_t i) const;
  /// Figures that stand on oven dials.
  static bool number_of_dial(double value);
  void take_oven_words(std::string_view words, std::size_t i);
  /// A heat with no verb in its sentence is the oven's.
  void begin_heat(std::size_t);
  /// "Cocer a 220 °C": the same word boils and bakes; no pot of water is so hot.
  void bake_not_boil(Range celsius);
  void close_before(std::size_t i);
  void take_heat(const Heat& heat, std::size_t i, bool fan_before);
  void take_oven_heat(const Heat& heat, Range celsius, std::size_t i, bool fan);
  bool after_or(std::size_t i) const;
  bool alternative_mark(std::size_t i) const;
  /// A fan oven does at 20 °C less what a still one does (common practice).
  void set_fan();
  void take_time(const Time& time, std::size_t i);
  /// The verb that closes the clause, where verbs come last.
  std::size_t verb_after(std::size_t i) const;
  /// The strong verb that "to" leads to soon after `i`: "will be required to bake".
  Match verb_after_to(std::size_t i) const;
  void attach_time(const Time& time, std::size_t i);
  std::size_t read_pieces(std::size_t i);
  bool ends_clause(std::size_t i) const;
  /// The verb of the clause divides and "into", "in" or nothing stands before the number.
  bool divides(std::size_t i, std::size_t end) const;
  /// "Cut 20 from each half", "divide each into 8": said of every lot.
  bool of_each(std::size_t from, std::size_t to) const;
  void take_pieces(const Number& number, const std::optional<FoundMeasure>& each, std::size_t i);
  /// "24 pieces at 72 g", "9 pieces of 75 g", "(75 g)".
  std::optional<double> mass_after(std::size_t i) const;

  const Text& text_;
  std::size_t from_;
  std::size_t to_;
  StepContext& context_;
  std::vector<Step> steps_;
  Open open_;
  std::size_t clause_ = 0;
  bool new_sentence_ = true;
  bool after_break_ = false;
  bool core_ = false;
  bool other_heat_ = false;  // the next degrees are the dough's or the water's
  bool fan_oven_ = false;    // a fan oven was named before its degrees
  bool from_mark_ = false;
  bool skip_time_ = false;     // the next time is another oven's
  bool time_seen_ = false;     // since the clause began
  bool led_by_colon_ = false;  // "FERMENT: set in a warm place": what leads says what it is
  bool verb_seen_ = false;     // since the clause began
};

}  // namespace maslin::reading
