#include "store/sqlite.h"

#include <sqlite3.h>

#include <cerrno>

namespace maslin {
namespace {

bool is_full(int code, int system_error) {
  return (code & 0xff) == SQLITE_FULL ||
         ((code & 0xff) == SQLITE_IOERR &&
          (system_error == ENOSPC || system_error == EDQUOT || system_error == EFBIG));
}

Problem problem_of(int code, int system_error, const std::string& file, const char* words) {
  if (is_full(code, system_error)) {
    return {file, "the disk, or your share of it, is full",
            "make room and do it again; all that was kept before is safe"};
  }
  switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {file, "is in use by another program, which did not let go of it",
              "let that one finish and do it again"};
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return {file, "may not be written",
              "give yourself the right to write it and its folder, or choose another file with "
              "--store"};
    case SQLITE_CANTOPEN:
      return {file, "cannot be opened or made",
              "check that it is a file, that its folder is there and that you may write in it"};
    case SQLITE_NOTADB:
      return {file, "is no maslin store", "choose another file with --store"};
    case SQLITE_CORRUPT:
      return {file, "is damaged",
              "go on from your last backup; `maslin library check` says how far the damage goes"};
    default:
      return {file, std::string("cannot be used: ") + words,
              "check the file and its disk, or choose another file with --store"};
  }
}

/// The system's own reason is in errno, cleared before: SQLite tells it only of some calls.
[[noreturn]] void fail(sqlite3* connection, const std::string& file) {
  const int reason = errno;
  throw StoreError(
      problem_of(sqlite3_extended_errcode(connection), reason, file, sqlite3_errmsg(connection)));
}

struct Binder {
  sqlite3_stmt* statement;
  int at;
  int operator()(std::nullptr_t) const { return sqlite3_bind_null(statement, at); }
  int operator()(std::int64_t value) const { return sqlite3_bind_int64(statement, at, value); }
  int operator()(double value) const { return sqlite3_bind_double(statement, at, value); }
  int operator()(std::string_view text) const {
    // A null pointer would bind NULL; an empty text is not nothing.
    return sqlite3_bind_text64(statement, at, text.empty() ? "" : text.data(), text.size(),
                               SQLITE_TRANSIENT, SQLITE_UTF8);
  }
  int operator()(Blob blob) const {
    return sqlite3_bind_blob64(statement, at, blob.bytes.empty() ? "" : blob.bytes.data(),
                               blob.bytes.size(), SQLITE_TRANSIENT);
  }
};

}  // namespace

SqlValue or_null(const std::optional<std::int64_t>& value) {
  return value ? SqlValue(*value) : SqlValue(nullptr);
}

void Statement::Finalize::operator()(sqlite3_stmt* statement) const {
  sqlite3_finalize(statement);
}

Statement::Statement(sqlite3* connection, std::string file, std::string_view sql,
                     std::initializer_list<SqlValue> values)
    : connection_(connection), file_(std::move(file)) {
  sqlite3_stmt* made = nullptr;
  const int code =
      sqlite3_prepare_v2(connection, sql.data(), static_cast<int>(sql.size()), &made, nullptr);
  statement_.reset(made);
  if (code != SQLITE_OK) {
    fail(connection, file_);
  }
  again(values);
}

void Statement::again(std::initializer_list<SqlValue> values) {
  sqlite3_reset(statement_.get());
  int at = 0;
  for (const SqlValue& value : values) {
    if (std::visit(Binder{statement_.get(), ++at}, value) != SQLITE_OK) {
      fail(connection_, file_);
    }
  }
}

bool Statement::row() {
  errno = 0;
  const int code = sqlite3_step(statement_.get());
  if (code != SQLITE_ROW && code != SQLITE_DONE) {
    fail(connection_, file_);
  }
  return code == SQLITE_ROW;
}

std::int64_t Statement::whole(int column) const {
  return sqlite3_column_int64(statement_.get(), column);
}

std::optional<std::int64_t> Statement::whole_or_none(int column) const {
  const bool none = sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
  return none ? std::nullopt : std::optional(whole(column));
}

std::string Statement::text(int column) const {
  const void* bytes = sqlite3_column_blob(statement_.get(), column);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return bytes == nullptr ? std::string() : std::string(static_cast<const char*>(bytes), size);
}

void Database::Close::operator()(sqlite3* connection) const {
  sqlite3_close_v2(connection);
}

Database::Database(std::string file, std::chrono::milliseconds busy_wait)
    : file_(std::move(file)), busy_wait_(busy_wait) {
  sqlite3* made = nullptr;
  errno = 0;
  const int code =
      sqlite3_open_v2(file_.c_str(), &made, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
  connection_.reset(made);
  if (code != SQLITE_OK) {
    fail(made, file_);
  }
  sqlite3_extended_result_codes(made, 1);
  sqlite3_busy_timeout(made, static_cast<int>(busy_wait.count()));
  sqlite3_db_config(made, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  // SQLite opens a file it may not write for reading only, and says so at the first write.
  if (sqlite3_db_readonly(made, "main") == 1) {
    throw StoreError(problem_of(SQLITE_READONLY, 0, file_, ""));
  }
}

Statement Database::ask(std::string_view sql, std::initializer_list<SqlValue> values) {
  return {connection_.get(), file_, sql, values};
}

void Database::run(std::string_view sql, std::initializer_list<SqlValue> values) {
  Statement statement = ask(sql, values);
  while (statement.row()) {
  }
}

void Database::run_script(const std::string& sql) {
  errno = 0;
  if (sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) {
    fail(connection_.get(), file_);
  }
}

void Database::use_write_ahead_log() {
  // SQLite does not wait for its turn here when two programs make the same new file.
  constexpr int k_pause_ms = 5;
  for (int waited_ms = 0;; waited_ms += sqlite3_sleep(k_pause_ms)) {
    const int code =
        sqlite3_exec(connection_.get(), "PRAGMA journal_mode = WAL", nullptr, nullptr, nullptr);
    if (code == SQLITE_OK) {
      return;
    }
    if ((code & 0xff) != SQLITE_BUSY || waited_ms >= busy_wait_.count()) {
      fail(connection_.get(), file_);
    }
  }
}

void Database::take_back() {
  // Nothing to do when it fails: SQLite has taken it back by itself, as on a full disk.
  sqlite3_exec(connection_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
}

std::int64_t Database::last_row() const {
  return sqlite3_last_insert_rowid(connection_.get());
}

std::int64_t Database::whole(std::string_view sql, std::initializer_list<SqlValue> values) {
  Statement statement = ask(sql, values);
  return statement.row() ? statement.whole(0) : 0;
}

void Database::copy_to(const std::string& file) {
  Database copy(file, std::chrono::milliseconds(0));
  sqlite3_backup* backup =
      sqlite3_backup_init(copy.connection_.get(), "main", connection_.get(), "main");
  if (backup == nullptr) {
    fail(copy.connection_.get(), file);
  }
  errno = 0;
  const int code = sqlite3_backup_step(backup, -1);
  const int reason = errno;
  sqlite3_backup_finish(backup);
  if (code != SQLITE_DONE) {
    throw StoreError(problem_of(code, reason, file, sqlite3_errstr(code)));
  }
}

Transaction::Transaction(Database& database) : database_(database) {
  database_.run("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
  if (open_) {
    database_.take_back();
  }
}

void Transaction::commit() {
  database_.run("COMMIT");
  open_ = false;
}

}  // namespace maslin
