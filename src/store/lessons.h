// What closed trials taught a kitchen, one lesson after the other.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "store/sqlite.h"

namespace maslin {

/// A closed trial's lesson: what the kitchen knew after it. The last that was not taken back
/// holds now.
struct Lesson {
  std::int64_t trial = 0;
  std::int64_t kitchen = 0;  // the name it was taught under
  std::int64_t taught_at_ms = 0;
  std::optional<std::int64_t> unlearnt_at_ms;
  std::string body;  // the lessons as JSON
};

/// Writes the lesson, or writes it anew.
void keep_lesson(Transaction& transaction, const Lesson& lesson);
/// The trial teaches nothing any more; as if it had never been closed.
void drop_lesson(Transaction& transaction, std::int64_t trial);
/// In the order they were taught, those that were taken back among them.
std::vector<Lesson> lessons_of(Database& database, std::int64_t kitchen);
std::optional<Lesson> lesson_of(Database& database, std::int64_t trial);

}  // namespace maslin
