// What a baker keeps and finds again: recipes with their versions, and kitchens. The one
// place where the store's failures are caught and become a sentence.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/app.h"
#include "store/documents.h"
#include "store/everything.h"
#include "store/search.h"
#include "store/store.h"

namespace maslin {

/// $XDG_DATA_HOME/maslin/store.sqlite, else ~/.local/share/maslin/store.sqlite; empty
/// when neither variable is set.
std::string default_store_file();

/// Opens the file, or the default one when the name is empty; makes it when there is none.
Result<Store> open_store(const std::string& file);

enum class WhenMissing : std::uint8_t { make, leave };
/// The same, but with `leave` a store that is not there is not made: no value, no problem.
Result<Store> open_store(const std::string& file, WhenMissing when_missing);

/// What `ask` answers, or the sentence why the store could not.
template <typename Ask>
auto asking(const Ask& ask) -> Result<decltype(ask())> {
  try {
    return {ask(), ""};
  } catch (const StoreError& error) {
    return {std::nullopt, error.what()};
  }
}

/// An answer that was itself an answer or a problem.
template <typename Value>
Result<Value> flat(Result<Result<Value>> nested) {
  return nested.value ? std::move(*nested.value) : Result<Value>{std::nullopt, nested.problem};
}

/// Milliseconds since 1970-01-01T00:00Z, now.
std::int64_t now_ms();
/// A moment in a baker's words: "" (now), "14:30" (the last time the clock here said so),
/// or ISO 8601, on the clock here where no zone is given.
Result<std::int64_t> moment_of(std::string_view words, std::int64_t now);

/// Text as it is kept: bytes that are no UTF-8 become the replacement character.
std::string kept_text(std::string_view text);

struct KeepRequest {
  Recipe recipe;
  std::string name;  // empty: the recipe's title
  std::string why;
  std::string from;  // the version it was made from; empty: what the name stood for
  std::vector<std::string> tags;
};
struct KeptVersion {
  std::string name;
  std::int64_t name_number = 0;
  Document document;
  int place = 1;
  bool changed = false;  // false: the name stood for the very same before
};
Result<KeptVersion> keep_in_library(Store& store, const KeepRequest& request);
/// The same inside a transaction that does more.
Result<KeptVersion> keep_in_library(Transaction& change, const KeepRequest& request);

/// The version a baker means by "knots", "knots@2" or the start of an id.
struct NamedVersion {
  Document document;
  std::optional<std::int64_t> name;  // when it was called by name
};
Result<NamedVersion> version_in_library(Store& store, DocumentKind kind, std::string_view words);
Result<Recipe> recipe_in_library(Store& store, std::string_view words);
Result<Kitchen> kitchen_in_library(Store& store, std::string_view words);

struct History {
  Named named;
  std::vector<CourseEntry> course;  // newest first
};
Result<History> history_of(Store& store, DocumentKind kind, const std::string& name, int most);

Result<SearchResult> search_library(Store& store, const std::string& words);
Result<std::vector<Named>> list_library(Store& store, DocumentKind kind, const std::string& tag);

enum class Tagging : std::uint8_t { add, remove };
Result<Named> tag_recipe(Store& store, const std::string& name,
                         const std::vector<std::string>& words, Tagging tagging);

/// Keeps a kitchen under a name; empty: the kitchen's own name.
Result<KeptVersion> keep_kitchen_in_library(Store& store, const Kitchen& kitchen,
                                            const std::string& name);

/// Sentences; none when the store is sound.
Result<std::vector<std::string>> check_library(Store& store);
Result<Everything> export_library(Store& store, const std::string& folder);
Result<Everything> import_library(Store& store, const std::string& folder);
/// Answers the name of the file.
Result<std::string> back_up_library(Store& store, const std::string& file);

// The documents of the commands (docs/store.md).
std::string kept_to_json(const KeptVersion& kept);
std::string history_to_json(const History& history);
std::string search_to_json(const std::string& words, const SearchResult& result);
std::string named_to_json(const std::vector<Named>& named, DocumentKind kind);
std::string check_to_json(const std::vector<std::string>& wrong);
std::string backup_to_json(const std::string& file);
std::string everything_to_json(const Everything& everything, const std::string& folder);

}  // namespace maslin
