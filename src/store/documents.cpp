#include "store/documents.h"

#include <unordered_map>

#include "quantity/number_text.h"
#include "recipe/recipe_json.h"
#include "store/sha256.h"

namespace maslin {
namespace {

DocumentKind kind_from(std::string_view name) {
  return name == "kitchen" ? DocumentKind::kitchen : DocumentKind::recipe;
}

/// The current row of a name, its tags and how often it was baked; add a WHERE.
constexpr std::string_view k_named =
    "SELECT n.number, n.name, c.document, d.id, d.title, c.at_ms, c.place,"
    "  (SELECT count(*) FROM trial t WHERE t.recipe = n.number),"
    "  (SELECT group_concat(word, char(10)) FROM"
    "     (SELECT word FROM tag WHERE tag.name = n.number ORDER BY word))"
    " FROM name n"
    " JOIN course c ON c.name = n.number"
    "   AND c.place = (SELECT max(place) FROM course WHERE name = n.number)"
    " JOIN document d ON d.number = c.document ";

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t to = std::min(text.find('\n', from), text.size());
    out.push_back(text.substr(from, to - from));
    from = to + 1;
  }
  return out;
}

Named named_at(const Statement& row) {
  Named out;
  out.number = row.whole(0);
  out.name = row.text(1);
  out.document = row.whole(2);
  out.document_id = row.text(3);
  out.title = row.text(4);
  out.saved_at_ms = row.whole(5);
  out.versions = static_cast<int>(row.whole(6));
  out.trials = static_cast<int>(row.whole(7));
  out.tags = lines_of(row.text(8));
  return out;
}

bool is_id_start(std::string_view words) {
  constexpr std::size_t k_all = 64;
  return words.size() >= k_fewest_id_digits && words.size() <= k_all &&
         words.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

FoundVersion version_by_id(Database& database, DocumentKind kind, std::string_view start) {
  // The digits that follow are at most 'f', so this is the range of ids that begin so.
  Statement rows = database.ask(
      "SELECT number FROM document WHERE id >= ? AND id < ? || 'g' AND kind = ? LIMIT 2",
      {start, start, document_kind_name(kind)});
  FoundVersion out;
  if (rows.row()) {
    out.document = rows.whole(0);
    if (rows.row()) {
      return {std::nullopt, std::nullopt, true};
    }
  }
  return out;
}

Keep with_parent(Keep keep, std::optional<std::int64_t> parent) {
  keep.parent = keep.parent ? keep.parent : parent;
  return keep;
}

}  // namespace

std::string_view document_kind_name(DocumentKind kind) {
  return kind == DocumentKind::kitchen ? "kitchen" : "recipe";
}

std::string recipe_words(const Recipe& recipe) {
  std::string out;
  const auto add = [&out](const std::string& text) { out += text + "\n"; };
  for (const Part& part : recipe.parts) {
    add(part.name);
    for (const Line& line : part.lines) {
      add(line.text);
      // A line whose text says it already is not counted twice.
      if (line.text.find(line.name) == std::string::npos) {
        add(line.name);
      }
    }
    for (const Step& step : part.steps) {
      add(step.text);
    }
  }
  for (const std::string& remark : recipe.remarks) {
    add(remark);
  }
  return out;
}

std::int64_t document_row(Transaction& transaction, const Document& document,
                          const std::string& words) {
  Database& database = transaction.database();
  database.run(
      "INSERT INTO document (id, kind, title, first_saved_at_ms, body) VALUES (?, ?, ?, ?, ?)",
      {document.id, document_kind_name(document.kind), document.title, document.first_saved_at_ms,
       document.body});
  const std::int64_t number = database.last_row();
  if (document.kind == DocumentKind::recipe) {
    database.run("INSERT INTO document_words (rowid, title, words) VALUES (?, ?, ?)",
                 {number, document.title, words});
  }
  return number;
}

void descent_row(Transaction& transaction, std::int64_t document, std::int64_t parent) {
  // Going back to an older version makes it no child of the newer one.
  if (parent < document) {
    transaction.database().run("INSERT OR IGNORE INTO descent (document, parent) VALUES (?, ?)",
                               {document, parent});
  }
}

std::int64_t name_row(Transaction& transaction, DocumentKind kind, const std::string& name) {
  Database& database = transaction.database();
  database.run("INSERT INTO name (kind, name) VALUES (?, ?)", {document_kind_name(kind), name});
  return database.last_row();
}

void learn_name_words(Transaction& transaction, std::int64_t name) {
  Database& database = transaction.database();
  const std::optional<Document> now = document_of(
      database,
      database.whole("SELECT document FROM course WHERE name = ? ORDER BY place DESC", {name}));
  if (!now || now->kind != DocumentKind::recipe) {
    return;
  }
  database.run("DELETE FROM name_words WHERE rowid = ?", {name});
  database.run(
      "INSERT INTO name_words (rowid, name, tags, title, words) SELECT number, name,"
      " (SELECT group_concat(word, ' ') FROM tag WHERE tag.name = number), ?, ? FROM name"
      " WHERE number = ?",
      {now->title, recipe_words(recipe_from_json(now->body).recipe), name});
}

void course_row(Transaction& transaction, std::int64_t name, std::int64_t document,
                const Keep& keep) {
  transaction.database().run(
      "INSERT INTO course (name, place, document, at_ms, why) VALUES (?,"
      " (SELECT 1 + ifnull(max(place), 0) FROM course WHERE name = ?), ?, ?, ?)",
      {name, name, document, keep.at_ms, keep.why});
}

Kept keep_document(Transaction& transaction, const Document& document, const std::string& words,
                   const Keep& keep) {
  Database& database = transaction.database();
  const std::optional<Named> before = named(database, document.kind, keep.name);
  Kept out;
  out.document = document;
  out.document.id = sha256_hex(document.body);
  if (before && before->document_id == out.document.id) {
    out.name = before->number;
    out.document = *document_of(database, before->document);
    out.place = before->versions;
    return out;
  }
  Statement known = database.ask("SELECT number FROM document WHERE id = ?", {out.document.id});
  if (known.row()) {
    out.document = *document_of(database, known.whole(0));
  } else {
    out.document.first_saved_at_ms = keep.at_ms;
    out.document.number = document_row(transaction, out.document, words);
  }
  const Keep whole = with_parent(keep, before ? std::optional(before->document) : std::nullopt);
  if (whole.parent) {
    descent_row(transaction, out.document.number, *whole.parent);
  }
  out.name = before ? before->number : name_row(transaction, document.kind, keep.name);
  course_row(transaction, out.name, out.document.number, keep);
  learn_name_words(transaction, out.name);
  out.place = before ? before->versions + 1 : 1;
  out.changed = true;
  return out;
}

Kept keep_recipe(Transaction& transaction, const Recipe& recipe, const Keep& keep) {
  Document document;
  document.kind = DocumentKind::recipe;
  document.title = recipe.title;
  document.body = recipe_to_json(recipe);
  return keep_document(transaction, document, recipe_words(recipe), keep);
}

Kept keep_kitchen(Transaction& transaction, const Kitchen& kitchen, const Keep& keep) {
  Document document;
  document.kind = DocumentKind::kitchen;
  document.title = kitchen.name;
  document.body = kitchen_to_json(kitchen);
  return keep_document(transaction, document, "", keep);
}

void tag_row(Transaction& transaction, std::int64_t name, const std::string& word) {
  transaction.database().run("INSERT OR IGNORE INTO tag (name, word) VALUES (?, ?)", {name, word});
}

void add_tag(Transaction& transaction, std::int64_t name, const std::string& word) {
  tag_row(transaction, name, word);
  learn_name_words(transaction, name);
}

void remove_tag(Transaction& transaction, std::int64_t name, const std::string& word) {
  transaction.database().run("DELETE FROM tag WHERE name = ? AND word = ?", {name, word});
  learn_name_words(transaction, name);
}

std::optional<Document> document_of(Database& database, std::int64_t number) {
  Statement row = database.ask(
      "SELECT number, id, kind, title, first_saved_at_ms, body FROM document WHERE number = ?",
      {number});
  if (!row.row()) {
    return std::nullopt;
  }
  return Document{row.whole(0), row.text(1),  kind_from(row.text(2)),
                  row.text(3),  row.whole(4), row.text(5)};
}

std::optional<Named> named(Database& database, DocumentKind kind, std::string_view name) {
  Statement row = database.ask(std::string(k_named) + "WHERE n.kind = ? AND n.name = ?",
                               {document_kind_name(kind), name});
  return row.row() ? std::optional(named_at(row)) : std::nullopt;
}

std::vector<Named> all_named(Database& database, DocumentKind kind, std::string_view tag) {
  Statement rows = database.ask(
      std::string(k_named) +
          "WHERE n.kind = ?1 AND (?2 = '' OR n.number IN (SELECT name FROM tag WHERE word = ?2))"
          " ORDER BY n.name",
      {document_kind_name(kind), tag});
  std::vector<Named> out;
  while (rows.row()) {
    out.push_back(named_at(rows));
  }
  return out;
}

std::optional<std::int64_t> name_of_document(Database& database, std::int64_t document) {
  Statement row = database.ask("SELECT min(name) FROM course WHERE document = ?", {document});
  return row.row() ? row.whole_or_none(0) : std::nullopt;
}

std::vector<CourseEntry> course_of(Database& database, std::int64_t name, int most) {
  Statement rows = database.ask(
      "SELECT c.place, d.id, d.title, c.at_ms, c.why, d.number FROM course c"
      " JOIN document d ON d.number = c.document WHERE c.name = ? ORDER BY c.place DESC LIMIT ?",
      {name, std::int64_t{most}});
  std::vector<CourseEntry> out;
  std::unordered_map<std::int64_t, std::string> ids;  // of documents, by their numbers
  while (rows.row()) {
    CourseEntry entry;
    entry.place = static_cast<int>(rows.whole(0));
    entry.document_id = rows.text(1);
    entry.title = rows.text(2);
    entry.at_ms = rows.whole(3);
    entry.why = rows.text(4);
    ids.emplace(rows.whole(5), entry.document_id);
    out.push_back(std::move(entry));
  }
  if (out.empty()) {
    return out;
  }
  // Places are counted without a gap, so a place says where in `out` its entry is.
  const int newest = out.front().place;
  const std::int64_t oldest = out.back().place;
  const auto entry_at = [&](std::int64_t place) -> CourseEntry& {
    return out[static_cast<std::size_t>(newest - place)];
  };
  // Most parents stand in the same course; a document is long, so its row is not read twice.
  Statement parents = database.ask(
      "SELECT c.place, s.parent FROM course c JOIN descent s ON s.document = c.document"
      " WHERE c.name = ? AND c.place >= ?",
      {name, oldest});
  while (parents.row()) {
    const auto [id, is_new] = ids.try_emplace(parents.whole(1));
    if (is_new) {
      Statement elsewhere =
          database.ask("SELECT id FROM document WHERE number = ?", {parents.whole(1)});
      id->second = elsewhere.row() ? elsewhere.text(0) : "";
    }
    entry_at(parents.whole(0)).parents.push_back(id->second);
  }
  Statement trials = database.ask(
      "SELECT c.place, t.number FROM course c JOIN trial t ON t.version = c.document"
      " WHERE c.name = ? AND c.place >= ?",
      {name, oldest});
  while (trials.row()) {
    entry_at(trials.whole(0)).trials.push_back(trials.whole(1));
  }
  return out;
}

FoundVersion version_called(Database& database, DocumentKind kind, std::string_view words) {
  if (const std::optional<Named> whole = named(database, kind, words)) {
    return {whole->document, whole->number, false};
  }
  const std::size_t at = words.rfind('@');
  if (at != std::string_view::npos) {
    const std::optional<double> place = number_from(words.substr(at + 1));
    const std::optional<Named> called = named(database, kind, words.substr(0, at));
    if (called && place) {
      Statement row = database.ask("SELECT document FROM course WHERE name = ? AND place = ?",
                                   {called->number, *place});
      if (row.row()) {
        return {row.whole(0), called->number, false};
      }
    }
  }
  return is_id_start(words) ? version_by_id(database, kind, words) : FoundVersion{};
}

}  // namespace maslin
