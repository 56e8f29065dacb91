#include <filesystem>
#include <fstream>
#include <iostream>

#include "app/baked.h"
#include "app/keeping_report.h"
#include "app/library.h"
#include "app/living_card.h"
#include "cli/inputs.h"
#include "cli/keeping_commands.h"

namespace maslin {

int living_command(const std::string& file, const std::string& out, const CommonOptions& options) {
  if (std::filesystem::is_directory(out)) {
    return complain(out, "is a folder; name the file to write.");
  }
  const Tools tools;
  const std::optional<Recipe> recipe = recipe_of(tools, file, options);
  const std::optional<Kitchen> home = recipe ? kitchen_of(options) : std::nullopt;
  if (!recipe || !home) {
    return k_input_at_fault;
  }
  const Result<LivingCard> card = living_card(tools, *recipe, {*home, now_ms()});
  if (!card.value) {
    return complain(name_of(file), card.problem);
  }
  if (out.empty() || out == "-") {
    std::cout << card.value->html;
    return k_done;
  }
  std::ofstream page(out, std::ios::binary);
  page << card.value->html;
  page.close();
  if (!page) {
    return complain(out, "cannot be written; check its folder and the disk.");
  }
  if (options.json) {
    std::cout << living_card_to_json(*card.value) << '\n';
  } else {
    std::cout << out << ": " << (card.value->html.size() + 512) / 1024 << " kB, recipe "
              << card.value->recipe_id.substr(0, 12) << "\nSHA-256 " << card.value->sha256
              << "\nThe card says this number too: a friend who reads you another one has another "
                 "card.\n";
  }
  return k_done;
}

int trial_import(const CommonOptions& options, const KeepingOptions& keeping) {
  const std::string& file = keeping.words.front();
  const auto text = text_of(file);
  if (!text) {
    return complain(name_of(file), "cannot be read; check the name.");
  }
  const Result<Baked> baked = baked_from_json(*text);
  if (!baked.value) {
    return complain(name_of(file), baked.problem);
  }
  Result<Store> store = open_store(options.store);
  if (!store.value) {
    return complain("", store.problem);
  }
  const NoteWords words;
  const Result<ImportedTrial> imported = import_baked(*store.value, words, *baked.value);
  if (!imported.value) {
    return complain(name_of(file), imported.problem);
  }
  if (options.json) {
    std::cout << imported_to_json(*imported.value) << '\n';
  } else {
    std::cout << trial_report(imported.value->view) << imported.value->added
              << (imported.value->added == 1 ? " entry is" : " entries are") << " new here.\n";
  }
  return k_done;
}

}  // namespace maslin
