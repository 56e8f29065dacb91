#include "reading/structured.h"

#include <algorithm>

#include "quantity/number_text.h"
#include "quantity/table.h"
#include "reading/layout.h"
#include "reading/markup.h"
#include "reading/words.h"
#include "recipe/json.h"

namespace maslin::reading {
namespace {

constexpr std::size_t k_most_values = 100'000;

std::string words_of(const Json& value) {
  if (value.is_string()) {
    return without_markup(value.get_ref<const std::string&>());
  }
  return value.is_number() ? number_text(value.get<double>(), 2) : std::string();
}

bool is_recipe_type(const Json& value) {
  const auto names_recipe = [](const Json& one) {
    return one.is_string() && (one.get_ref<const std::string&>() == "Recipe" ||
                               one.get_ref<const std::string&>().ends_with("/Recipe"));
  };
  if (value.is_array()) {
    for (const Json& one : value) {
      if (names_recipe(one)) {
        return true;
      }
    }
    return false;
  }
  return names_recipe(value);
}

/// The first object of type Recipe, looked for level by level.
const Json* find_recipe(const Json& document) {
  std::vector<const Json*> queue{&document};
  for (std::size_t at = 0; at < queue.size() && at < k_most_values; ++at) {
    const Json& value = *queue[at];
    if (value.is_object()) {
      const Json* type = member(value, "@type");
      if (type != nullptr && is_recipe_type(*type)) {
        return &value;
      }
    }
    if (value.is_object() || value.is_array()) {
      for (const Json& one : value) {
        if (one.is_structured() && queue.size() < k_most_values) {
          queue.push_back(&one);
        }
      }
    }
  }
  return nullptr;
}

void add_lines(std::string_view text, std::vector<std::string>& out) {
  for (const std::string_view line : split(text, '\n')) {
    if (const std::string_view words = trimmed(line); !words.empty()) {
      out.emplace_back(words);
    }
  }
}

void add_texts(const Json* value, std::vector<std::string>& out) {
  if (value == nullptr) {
    return;
  }
  if (!value->is_array()) {
    add_lines(words_of(*value), out);
    return;
  }
  for (const Json& one : *value) {
    add_lines(words_of(one), out);
  }
}

/// "us", "old_uk": how a card names whose measures it uses.
bool is_short_name(std::string_view name) {
  constexpr std::size_t k_longest = 8;
  return !name.empty() && name.size() <= k_longest &&
         std::all_of(name.begin(), name.end(),
                     [](char c) { return (c >= 'a' && c <= 'z') || c == '_'; });
}

bool is_tin(std::string_view tool) {
  return tool == "tin" || tool == "tray" || tool.ends_with(" tin") || tool.ends_with(" tray");
}

/// Steps may be a text, a list of texts, HowToStep objects or HowToSection objects.
void add_instructions(const Json& value, std::vector<std::string>& out, int depth) {
  if (depth > 8 || out.size() > 2000) {
    return;
  }
  if (value.is_string()) {
    add_lines(words_of(value), out);
  } else if (value.is_array()) {
    for (const Json& one : value) {
      add_instructions(one, out, depth + 1);
    }
  } else if (value.is_object()) {
    const Json* items = member(value, "itemListElement");
    const Json* text = member(value, "text");
    const Json* name = member(value, "name");
    if (items != nullptr) {
      if (name != nullptr && !words_of(*name).empty()) {
        out.push_back(words_of(*name) + ":");
      }
      add_instructions(*items, out, depth + 1);
    } else if (text != nullptr) {
      add_lines(words_of(*text), out);
    } else if (name != nullptr) {
      add_lines(words_of(*name), out);
    }
  }
}

}  // namespace

std::optional<StructuredRecipe> recipe_in_json(std::string_view json) {
  const auto document = parse_json(json);
  const Json* recipe = document ? find_recipe(*document) : nullptr;
  if (recipe == nullptr) {
    return std::nullopt;
  }
  StructuredRecipe out;
  if (const Json* name = member(*recipe, "name")) {
    out.name = trimmed(words_of(*name));
  }
  add_texts(member(*recipe, "recipeYield"), out.yields);
  if (const Json* place = member(*recipe, "locationCreated")) {
    const Json* name = member(*place, "name");
    out.measures = name != nullptr ? trimmed(words_of(*name)) : "";
  }
  if (const Json* tool = member(*recipe, "tool")) {
    out.tool = trimmed(words_of(*tool));
  }
  if (const Json* language = member(*recipe, "inLanguage")) {
    // "en-GB" is English.
    const std::string tag(trimmed(words_of(*language)).substr(0, 2));
    for (const std::string_view known : language_names()) {
      out.language = tag == known ? known : out.language;
    }
  }
  add_texts(member(*recipe, "recipeIngredient"), out.ingredients);
  if (out.ingredients.empty()) {
    add_texts(member(*recipe, "ingredients"), out.ingredients);
  }
  if (const Json* steps = member(*recipe, "recipeInstructions")) {
    add_instructions(*steps, out.instructions, 0);
  }
  return out.empty() ? std::nullopt : std::optional(out);
}

std::string as_recipe_text(const StructuredRecipe& recipe) {
  std::string out = recipe.name.empty() ? std::string() : "Title: " + recipe.name + "\n\n";
  // "12", "12 buns", "12 servings": the longest of several says most.
  std::string yield;
  for (const std::string& one : recipe.yields) {
    yield = one.size() > yield.size() ? one : yield;
  }
  if (!yield.empty()) {
    out += "Yield: " + yield + "\n\n";
  }
  // What a card writes; other pages' places and tools are words like any other.
  out += is_short_name(recipe.measures) ? "Measures: " + recipe.measures + "\n" : "";
  out += is_tin(recipe.tool) ? "Tin: " + recipe.tool + "\n" : "";
  out += "Ingredients:\n";
  for (const std::string& one : recipe.ingredients) {
    out += one + "\n";
  }
  out += "\nMethod:\n";
  int number = 1;
  for (const std::string& one : recipe.instructions) {
    const bool heading = one.ends_with(':');
    out += heading ? one + "\n" : std::to_string(number++) + ". " + one + "\n";
  }
  return out;
}

}  // namespace maslin::reading
