#include "app/living_card.h"

#include <array>
#include <string_view>
#include <utility>

#include "app/card_pantry.h"
#include "app/embedded_table.h"
#include "handon/card_words.h"
#include "quantity/instant.h"
#include "quantity/markup_text.h"
#include "quantity/table.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"
#include "recipe/recipe_text.h"
#include "store/sha256.h"

namespace maslin {
namespace {

/// JSON inside a script element: no "<" stands in it, so that nothing found in a recipe can
/// end the element or open a comment.
std::string script_json(const Json& document) {
  std::string out;
  for (const char c : json_text(document)) {
    out += c == '<' ? "\\u003c" : std::string(1, c);
  }
  return out;
}

/// The languages the card speaks, each with what stands for the page's English words.
Json languages() {
  const Table table(app_data::embedded_table("card_words.tsv"));
  Json out = Json::array();
  for (const auto& [tag, name] : handon::card_languages()) {
    Json words = Json::object();
    for (std::size_t row = 0; table.has(tag) && row < table.size(); ++row) {
      const std::string_view word = table.cell(row, tag);
      if (!word.empty()) {
        words[std::string(table.cell(row, "en"))] = std::string(word);
      }
    }
    out.push_back({{"tag", tag}, {"name", name}, {"words", words}});
  }
  return out;
}

Json card_data(const Tools& tools, const Recipe& recipe, const std::string& document,
               const LivingCardRequest& request) {
  return {{"card", 1},
          {"maslin", std::string(version())},
          {"title", recipe.title},
          {"recipe", parse_json(document).value_or(Json::object())},
          {"recipe_id", sha256_hex(document)},
          {"written_at", instant_text(request.at_ms)},
          {"home", parse_json(kitchen_to_json(request.home)).value_or(Json::object())},
          {"tables", card_pantry(recipe)},
          {"measures", card_measures(tools.pantry)},
          {"languages", languages()}};
}

/// What stands for each word in double braces of the card's frame.
using Fill = std::array<std::pair<std::string_view, std::string_view>, 8>;

/// Only the frame is looked through: what is set into it is never looked at again.
std::string filled(std::string_view frame, const Fill& fill) {
  std::string out;
  while (!frame.empty()) {
    const std::size_t open = frame.find("{{");
    out += frame.substr(0, open);
    if (open == std::string_view::npos) {
      break;
    }
    frame.remove_prefix(open + 2);
    const std::string_view word = frame.substr(0, frame.find("}}"));
    for (const auto& [name, text] : fill) {
      if (name == word) {
        out += text;
      }
    }
    frame.remove_prefix(std::min(frame.size(), word.size() + 2));
  }
  return out;
}

}  // namespace

Result<LivingCard> living_card(const Tools& tools, const Recipe& recipe,
                               const LivingCardRequest& request) {
  const std::string_view frame = app_data::embedded_table("card_frame.html");
  if (frame.empty()) {
    return {std::nullopt,
            "This maslin was built without the living card's engine; build it with clang-19 for "
            "wasm32 there (./run installs it), then build maslin again."};
  }
  if (recipe.parts.empty()) {
    return {std::nullopt, "The recipe has no parts; a card needs something to bake."};
  }
  const std::string document = recipe_to_json(recipe);
  const std::string data = script_json(card_data(tools, recipe, document, request));
  const std::string_view style = app_data::embedded_table("card.css");
  const std::string_view engine = app_data::embedded_table("card_engine.txt");
  const std::string_view script = app_data::embedded_table("card.js");
  LivingCard card;
  card.recipe_id = sha256_hex(document);
  std::string hashed(style);
  for (const std::string_view part : {std::string_view(data), engine, script}) {
    hashed += '\n';
    hashed += part;
  }
  card.sha256 = sha256_hex(hashed);
  const std::string title = markup_escaped(recipe.title);
  const std::string plain = markup_escaped(write_text(recipe, tools.pantry));
  card.html = filled(frame, {{{"sha256", card.sha256},
                              {"version", version()},
                              {"title", title},
                              {"plain", plain},
                              {"style", style},
                              {"card", data},
                              {"engine", engine},
                              {"script", script}}});
  return {std::move(card), ""};
}

std::string living_card_to_json(const LivingCard& card) {
  return json_text(
      {{"bytes", card.html.size()}, {"sha256", card.sha256}, {"recipe", card.recipe_id}});
}

std::string living_card_with_page(const LivingCard& card) {
  return json_text({{"html", card.html}, {"sha256", card.sha256}, {"recipe", card.recipe_id}});
}

}  // namespace maslin
