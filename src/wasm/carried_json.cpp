#include "wasm/carried_json.h"

#include <algorithm>

#include "recipe/recipe_json.h"

namespace maslin::wasm {
namespace {

Json line_json(const handon::CardLine& line) {
  return {{"name", line.name},
          {"words", line.amount.words},
          {"grams", rounded(line.grams)},
          {"error_pct", rounded(line.amount.error_pct)},
          {"note", line.note}};
}

Json step_json(const handon::CardStep& card_step, const Part& part) {
  const Step& step = part.steps.at(card_step.step);
  return {{"step", card_step.number},
          {"part", part.kind == PartKind::dough ? "" : part.name},
          {"kind", std::string(step_kind_name(step.kind))},
          {"text", card_step.words},
          {"as_found", card_step.as_found},
          {"minutes", range_json(step.minutes)},
          {"celsius", range_json(step.celsius)},
          {"until", step.until}};
}

Json part_json(const handon::CardPart& card_part, const Recipe& recipe) {
  const Part& part = recipe.parts.at(card_part.part);
  Json lines = Json::array();
  for (const handon::CardLine& line : card_part.lines) {
    lines.push_back(line_json(line));
  }
  Json steps = Json::array();
  for (const handon::CardStep& step : card_part.steps) {
    if (step.step < part.steps.size()) {
      steps.push_back(step_json(step, part));
    }
  }
  return {{"name", card_part.name},
          {"kind", std::string(part_kind_name(part.kind))},
          {"grams", rounded(card_part.grams)},
          {"lines", std::move(lines)},
          {"steps", std::move(steps)}};
}

}  // namespace

Json carried_json(const handon::Card& card) {
  Json out{{"recipe", parse_json(recipe_to_json(card.recipe)).value_or(Json::object())},
           {"language", card.language},
           {"title", card.title},
           {"yield", card.yield},
           {"credit", card.credit},
           {"setting", card.setting},
           {"parts", Json::array()},
           {"changes", Json::array()},
           {"batch", card.batch ? Json(card.batch->words) : Json(nullptr)},
           {"baking", Json::array()},
           {"cautions", Json::array()},
           {"notes", card.notes}};
  for (const handon::CardPart& part : card.parts) {
    if (part.part < card.recipe.parts.size()) {
      out["parts"].push_back(part_json(part, card.recipe));
    }
  }
  for (const handon::CardChange& change : card.changes) {
    out["changes"].push_back(
        {{"what", change.what}, {"from", change.from}, {"to", change.to}, {"why", change.why}});
  }
  for (const handon::BakeAdvice& advice : card.baking) {
    out["baking"].push_back({{"about", advice.about}, {"words", advice.words}});
  }
  for (const Caution& caution : card.cautions) {
    out["cautions"].push_back({{"about", caution.about}, {"text", caution.text}});
  }
  return out;
}

}  // namespace maslin::wasm
