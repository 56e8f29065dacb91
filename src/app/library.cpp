#include "app/library.h"

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <filesystem>

#include "app/learning.h"
#include "quantity/instant.h"
#include "quantity/number_text.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

constexpr std::size_t k_longest_name = 200;

std::string variable(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

/// Names and tags: one line, not endless, and seen on the page as they are.
std::string name_problem(const std::string& name, const std::string& what) {
  if (name.find_first_not_of(" \t") == std::string::npos) {
    return "The " + what + " has no name; give it one with --name.";
  }
  if (name.size() > k_longest_name || name.find_first_of("\n\r\t") != std::string::npos) {
    return "The name \"" + name.substr(0, 40) + "...\" is longer than a line; shorten it.";
  }
  return "";
}

std::string not_called(DocumentKind kind, std::string_view words, bool ambiguous) {
  const std::string what(document_kind_name(kind));
  const std::string called = "\"" + std::string(words) + "\"";
  const std::string list = kind == DocumentKind::recipe ? "library" : "kitchen";
  return ambiguous ? "More than one " + what + " has an id that begins with " + called +
                         "; give more of its digits."
                   : "No " + what + " called " + called + " is kept; `maslin " + list +
                         " list` shows what is.";
}

/// The local clock's moment, ms since 1970-01-01T00:00 as if the clock were UTC, in UTC.
std::int64_t utc_of_local(std::int64_t local_ms) {
  const std::time_t seconds = local_ms / 1000;
  std::tm parts{};
  ::gmtime_r(&seconds, &parts);
  parts.tm_isdst = -1;
  return static_cast<std::int64_t>(std::mktime(&parts)) * 1000 + local_ms % 1000;
}

std::optional<std::int64_t> time_of_day(std::string_view words, std::int64_t now) {
  constexpr std::int64_t k_day_ms = 24 * 60 * 60 * 1000;
  const std::time_t seconds = now / 1000;
  std::tm parts{};
  ::localtime_r(&seconds, &parts);
  std::string date(16, '\0');
  date.resize(std::strftime(date.data(), date.size(), "%Y-%m-%dT", &parts));
  const auto today =
      instant_from(date + std::string(words.size() == 4 ? "0" : "") + std::string(words));
  if (!today || today->zoned) {
    return std::nullopt;
  }
  const std::int64_t at = utc_of_local(today->ms);
  return at <= now ? at : utc_of_local(today->ms - k_day_ms);
}

template <typename Value>
Result<Value> refused(std::string problem) {
  return {std::nullopt, std::move(problem)};
}

KeptVersion kept_version(const Kept& kept, const std::string& name) {
  return {name, kept.name, kept.document, kept.place, kept.changed};
}

}  // namespace

std::string default_store_file() {
  const std::string data = variable("XDG_DATA_HOME");
  const std::string home = variable("HOME");
  if (!data.empty()) {
    return data + "/maslin/store.sqlite";
  }
  return home.empty() ? "" : home + "/.local/share/maslin/store.sqlite";
}

Result<Store> open_store(const std::string& file, WhenMissing when_missing) {
  const std::string where = file.empty() ? default_store_file() : file;
  if (where.empty()) {
    return refused<Store>("There is no home folder to keep things in; name a file with --store.");
  }
  std::error_code failed;
  if (when_missing == WhenMissing::leave && !std::filesystem::exists(where, failed)) {
    return {std::nullopt, ""};
  }
  if (file.empty()) {
    std::filesystem::create_directories(std::filesystem::path(where).parent_path(), failed);
  }
  return asking([&] { return Store(where); });
}

Result<Store> open_store(const std::string& file) {
  return open_store(file, WhenMissing::make);
}

std::int64_t now_ms() {
  return std::chrono::duration_cast<std::chrono::milliseconds>(
             std::chrono::system_clock::now().time_since_epoch())
      .count();
}

Result<std::int64_t> moment_of(std::string_view words, std::int64_t now) {
  if (words.empty()) {
    return {now, ""};
  }
  if (const auto written = instant_from(words)) {
    return {written->zoned ? written->ms : utc_of_local(written->ms), ""};
  }
  if (words.size() <= 5) {
    if (const auto at = time_of_day(words, now)) {
      return {at, ""};
    }
  }
  return refused<std::int64_t>("\"" + std::string(words) +
                               "\" is no moment; write it like 14:30 or 2026-05-01T14:30.");
}

std::string kept_text(std::string_view text) {
  const auto document = parse_json(json_text(Json(std::string(text))));
  return document ? document->get<std::string>() : std::string();
}

Result<KeptVersion> keep_in_library(Transaction& change, const KeepRequest& request) {
  Database& database = change.database();
  const std::string name = kept_text(request.name.empty() ? request.recipe.title : request.name);
  if (const std::string problem = name_problem(name, "recipe"); !problem.empty()) {
    return refused<KeptVersion>(problem);
  }
  Keep keep{name, kept_text(request.why), std::nullopt, now_ms()};
  if (!request.from.empty()) {
    const FoundVersion from = version_called(database, DocumentKind::recipe, request.from);
    if (!from.document) {
      return refused<KeptVersion>(not_called(DocumentKind::recipe, request.from, from.ambiguous));
    }
    keep.parent = from.document;
  }
  const Kept kept = keep_recipe(change, request.recipe, keep);
  for (const std::string& tag : request.tags) {
    if (const std::string problem = name_problem(tag, "tag"); !problem.empty()) {
      return refused<KeptVersion>(problem);
    }
    add_tag(change, kept.name, kept_text(tag));
  }
  return {kept_version(kept, name), ""};
}

Result<KeptVersion> keep_in_library(Store& store, const KeepRequest& request) {
  return flat(asking([&] {
    Transaction change(store.database());
    Result<KeptVersion> kept = keep_in_library(change, request);
    if (kept.value) {
      change.commit();
    }
    return kept;
  }));
}

Result<NamedVersion> version_in_library(Store& store, DocumentKind kind, std::string_view words) {
  return flat(asking([&]() -> Result<NamedVersion> {
    const FoundVersion found = version_called(store.database(), kind, words);
    if (!found.document) {
      return refused<NamedVersion>(not_called(kind, words, found.ambiguous));
    }
    return {NamedVersion{*document_of(store.database(), *found.document), found.name}, ""};
  }));
}

Result<Recipe> recipe_in_library(Store& store, std::string_view words) {
  Result<NamedVersion> version = version_in_library(store, DocumentKind::recipe, words);
  if (!version.value) {
    return refused<Recipe>(version.problem);
  }
  RecipeDocument document = recipe_from_json(version.value->document.body);
  if (!document.problems.empty()) {
    return refused<Recipe>(sentence(document.problems.front()));
  }
  return {std::move(document.recipe), ""};
}

Result<Kitchen> kitchen_in_library(Store& store, std::string_view words) {
  const Result<NamedVersion> version = version_in_library(store, DocumentKind::kitchen, words);
  if (!version.value) {
    return refused<Kitchen>(version.problem);
  }
  Result<Kitchen> kitchen = read_kitchen(version.value->document.body);
  if (kitchen.value && version.value->name) {
    KitchenLessons learnt = lessons_in_library(store, *version.value->name);
    if (!learnt.unknowns.empty()) {
      kitchen.value->learnt = std::move(learnt);
    }
  }
  return kitchen;
}

Result<History> history_of(Store& store, DocumentKind kind, const std::string& name, int most) {
  return flat(asking([&]() -> Result<History> {
    const auto called = named(store.database(), kind, name);
    if (!called) {
      return refused<History>(not_called(kind, name, false));
    }
    return {History{*called, course_of(store.database(), called->number, most)}, ""};
  }));
}

Result<SearchResult> search_library(Store& store, const std::string& words) {
  constexpr int k_most = 20;
  return asking([&] { return search_store(store.database(), words, k_most); });
}

Result<std::vector<Named>> list_library(Store& store, DocumentKind kind, const std::string& tag) {
  return asking([&] { return all_named(store.database(), kind, tag); });
}

Result<Named> tag_recipe(Store& store, const std::string& name,
                         const std::vector<std::string>& words, Tagging tagging) {
  return flat(asking([&]() -> Result<Named> {
    Transaction change(store.database());
    const auto called = named(change.database(), DocumentKind::recipe, name);
    if (!called) {
      return refused<Named>(not_called(DocumentKind::recipe, name, false));
    }
    for (const std::string& word : words) {
      if (const std::string problem = name_problem(word, "tag"); !problem.empty()) {
        return refused<Named>(problem);
      }
      if (tagging == Tagging::add) {
        add_tag(change, called->number, kept_text(word));
      } else {
        remove_tag(change, called->number, kept_text(word));
      }
    }
    Named now = *named(change.database(), DocumentKind::recipe, name);
    change.commit();
    return {std::move(now), ""};
  }));
}

Result<KeptVersion> keep_kitchen_in_library(Store& store, const Kitchen& kitchen,
                                            const std::string& name) {
  return flat(asking([&]() -> Result<KeptVersion> {
    const std::string called = kept_text(name.empty() ? kitchen.name : name);
    if (const std::string problem = name_problem(called, "kitchen"); !problem.empty()) {
      return refused<KeptVersion>(problem);
    }
    Transaction change(store.database());
    const Kept kept = keep_kitchen(change, kitchen, Keep{called, "", std::nullopt, now_ms()});
    change.commit();
    return {kept_version(kept, called), ""};
  }));
}

Result<std::vector<std::string>> check_library(Store& store) {
  return asking([&] { return check_store(store); });
}

Result<Everything> export_library(Store& store, const std::string& folder) {
  return asking([&] { return write_out(store, folder); });
}

Result<Everything> import_library(Store& store, const std::string& folder) {
  return asking([&] { return read_in(store, folder); });
}

Result<std::string> back_up_library(Store& store, const std::string& file) {
  return asking([&] {
    back_up_store(store, file);
    return file;
  });
}

}  // namespace maslin
