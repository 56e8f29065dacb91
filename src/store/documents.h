// Recipes and kitchens as documents that never change, the names that stand for them one
// after the other, and what was made from what.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "recipe/kitchen.h"
#include "recipe/recipe.h"
#include "store/sqlite.h"

namespace maslin {

enum class DocumentKind : std::uint8_t { recipe, kitchen };
std::string_view document_kind_name(DocumentKind kind);

/// A recipe or kitchen as it was at one moment.
struct Document {
  std::int64_t number = 0;
  std::string id;  // SHA-256 of the body, hex
  DocumentKind kind = DocumentKind::recipe;
  std::string title;
  std::int64_t first_saved_at_ms = 0;
  std::string body;  // the JSON document
};

/// A name and what it stands for now.
struct Named {
  std::int64_t number = 0;
  std::string name;
  std::vector<std::string> tags;
  std::int64_t document = 0;
  std::string document_id;
  std::string title;
  std::int64_t saved_at_ms = 0;
  int versions = 0;  // places in its course
  int trials = 0;
};

/// One place in the course of a name.
struct CourseEntry {
  int place = 1;  // 1 is the first
  std::string document_id;
  std::string title;
  std::int64_t at_ms = 0;
  std::string why;
  std::vector<std::string> parents;
  std::vector<std::int64_t> trials;  // that baked this version
};

/// How something is kept.
struct Keep {
  std::string name;
  std::string why;                     // in the baker's words; may be empty
  std::optional<std::int64_t> parent;  // else what the name stood for before
  std::int64_t at_ms = 0;
};
struct Kept {
  std::int64_t name = 0;
  Document document;
  int place = 1;
  bool changed = false;  // false: the name stood for the same already
};

/// Keeps the recipe under the name; the same recipe again changes nothing.
Kept keep_recipe(Transaction& transaction, const Recipe& recipe, const Keep& keep);
Kept keep_kitchen(Transaction& transaction, const Kitchen& kitchen, const Keep& keep);
/// The same from a body that was written by recipe_to_json or kitchen_to_json; the words
/// are what a recipe is searched by.
Kept keep_document(Transaction& transaction, const Document& document, const std::string& words,
                   const Keep& keep);

/// Numbers of the parts keep_document is made of; for reading a whole store back in.
std::int64_t document_row(Transaction& transaction, const Document& document,
                          const std::string& words);
void descent_row(Transaction& transaction, std::int64_t document, std::int64_t parent);
std::int64_t name_row(Transaction& transaction, DocumentKind kind, const std::string& name);
void course_row(Transaction& transaction, std::int64_t name, std::int64_t document,
                const Keep& keep);
void tag_row(Transaction& transaction, std::int64_t name, const std::string& word);
/// Lets search know the name by its tags and by what it stands for now.
void learn_name_words(Transaction& transaction, std::int64_t name);

void add_tag(Transaction& transaction, std::int64_t name, const std::string& word);
void remove_tag(Transaction& transaction, std::int64_t name, const std::string& word);

/// Title, lines, steps and remarks: what a recipe is searched by.
std::string recipe_words(const Recipe& recipe);

std::optional<Document> document_of(Database& database, std::int64_t number);
std::optional<Named> named(Database& database, DocumentKind kind, std::string_view name);
/// All names, by name; with `tag` only those that bear it.
std::vector<Named> all_named(Database& database, DocumentKind kind, std::string_view tag = {});
/// A name in whose course the document stands.
std::optional<std::int64_t> name_of_document(Database& database, std::int64_t document);
/// The newest `most` places of a name's course, newest first.
std::vector<CourseEntry> course_of(Database& database, std::int64_t name, int most);

/// What a baker may call a version: "pumpkin knots" (as it is now), "pumpkin knots@2" (as
/// it was the second time it was kept), or the first six or more digits of its id.
struct FoundVersion {
  std::optional<std::int64_t> document;
  std::optional<std::int64_t> name;  // when it was called by name
  bool ambiguous = false;            // several ids begin so
};
FoundVersion version_called(Database& database, DocumentKind kind, std::string_view words);

}  // namespace maslin
