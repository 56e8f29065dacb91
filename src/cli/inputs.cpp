#include "cli/inputs.h"

#include <unistd.h>

#include <fstream>
#include <iostream>

#include "app/costing.h"
#include "app/library.h"
#include "recipe/room_day.h"

namespace maslin {
namespace {

/// Larger files are refused before they are read whole; reading has its own limit.
constexpr std::size_t k_most_bytes = 64U << 20U;

/// The store's answer, if there is a store; nothing, and no complaint, when there is none.
template <typename Ask>
auto kept(const CommonOptions& options, const Ask& ask) -> decltype(ask(std::declval<Store&>())) {
  Result<Store> store = open_store(options.store, WhenMissing::leave);
  if (!store.value) {
    return {std::nullopt, store.problem};
  }
  return ask(*store.value);
}

std::string kept_sentence(const std::string& problem, const std::string& what) {
  return problem.empty()
             ? "is neither a file that can be read nor a " + what + " that is kept; check the name."
             : "is no file that can be read. " + problem;
}

}  // namespace

int complain(const std::string& where, const std::string& sentence) {
  std::cerr << (where.empty() ? "" : where + ": ") << sentence << "\n";
  return k_input_at_fault;
}

/// The whole of a file, or of standard input for "-"; at most k_most_bytes + 1.
std::optional<std::string> text_of(const std::string& file) {
  std::ifstream stream;
  std::istream* in = &std::cin;
  if (file != "-") {
    stream.open(file, std::ios::binary);
    if (!stream || stream.peek() == std::ifstream::traits_type::eof()) {
      // A folder opens and then gives nothing; so does an empty file, which reading names.
      if (!stream || !stream.eof()) {
        return std::nullopt;
      }
    }
    in = &stream;
  }
  std::string text;
  std::string piece(1U << 16U, '\0');
  while (text.size() <= k_most_bytes &&
         in->read(piece.data(), static_cast<std::streamsize>(piece.size())).gcount() > 0) {
    text.append(piece.data(), static_cast<std::size_t>(in->gcount()));
  }
  return text;
}

Colour colour() {
  return isatty(STDOUT_FILENO) != 0 ? Colour::yes : Colour::no;
}

std::string name_of(const std::string& file) {
  return file == "-" ? "standard input" : file;
}

std::optional<Recipe> recipe_of(const Tools& tools, const std::string& file,
                                const CommonOptions& options) {
  Result<Recipe> recipe;
  if (const auto text = text_of(file)) {
    recipe = read_recipe(tools, {*text, file == "-" ? "" : file, options.locale});
  } else {
    recipe = kept(options, [&](Store& store) { return recipe_in_library(store, file); });
    recipe.problem = recipe.value ? "" : kept_sentence(recipe.problem, "recipe");
  }
  if (!recipe.value) {
    complain(name_of(file), recipe.problem);
  }
  return std::move(recipe.value);
}

std::optional<PriceList> prices_of(const std::string& file) {
  const auto text = text_of(file);
  if (!text) {
    complain(file, "cannot be read; give your prices as a table or JSON.");
    return std::nullopt;
  }
  Result<PriceList> list = price_list_of(*text);
  if (!list.value) {
    complain(file, list.problem);
  }
  return std::move(list.value);
}

bool take_room(const CommonOptions& options, Kitchen& kitchen) {
  if (options.room.empty() || read_room(options.room, kitchen)) {
    return true;
  }
  complain(options.room,
           "That is no room: write 21, or \"21, 14 at night\", or \"16 at 7:00, 22 at 13\", in "
           "degrees from -10 to 50.");
  return false;
}

std::optional<Kitchen> kitchen_of(const CommonOptions& options) {
  Result<Kitchen> kitchen;
  if (options.kitchen.empty()) {
    kitchen.value = Kitchen{};
  } else if (const auto text = text_of(options.kitchen)) {
    kitchen = read_kitchen_file(*text);
  } else {
    kitchen =
        kept(options, [&](Store& store) { return kitchen_in_library(store, options.kitchen); });
    kitchen.problem = kitchen.value ? "" : kept_sentence(kitchen.problem, "kitchen");
  }
  if (!kitchen.value) {
    complain(options.kitchen, kitchen.problem);
  } else if (!take_room(options, *kitchen.value)) {
    return std::nullopt;
  }
  return std::move(kitchen.value);
}

void show_progress(double share) {
  if (isatty(STDERR_FILENO) == 0) {
    return;
  }
  constexpr int k_width = 30;
  const int full = static_cast<int>(share * k_width);
  std::cerr << "\r" << std::string(static_cast<std::size_t>(full), '#')
            << std::string(static_cast<std::size_t>(k_width - full), '.')
            << (share >= 1.0 ? "\r\x1b[K" : "") << std::flush;
}

bool take_seen(const Tools& tools, const std::vector<std::string>& notes,
               std::vector<Observation>& seen) {
  for (const std::string& note : notes) {
    NoteReading reading = read_note(note, tools.note_words);
    if (reading.observations.empty()) {
      complain("--seen", "\"" + note +
                             "\" says nothing that can be measured; write it like 'doubled at 48 "
                             "min' or 'core 94 C at 20 min'.");
      return false;
    }
    for (Observation& one : reading.observations) {
      if (!one.question.empty()) {
        complain("--seen", one.question);
      }
      seen.push_back(std::move(one));
    }
  }
  return true;
}

}  // namespace maslin
