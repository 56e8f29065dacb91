// A note's items, clause by clause, to observations.
#include <algorithm>
#include <iterator>
#include <utility>

#include "recipe/note_clause.h"
#include "recipe/note_questions.h"
#include "recipe/note_words.h"
#include "recipe/observation.h"

namespace maslin {

NoteReading read_note(std::string_view text, const NoteWords& words) {
  constexpr std::size_t k_longest_note = 10000;
  const std::string_view note = text.substr(0, k_longest_note);
  NoteReading out;
  NoteContext context;
  std::vector<NoteItem> items;
  const auto end_clause = [&] {
    if (!items.empty()) {
      NoteClause clause(note, std::exchange(items, {}), words);
      std::vector<Observation> read = clause.read(context);
      if (read.empty()) {
        out.unread.push_back(clause.text());
      }
      std::move(read.begin(), read.end(), std::back_inserter(out.observations));
    }
  };
  for (NoteItem& item : note_items(note, words)) {
    if (item.role == NoteRole::clause_end || item.role == NoteRole::sentence_end) {
      end_clause();
      if (item.role == NoteRole::sentence_end) {
        context.at_minutes.reset();
      }
    } else {
      items.push_back(std::move(item));
    }
  }
  end_clause();
  ask_masses(out.observations, words);
  return out;
}

}  // namespace maslin
