#include "store/search.h"

#include <set>

namespace maslin {
namespace {

/// The words as a full-text question: each quoted, so that nothing in it is syntax, and
/// each as a beginning. Empty when there is no letter or digit.
std::string question_of(std::string_view words) {
  std::string out;
  std::string word;
  const auto flush = [&] {
    if (!word.empty()) {
      out += (out.empty() ? "\"" : " \"") + word + "\"*";
      word.clear();
    }
  };
  for (const char c : words) {
    const auto byte = static_cast<unsigned char>(c);
    const bool letter =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || byte >= 0x80;
    if (letter) {
      word += c;
    } else {
      flush();
    }
  }
  flush();
  return out;
}

void find_names(Database& database, const std::string& question, int most,
                std::set<std::string>& seen, SearchResult& out) {
  Statement rows = database.ask(
      "SELECT n.name, d.title, d.id, c.place FROM name_words w"
      " JOIN name n ON n.number = w.rowid AND n.kind = 'recipe'"
      " JOIN course c ON c.name = n.number"
      "   AND c.place = (SELECT max(place) FROM course WHERE name = n.number)"
      " JOIN document d ON d.number = c.document"
      " WHERE name_words MATCH ? ORDER BY w.rank LIMIT ?",
      {question, std::int64_t{most}});
  while (rows.row()) {
    seen.insert(rows.text(0));
    out.recipes.push_back(
        {rows.text(0), rows.text(1), rows.text(2), static_cast<int>(rows.whole(3)), true});
  }
}

/// Versions that no name stands for any more, newest first.
void find_versions(Database& database, const std::string& question, int most,
                   std::set<std::string>& seen, SearchResult& out) {
  // A word that thousands of old versions share, and hardly any recipe of today, is looked
  // for no further than this.
  constexpr int k_looked_at = 3000;
  Statement rows = database.ask(
      "SELECT n.name, d.title, d.id, c.place FROM"
      " (SELECT rowid AS number FROM document_words WHERE document_words MATCH ?"
      "  ORDER BY rowid DESC LIMIT ?) f"
      " JOIN document d ON d.number = f.number"
      " JOIN course c ON c.document = d.number"
      " JOIN name n ON n.number = c.name"
      " ORDER BY f.number DESC, c.place DESC",
      {question, std::int64_t{k_looked_at}});
  while (static_cast<int>(out.recipes.size()) < most && rows.row()) {
    if (seen.insert(rows.text(0)).second) {
      out.recipes.push_back(
          {rows.text(0), rows.text(1), rows.text(2), static_cast<int>(rows.whole(3)), false});
    }
  }
}

void find_notes(Database& database, const std::string& question, int most, SearchResult& out) {
  Statement rows = database.ask(
      "SELECT t.number, o.number, r.name, o.text, o.at_ms FROM"
      " (SELECT rowid AS number FROM note_words WHERE note_words MATCH ?"
      "  ORDER BY rowid DESC LIMIT ?) f"
      " JOIN note o ON o.number = f.number"
      " JOIN trial t ON t.number = o.trial"
      " JOIN name r ON r.number = t.recipe"
      " ORDER BY o.number DESC",
      {question, std::int64_t{most}});
  while (rows.row()) {
    out.notes.push_back({rows.whole(0), rows.whole(1), rows.text(2), rows.text(3), rows.whole(4)});
  }
}

}  // namespace

SearchResult search_store(Database& database, std::string_view words, int most) {
  SearchResult out;
  const std::string question = question_of(words);
  if (question.empty()) {
    return out;
  }
  std::set<std::string> seen;
  find_names(database, question, most, seen, out);
  if (static_cast<int>(out.recipes.size()) < most) {
    find_versions(database, question, most, seen, out);
  }
  find_notes(database, question, most, out);
  return out;
}

}  // namespace maslin
