#include "store/lessons.h"

namespace maslin {
namespace {

constexpr std::string_view k_columns = "trial, kitchen, taught_at_ms, unlearnt_at_ms, body";

Lesson lesson_at(const Statement& row) {
  return {row.whole(0), row.whole(1), row.whole(2), row.whole_or_none(3), row.text(4)};
}

}  // namespace

void keep_lesson(Transaction& transaction, const Lesson& lesson) {
  transaction.database().run(
      "INSERT INTO lesson (trial, kitchen, taught_at_ms, unlearnt_at_ms, body)"
      " VALUES (?, ?, ?, ?, ?)"
      " ON CONFLICT (trial) DO UPDATE SET taught_at_ms = excluded.taught_at_ms,"
      " unlearnt_at_ms = excluded.unlearnt_at_ms, body = excluded.body",
      {lesson.trial, lesson.kitchen, lesson.taught_at_ms, or_null(lesson.unlearnt_at_ms),
       lesson.body});
}

void drop_lesson(Transaction& transaction, std::int64_t trial) {
  transaction.database().run("DELETE FROM lesson WHERE trial = ?", {trial});
}

std::vector<Lesson> lessons_of(Database& database, std::int64_t kitchen) {
  Statement rows = database.ask("SELECT " + std::string(k_columns) +
                                    " FROM lesson WHERE kitchen = ? ORDER BY taught_at_ms, trial",
                                {kitchen});
  std::vector<Lesson> out;
  while (rows.row()) {
    out.push_back(lesson_at(rows));
  }
  return out;
}

std::optional<Lesson> lesson_of(Database& database, std::int64_t trial) {
  Statement rows =
      database.ask("SELECT " + std::string(k_columns) + " FROM lesson WHERE trial = ?", {trial});
  return rows.row() ? std::optional(lesson_at(rows)) : std::nullopt;
}

}  // namespace maslin
