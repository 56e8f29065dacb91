// The words of bakers' notes (data/observation_words.tsv), and a note cut into items by
// them: measured quantities, subjects, facts, and breaks between clauses.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace maslin {

enum class NoteRole : std::uint8_t {
  word,          // not in the table
  clause_end,    // comma, "and"
  sentence_end,  // full stop, line end
  quantity,
  ratio,   // "doubled": a volume ratio
  rising,  // says that a percentage or a from-to is of the volume
  not_so,  // "not"
  nearly,
  above,
  below,
  core,  // whose temperature
  dough,
  room,
  other,  // a subject that nothing is learnt of: the oven, a tin, the water
  flour_left,
  before,  // the oven
  after,   // a time, or the oven
  after_bake,
  height,
  done,
  raw,
  at,
  from,
  to,
  out_of,
  prove,
  feel,
  crust,
  glaze_did  // how a glaze behaved; read only where a glaze or its amounts are spoken of
};

enum class NoteDimension : std::uint8_t {
  bare,
  minutes,
  celsius,
  fahrenheit,
  degrees,  // of either scale
  grams,
  millimetres,
  millilitres,
  percent,
  factor,    // "x2", "twice"
  clock,     // minutes after midnight
  pair,      // "7/9"
  lightness  // L* of a colour: "#a0622d", "rgb(160, 98, 45)", "L* 55"
};

struct NoteItem {
  NoteRole role = NoteRole::word;
  std::string word;  // as folded; for a row of the table its value
  NoteDimension dimension = NoteDimension::bare;
  double value = 0.0;
  double second = 0.0;    // of a pair
  std::size_t begin = 0;  // bytes of the note
  std::size_t end = 0;
};

/// Where a kind of value usually lies (data/observation_ranges.tsv).
struct UsualRange {
  double low = 0.0;
  double high = 0.0;
  std::string unit;
  std::string words;
};

class NoteWords {
 public:
  /// From the tables built into the program.
  NoteWords();

  struct Row {
    std::string role;
    std::string value;
  };
  /// The row of a phrase of folded words with single spaces; null if there is none.
  const Row* find(const std::string& phrase) const;
  std::size_t longest_phrase() const { return longest_phrase_; }
  /// Zero width when the table has no such row.
  UsualRange usual(std::string_view what) const;

 private:
  std::map<std::string, Row> rows_;
  std::map<std::string, UsualRange, std::less<>> usual_;
  std::size_t longest_phrase_ = 1;
};

/// The note's items in order, quantities joined with their units.
std::vector<NoteItem> note_items(std::string_view note, const NoteWords& words);

}  // namespace maslin
