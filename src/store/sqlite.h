// sqlite: the one place that knows the SQLite library. A Database is an open file, a
// Statement one SQL sentence with its values bound, a Transaction all or nothing.
// Whatever goes wrong is a StoreError: one sentence for the person who owns the file.
#pragma once

#include <chrono>
#include <cstdint>
#include <initializer_list>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>

#include "recipe/recipe_json.h"

struct sqlite3;
struct sqlite3_stmt;

namespace maslin {

/// What is wrong with the store, where, and the mend.
class StoreError : public std::runtime_error {
 public:
  explicit StoreError(const Problem& problem) : std::runtime_error(sentence(problem)) {}
};

/// Bytes that are no text.
struct Blob {
  std::string_view bytes;
};
using SqlValue = std::variant<std::nullptr_t, std::int64_t, double, std::string_view, Blob>;
/// The number, or NULL.
SqlValue or_null(const std::optional<std::int64_t>& value);

class Statement {
 public:
  /// On to the next row; false when there is none.
  bool row();
  std::int64_t whole(int column) const;
  std::optional<std::int64_t> whole_or_none(int column) const;
  std::string text(int column) const;  // also of a blob, byte for byte
  /// Runs it again with other values.
  void again(std::initializer_list<SqlValue> values);

 private:
  friend class Database;
  Statement(sqlite3* connection, std::string file, std::string_view sql,
            std::initializer_list<SqlValue> values);
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const;
  };
  sqlite3* connection_;
  std::string file_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

class Database {
 public:
  /// Opens or makes the file, waiting `busy_wait` for another program that writes to it.
  Database(std::string file, std::chrono::milliseconds busy_wait);

  /// A sentence that answers rows; read them with row().
  Statement ask(std::string_view sql, std::initializer_list<SqlValue> values = {});
  /// A sentence that answers nothing.
  void run(std::string_view sql, std::initializer_list<SqlValue> values = {});
  /// Several sentences, one after the other, without values.
  void run_script(const std::string& sql);
  /// Writes ahead to a log from now on: a reader never waits, a writer only for a writer.
  void use_write_ahead_log();
  /// Undoes the transaction that is under way; cannot fail.
  void take_back();
  /// The number of the row that was inserted last.
  std::int64_t last_row() const;
  /// The first column of the first row.
  std::int64_t whole(std::string_view sql, std::initializer_list<SqlValue> values = {});

  /// Writes a whole copy to a new file while others may go on reading and writing.
  void copy_to(const std::string& file);

  const std::string& file() const { return file_; }

 private:
  struct Close {
    void operator()(sqlite3* connection) const;
  };
  std::string file_;
  std::chrono::milliseconds busy_wait_;
  std::unique_ptr<sqlite3, Close> connection_;
};

/// Everything between begin and commit() is kept, or nothing of it: without commit() the
/// end of the scope takes it back. Takes the right to write at once, so that what was read
/// inside still holds when it writes.
class Transaction {
 public:
  explicit Transaction(Database& database);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  /// Returns only when the change lies safely on the disk.
  void commit();
  Database& database() { return database_; }

 private:
  Database& database_;
  bool open_ = true;
};

}  // namespace maslin
