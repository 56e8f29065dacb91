#include "handon/jsonld.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "quantity/number_text.h"
#include "recipe/json.h"
#include "recipe/recipe_text.h"

namespace maslin::handon {
namespace {

std::string without_colon(std::string text) {
  if (text.ends_with(':')) {
    text.pop_back();
  }
  return text;
}

bool is_address(const std::string& text) {
  return text.starts_with("https://") || text.starts_with("http://");
}

/// Grams, which every reader takes for the same; things counted stay counted.
std::string ingredient_text(const Line& line, const Pantry& pantry) {
  const bool mass = grams_in(line.found.unit) > 0.0;
  const bool counted = line.found.number && (line.found.unit.empty() || line.found.unit == "piece");
  const bool known = pantry.find(line.ingredient_id) != nullptr;
  if (!line.weighed || mass || counted || !known || !line.part.empty()) {
    return line_text(line, pantry);
  }
  constexpr double k_whole_from = 20.0;
  const double grams = line.grams.p50();
  Line in_grams = line;
  const int decimals = grams >= k_whole_from ? 0 : grams >= 1.0 ? 1 : 2;
  const double rounded_grams = number_from(number_text(grams, decimals)).value_or(grams);
  in_grams.found = {Range{rounded_grams, rounded_grams}, "g", "", ""};
  return line_text(in_grams, pantry);
}

Json ingredients(const Recipe& recipe, const Pantry& pantry) {
  Json out = Json::array();
  for (const Part& part : recipe.parts) {
    if (recipe.parts.size() > 1 && !part.lines.empty()) {
      out.push_back(heading_text(part));
    }
    for (const Line& line : part.lines) {
      out.push_back(ingredient_text(line, pantry));
    }
  }
  return out;
}

Json steps_of(const Part& part) {
  Json out = Json::array();
  for (const Step& step : part.steps) {
    const std::string words = step_text(step);
    // One sentence may hold several steps: it is said once.
    if (out.empty() || out.back()["text"] != words) {
      out.push_back({{"@type", "HowToStep"}, {"text", words}});
    }
  }
  return out;
}

Json instructions(const Recipe& recipe) {
  if (recipe.parts.size() == 1) {
    return steps_of(recipe.parts.front());
  }
  Json out = Json::array();
  for (const Part& part : recipe.parts) {
    if (!part.steps.empty()) {
      out.push_back({{"@type", "HowToSection"},
                     {"name", without_colon(heading_text(part))},
                     {"itemListElement", steps_of(part)}});
    }
  }
  return out;
}

/// The vocabulary's property for a line of a label; those it has none for are left out.
const char* property_of(const std::string& nutrient) {
  constexpr std::pair<const char*, const char*> k_properties[] = {
      {"energy_kcal", "calories"},          {"fat", "fatContent"},
      {"saturates", "saturatedFatContent"}, {"carbohydrate", "carbohydrateContent"},
      {"sugars", "sugarContent"},           {"fibre", "fiberContent"},
      {"protein", "proteinContent"},        {"sodium", "sodiumContent"},
      {"trans_fat", "transFatContent"},     {"cholesterol", "cholesterolContent"}};
  const auto* at = std::find_if(std::begin(k_properties), std::end(k_properties),
                                [&](const auto& one) { return nutrient == one.first; });
  return at == std::end(k_properties) ? nullptr : at->second;
}

Json nutrition(const JsonLdExtras& extras) {
  Json out{{"@type", "NutritionInformation"},
           {"servingSize", extras.serving ? extras.serving->words : std::string("100 g")}};
  for (const LabelNutrient& one : extras.nutrition) {
    const char* property = property_of(one.nutrient);
    if (property != nullptr && one.not_known_for.empty()) {
      const std::string& figure =
          extras.serving ? one.declared_per_serving : one.declared_per_100_grams;
      out[property] = figure + " " + (one.unit.empty() ? std::string("kcal") : one.unit);
    }
  }
  return out;
}

/// The lines stand in the recipe's own words: English where every food bears its English name of
/// the pantry; else nobody knows, and nothing is said.
std::string language_of(const Recipe& recipe, const Pantry& pantry, const std::string& asked) {
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      const Ingredient* food = pantry.find(line.ingredient_id);
      const std::string name = folded_name(line.name);
      if (food != nullptr && !name.empty() && name != folded_name(food->name) &&
          name != folded_name(food->name_us)) {
        return "";
      }
    }
  }
  return asked.starts_with("en") ? asked : "en";
}

}  // namespace

std::string iso_duration(double minutes) {
  constexpr long k_minutes_an_hour = 60;
  const long whole = std::lround(std::clamp(minutes, 0.0, 1e6));
  const long hours = whole / k_minutes_an_hour;
  std::string out = "PT";
  out += hours > 0 ? std::to_string(hours) + "H" : "";
  const long rest = whole % k_minutes_an_hour;
  return out + (rest > 0 || hours == 0 ? std::to_string(rest) + "M" : "");
}

std::string recipe_to_jsonld(const Recipe& recipe, const Pantry& pantry,
                             const JsonLdExtras& extras) {
  Json out{{"@context", "https://schema.org"}, {"@type", "Recipe"}, {"name", recipe.title}};
  if (const std::string language = language_of(recipe, pantry, extras.language);
      !language.empty()) {
    out["inLanguage"] = language;
  }
  if (is_address(recipe.found_at)) {
    out["isBasedOn"] = recipe.found_at;
  } else if (!recipe.found_at.empty()) {
    out["creditText"] = recipe.found_at;
  }
  if (!recipe.locale.empty()) {
    out["locationCreated"] = {{"@type", "Place"}, {"name", recipe.locale}};
  }
  if (recipe.pieces) {
    out["recipeYield"] = range_text(*recipe.pieces) + " pieces";
  }
  if (recipe.tin) {
    out["tool"] = tin_text(*recipe.tin);
  }
  if (extras.cook_minutes) {
    out["cookTime"] = iso_duration(*extras.cook_minutes);
  }
  if (extras.total_minutes) {
    out["totalTime"] = iso_duration(*extras.total_minutes);
  }
  out["recipeIngredient"] = ingredients(recipe, pantry);
  out["recipeInstructions"] = instructions(recipe);
  if (!extras.nutrition.empty()) {
    out["nutrition"] = nutrition(extras);
  }
  return json_pages(out);
}

}  // namespace maslin::handon
