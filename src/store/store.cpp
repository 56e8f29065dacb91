#include "store/store.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <fstream>

#include "store/embedded_schema.h"
#include "store/sha256.h"

namespace maslin {
namespace {

/// Marks the file as a maslin store (PRAGMA application_id): "msln".
constexpr std::int64_t k_application_id = 0x6d736c6e;

/// In order; a step that was released is never changed, only followed by another.
constexpr std::array<std::string_view, 2> k_steps{"0001_first.sql", "0002_learning.sql"};

/// SQLite takes "" and ":memory:" for stores that vanish: only real files here.
std::string real_file(const std::string& file) {
  if (file.empty()) {
    throw StoreError({"store", "has no file name", "name a file with --store"});
  }
  std::error_code ignored;
  const std::filesystem::path path = std::filesystem::absolute(file, ignored);
  return path.empty() ? "./" + file : path.string();
}

/// SQLite takes a file shorter than its header for an empty one and would write over it.
std::string not_anothers_file(const std::string& file) {
  constexpr std::string_view k_magic("SQLite format 3\0", 16);
  std::ifstream stream(file, std::ios::binary);
  std::string start(k_magic.size(), '\0');
  stream.read(start.data(), static_cast<std::streamsize>(start.size()));
  if (stream.gcount() != 0 && start != k_magic) {
    throw StoreError({file, "is no maslin store", "choose another file with --store"});
  }
  return file;
}

void refuse_what_is_not_ours(Database& database) {
  // One look, so that a store which another program is just making is seen before or after.
  database.run("BEGIN");
  const std::int64_t owner = database.whole("PRAGMA application_id");
  const std::int64_t version = database.whole("PRAGMA user_version");
  const std::int64_t tables = database.whole("SELECT count(*) FROM sqlite_schema");
  database.take_back();
  if (owner != k_application_id && (owner != 0 || version != 0 || tables != 0)) {
    throw StoreError({database.file(), "is the file of another program",
                      "choose another file with --store; this one was left as it is"});
  }
  if (version > newest_schema()) {
    throw StoreError({database.file(),
                      "was written by a newer maslin (store version " + std::to_string(version) +
                          "; this one knows up to " + std::to_string(newest_schema()) + ")",
                      "update maslin, or choose another file with --store"});
  }
}

void check_digests(Database& database, const std::string& what, const std::string& sql,
                   std::vector<std::string>& wrong) {
  Statement rows = database.ask(sql);
  while (rows.row()) {
    if (sha256_hex(rows.text(1)) != rows.text(0)) {
      wrong.push_back("The " + what + " " + rows.text(0) + " is not what it was when it was kept.");
    }
  }
}

/// Runs one look; a failure inside it is a finding like another.
template <typename Look>
void look(std::vector<std::string>& wrong, const Look& at) {
  try {
    at();
  } catch (const StoreError& error) {
    wrong.emplace_back(error.what());
  }
}

/// A file's content on the disk and not only on its way there.
void settle_on_disk(const std::string& file) {
  const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
  const bool settled = descriptor >= 0 && ::fsync(descriptor) == 0;
  if (descriptor >= 0) {
    ::close(descriptor);
  }
  if (!settled) {
    throw StoreError({file, "could not be written to the end", "check the disk and do it again"});
  }
}

}  // namespace

int newest_schema() {
  return static_cast<int>(k_steps.size());
}

std::vector<std::string> schema_steps() {
  std::vector<std::string> out;
  out.reserve(k_steps.size());
  for (const std::string_view name : k_steps) {
    out.emplace_back(store_schema::embedded_table(name));
  }
  return out;
}

void migrate(Database& database, std::span<const std::string> steps) {
  const auto version = [&] {
    return static_cast<std::size_t>(database.whole("PRAGMA user_version"));
  };
  while (version() < steps.size()) {
    Transaction step(database);
    // Another program may have taken this step while we waited for our turn.
    const std::size_t from = version();
    if (from < steps.size()) {
      database.run_script(steps[from]);
      database.run_script("PRAGMA user_version = " + std::to_string(from + 1));
      database.run_script("PRAGMA application_id = " + std::to_string(k_application_id));
    }
    step.commit();
  }
}

Store::Store(const std::string& file, const StoreOptions& options)
    : database_(not_anothers_file(real_file(file)), options.busy_wait) {
  refuse_what_is_not_ours(database_);
  // FULL: a commit returns only when the log is on the disk, so that what was
  // acknowledged outlives a kill and a power cut.
  database_.run_script(
      "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF;");
  database_.use_write_ahead_log();
  migrate(database_, schema_steps());
}

std::vector<std::string> check_store(Store& store) {
  std::vector<std::string> wrong;
  Database& database = store.database();
  look(wrong, [&] {
    Statement rows = database.ask("PRAGMA integrity_check(20)");
    while (rows.row()) {
      if (rows.text(0) != "ok") {
        wrong.push_back("The file is damaged: " + rows.text(0) + ".");
      }
    }
  });
  look(wrong, [&] {
    Statement rows = database.ask("PRAGMA foreign_key_check");
    while (rows.row()) {
      wrong.push_back("A row of " + rows.text(0) + " points at a " + rows.text(2) +
                      " that is not there.");
    }
  });
  look(wrong, [&] {
    check_digests(database, "document", "SELECT id, body FROM document", wrong);
    check_digests(database, "picture", "SELECT id, bytes FROM picture", wrong);
  });
  look(wrong, [&] {
    for (const std::string_view sql :
         {"INSERT INTO name_words (name_words) VALUES ('integrity-check')",
          "INSERT INTO document_words (document_words) VALUES ('integrity-check')",
          "INSERT INTO note_words (note_words) VALUES ('integrity-check')"}) {
      database.run(sql);
    }
    const std::int64_t unsearchable = database.whole(
        "SELECT (SELECT count(*) FROM document WHERE kind = 'recipe')"
        " - (SELECT count(*) FROM document_words_docsize)");
    if (unsearchable != 0) {
      wrong.push_back("The search does not know every recipe.");
    }
  });
  return wrong;
}

void back_up_store(Store& store, const std::string& to_file) {
  const std::string file = real_file(to_file);
  if (std::filesystem::exists(file)) {
    throw StoreError({file, "is already there", "name a new file; nothing is written over"});
  }
  const std::string unfinished = file + ".unfinished";
  std::error_code ignored;
  std::filesystem::remove(unfinished, ignored);
  try {
    store.database().copy_to(unfinished);
    settle_on_disk(unfinished);
    std::filesystem::rename(unfinished, file);
    settle_on_disk(std::filesystem::path(file).parent_path());
  } catch (const std::filesystem::filesystem_error&) {
    std::filesystem::remove(unfinished, ignored);
    throw StoreError({file, "cannot be made", "check its folder and your right to write there"});
  } catch (const StoreError&) {
    std::filesystem::remove(unfinished, ignored);
    throw;
  }
}

}  // namespace maslin
