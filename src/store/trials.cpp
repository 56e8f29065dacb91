#include "store/trials.h"

#include <array>

#include "store/sha256.h"

namespace maslin {
namespace {

constexpr std::array<std::string_view, 3> k_marks{"begun", "done", "undone"};

/// Add a WHERE or an ORDER BY.
constexpr std::string_view k_trial =
    "SELECT t.number, r.name, v.title, t.version, v.id, k.name, t.kitchen_state, s.id,"
    "  t.started_at_ms, t.closed_at_ms, (SELECT count(*) FROM note WHERE note.trial = t.number)"
    " FROM trial t"
    " JOIN name r ON r.number = t.recipe"
    " JOIN document v ON v.number = t.version"
    " LEFT JOIN name k ON k.number = t.kitchen"
    " LEFT JOIN document s ON s.number = t.kitchen_state ";

Trial trial_at(const Statement& row) {
  Trial out;
  out.number = row.whole(0);
  out.recipe = row.text(1);
  out.title = row.text(2);
  out.version = row.whole(3);
  out.version_id = row.text(4);
  out.kitchen = row.text(5);
  out.kitchen_state = row.whole_or_none(6);
  out.kitchen_state_id = row.text(7);
  out.started_at_ms = row.whole(8);
  out.closed_at_ms = row.whole_or_none(9);
  out.notes = static_cast<int>(row.whole(10));
  return out;
}

constexpr std::string_view k_note =
    "SELECT number, at_ms, text, observations, instead_of,"
    "  number IN (SELECT instead_of FROM note WHERE trial = ?1 AND instead_of IS NOT NULL), "
    "sender_key"
    " FROM note WHERE trial = ?1";
constexpr std::string_view k_pictures =
    "SELECT p.id FROM note_picture n JOIN picture p ON p.number = n.picture"
    " WHERE n.note = ? ORDER BY n.place";

Note note_at(const Statement& row, Statement& pictures) {
  Note note;
  note.number = row.whole(0);
  note.at_ms = row.whole(1);
  note.text = row.text(2);
  note.observations = row.text(3);
  note.instead_of = row.whole_or_none(4);
  note.corrected = row.whole(5) != 0;
  note.sender_key = row.text(6);
  pictures.again({note.number});
  while (pictures.row()) {
    note.pictures.push_back(pictures.text(0));
  }
  return note;
}

}  // namespace

std::int64_t start_trial(Transaction& transaction, const NewTrial& trial) {
  transaction.database().run(
      "INSERT INTO trial (recipe, version, kitchen, kitchen_state, started_at_ms)"
      " VALUES (?, ?, ?, ?, ?)",
      {trial.recipe, trial.version, or_null(trial.kitchen), or_null(trial.kitchen_state),
       trial.started_at_ms});
  return transaction.database().last_row();
}

std::optional<Trial> trial_of(Database& database, std::int64_t number) {
  Statement row = database.ask(std::string(k_trial) + "WHERE t.number = ?", {number});
  return row.row() ? std::optional(trial_at(row)) : std::nullopt;
}

std::vector<Trial> all_trials(Database& database, TrialFilter filter) {
  const std::string which = filter == TrialFilter::open ? "WHERE t.closed_at_ms IS NULL" : "";
  Statement rows = database.ask(std::string(k_trial) + which + " ORDER BY t.number DESC");
  std::vector<Trial> out;
  while (rows.row()) {
    out.push_back(trial_at(rows));
  }
  return out;
}

std::int64_t add_note(Transaction& transaction, const NewNote& note) {
  Database& database = transaction.database();
  database.run(
      "INSERT INTO note (trial, at_ms, text, observations, instead_of, sender_key)"
      " VALUES (?, ?, ?, ?, ?, nullif(?, ''))",
      {note.trial, note.at_ms, note.text, note.observations, or_null(note.instead_of),
       note.sender_key});
  const std::int64_t number = database.last_row();
  database.run("INSERT INTO note_words (rowid, text) VALUES (?, ?)", {number, note.text});
  std::int64_t place = 0;
  for (const std::int64_t picture : note.pictures) {
    database.run("INSERT INTO note_picture (note, place, picture) VALUES (?, ?, ?)",
                 {number, ++place, picture});
  }
  return number;
}

std::optional<Note> note_of(Database& database, std::int64_t trial, std::int64_t number) {
  Statement row = database.ask(std::string(k_note) + " AND number = ?2", {trial, number});
  if (!row.row()) {
    return std::nullopt;
  }
  Statement pictures = database.ask(k_pictures);
  return note_at(row, pictures);
}

std::optional<Note> note_by_key(Database& database, std::int64_t trial, std::string_view key) {
  Statement row = database.ask(std::string(k_note) + " AND sender_key = ?2", {trial, key});
  if (!row.row()) {
    return std::nullopt;
  }
  Statement pictures = database.ask(k_pictures);
  return note_at(row, pictures);
}

std::vector<Note> notes_of(Database& database, std::int64_t trial) {
  Statement rows = database.ask(std::string(k_note) + " ORDER BY number", {trial});
  Statement pictures = database.ask(k_pictures);
  std::vector<Note> out;
  while (rows.row()) {
    out.push_back(note_at(rows, pictures));
  }
  return out;
}

std::string_view mark_name(Mark mark) {
  return k_marks[static_cast<std::size_t>(mark)];
}
std::optional<Mark> mark_from(std::string_view name) {
  for (std::size_t i = 0; i < k_marks.size(); ++i) {
    if (k_marks[i] == name) {
      return static_cast<Mark>(i);
    }
  }
  return std::nullopt;
}

void mark_step(Transaction& transaction, std::int64_t trial, const StepMark& mark) {
  transaction.database().run(
      "INSERT INTO step_mark (trial, place, step, mark, at_ms) VALUES (?,"
      " (SELECT 1 + ifnull(max(place), 0) FROM step_mark WHERE trial = ?), ?, ?, ?)",
      {trial, trial, std::int64_t{mark.step}, mark_name(mark.mark), mark.at_ms});
}

std::vector<StepMark> marks_of(Database& database, std::int64_t trial) {
  Statement rows = database.ask(
      "SELECT step, mark, at_ms FROM step_mark WHERE trial = ? ORDER BY place", {trial});
  std::vector<StepMark> out;
  while (rows.row()) {
    out.push_back({static_cast<int>(rows.whole(0)), mark_from(rows.text(1)).value_or(Mark::begun),
                   rows.whole(2)});
  }
  return out;
}

void set_closed(Transaction& transaction, std::int64_t trial, std::optional<std::int64_t> at_ms) {
  transaction.database().run("UPDATE trial SET closed_at_ms = ? WHERE number = ?",
                             {or_null(at_ms), trial});
}

std::int64_t keep_picture(Transaction& transaction, const CleanPicture& picture) {
  Database& database = transaction.database();
  const std::string id = sha256_hex(picture.bytes);
  Statement known = database.ask("SELECT number FROM picture WHERE id = ?", {id});
  if (known.row()) {
    return known.whole(0);
  }
  database.run("INSERT INTO picture (id, kind, bytes) VALUES (?, ?, ?)",
               {id, picture_kind_name(picture.kind), Blob{picture.bytes}});
  return database.last_row();
}

std::optional<KeptPicture> picture_of(Database& database, std::string_view id) {
  Statement row = database.ask(
      "SELECT id, kind, bytes FROM picture WHERE id >= ?1 AND id < ?1 || 'g' LIMIT 2", {id});
  if (id.size() < k_fewest_id_digits || !row.row()) {
    return std::nullopt;
  }
  KeptPicture picture{row.text(0), picture_kind_from(row.text(1)).value_or(PictureKind::jpeg),
                      row.text(2)};
  return row.row() ? std::nullopt : std::optional(std::move(picture));
}

}  // namespace maslin
