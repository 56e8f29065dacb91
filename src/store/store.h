// store: what a baker keeps, in one SQLite file: recipes as they were and as they are,
// kitchens, trials, notes, pictures. Reading functions take the database, writing ones
// the transaction they write in; nothing here reads a clock. docs/store.md tells the tale.
//
// One Store belongs to one thread; open another for another.
#pragma once

#include <chrono>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "store/sqlite.h"

namespace maslin {

struct StoreOptions {
  /// How long to wait for another program that is writing. Typical: 5 s.
  std::chrono::milliseconds busy_wait{5000};
};

/// The version of the schema this program writes: 1 + the index of its newest migration.
int newest_schema();
/// The SQL of each step from one version to the next, the first from an empty file.
std::vector<std::string> schema_steps();

/// Brings a database from the version it has to steps.size(), each step whole or not at
/// all. Several programs may try at once.
void migrate(Database& database, std::span<const std::string> steps);

class Store {
 public:
  /// Opens the store, makes it when there is none, and brings an older one up to date.
  /// Throws StoreError: not to be written, locked, no store, another program's, damaged,
  /// or from a newer maslin.
  explicit Store(const std::string& file, const StoreOptions& options = {});

  Database& database() { return database_; }

 private:
  Database database_;
};

/// What is wrong with the store, one sentence each; empty when it is sound. Reads every
/// page, link, digest and search word.
std::vector<std::string> check_store(Store& store);

/// A whole copy in a new file, which is a store itself; others may go on writing. The
/// copy is complete and on the disk when this returns, or there is none.
void back_up_store(Store& store, const std::string& to_file);

}  // namespace maslin
