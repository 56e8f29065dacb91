#include <iostream>

#include "app/keeping_report.h"
#include "app/library.h"
#include "cli/inputs.h"
#include "cli/keeping_commands.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) {
    out += (out.empty() ? "" : " ") + word;
  }
  return out;
}

/// Opens the store and prints what `ask` answers of it, as a document or in words.
template <typename Ask, typename Document, typename Words>
int answer(const CommonOptions& options, const Ask& ask, const Document& document,
           const Words& words) {
  Result<Store> store = open_store(options.store);
  if (!store.value) {
    return complain("", store.problem);
  }
  const auto asked = ask(*store.value);
  if (!asked.value) {
    return complain("", asked.problem);
  }
  std::cout << (options.json ? document(*asked.value) + "\n" : words(*asked.value));
  return k_done;
}

}  // namespace

int library_save(const CommonOptions& options, const KeepingOptions& keeping) {
  const Tools tools;
  int status = k_done;
  for (const std::string& file : keeping.words) {
    const auto recipe = recipe_of(tools, file, options);
    if (!recipe) {
      status = k_input_at_fault;
      continue;
    }
    KeepRequest request{*recipe, keeping.name, keeping.why, keeping.from, keeping.tags};
    status =
        std::max(status, answer(
                             options, [&](Store& store) { return keep_in_library(store, request); },
                             kept_to_json, kept_report));
  }
  return status;
}

int library_list(const CommonOptions& options, const KeepingOptions& keeping) {
  return answer(
      options,
      [&](Store& store) { return list_library(store, DocumentKind::recipe, keeping.name); },
      [](const auto& named) { return named_to_json(named, DocumentKind::recipe); },
      [](const auto& named) { return named_report(named, DocumentKind::recipe); });
}

int library_show(const CommonOptions& options, const KeepingOptions& keeping) {
  const std::string version = joined(keeping.words);
  return answer(
      options, [&](Store& store) { return recipe_in_library(store, version); }, recipe_to_json,
      [](const Recipe& recipe) {
        const Tools tools;
        return recipe_report(recipe, tools.pantry, colour());
      });
}

int library_history(const CommonOptions& options, const KeepingOptions& keeping) {
  return answer(
      options,
      [&](Store& store) {
        return history_of(store, DocumentKind::recipe, keeping.name, keeping.most);
      },
      history_to_json, history_report);
}

int library_search(const CommonOptions& options, const KeepingOptions& keeping) {
  const std::string words = joined(keeping.words);
  return answer(
      options, [&](Store& store) { return search_library(store, words); },
      [&](const SearchResult& result) { return search_to_json(words, result); }, search_report);
}

int library_tag(const CommonOptions& options, const KeepingOptions& keeping) {
  const Tagging tagging = keeping.remove ? Tagging::remove : Tagging::add;
  return answer(
      options,
      [&](Store& store) { return tag_recipe(store, keeping.name, keeping.words, tagging); },
      [](const Named& named) { return named_to_json({named}, DocumentKind::recipe); },
      [](const Named& named) { return named_report({named}, DocumentKind::recipe); });
}

int library_export(const CommonOptions& options, const KeepingOptions& keeping) {
  return answer(
      options, [&](Store& store) { return export_library(store, keeping.name); },
      [&](const Everything& out) { return everything_to_json(out, keeping.name); },
      [&](const Everything& out) { return everything_report(out, "written to " + keeping.name); });
}

int library_import(const CommonOptions& options, const KeepingOptions& keeping) {
  return answer(
      options, [&](Store& store) { return import_library(store, keeping.name); },
      [&](const Everything& in) { return everything_to_json(in, keeping.name); },
      [&](const Everything& in) { return everything_report(in, "read from " + keeping.name); });
}

int library_backup(const CommonOptions& options, const KeepingOptions& keeping) {
  return answer(
      options, [&](Store& store) { return back_up_library(store, keeping.name); }, backup_to_json,
      [](const std::string& file) { return "Copied to " + file + ".\n"; });
}

int library_check(const CommonOptions& options, const KeepingOptions&) {
  int status = k_done;
  const int answered = answer(
      options,
      [&](Store& store) {
        Result<std::vector<std::string>> wrong = check_library(store);
        status = wrong.value && !wrong.value->empty() ? k_input_at_fault : k_done;
        return wrong;
      },
      check_to_json, check_report);
  return std::max(status, answered);
}

int kitchen_add(const CommonOptions& options, const KeepingOptions& keeping) {
  int status = k_done;
  for (const std::string& file : keeping.words) {
    CommonOptions here = options;
    here.kitchen = file;
    const auto kitchen = kitchen_of(here);
    status = std::max(status, !kitchen ? k_input_at_fault
                                       : answer(
                                             options,
                                             [&](Store& store) {
                                               return keep_kitchen_in_library(store, *kitchen,
                                                                              keeping.name);
                                             },
                                             kept_to_json, kept_report));
  }
  return status;
}

int kitchen_list(const CommonOptions& options, const KeepingOptions&) {
  return answer(
      options, [&](Store& store) { return list_library(store, DocumentKind::kitchen, ""); },
      [](const auto& named) { return named_to_json(named, DocumentKind::kitchen); },
      [](const auto& named) { return named_report(named, DocumentKind::kitchen); });
}

int kitchen_show(const CommonOptions& options, const KeepingOptions& keeping) {
  const std::string name = joined(keeping.words);
  return answer(
      options, [&](Store& store) { return kitchen_in_library(store, name); }, kitchen_to_json,
      [](const Kitchen& kitchen) { return kitchen_to_json(kitchen) + "\n"; });
}

}  // namespace maslin
