#include "handon/card_text.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"

namespace maslin::handon {
namespace {

constexpr std::string_view way_name(AmountWay way) {
  switch (way) {
    case AmountWay::scale:
      return "scale";
    case AmountWay::measures:
      return "measures";
    case AmountWay::counted:
      return "counted";
    case AmountWay::as_found:
      return "as_found";
    case AmountWay::part:
      return "part";
  }
  return "scale";
}

Json band_json(const Band& band) {
  return {{"p10", rounded(band.p10)}, {"p50", rounded(band.p50)}, {"p90", rounded(band.p90)}};
}

Json amount_json(const HouseholdAmount& amount) {
  Json out{{"way", std::string(way_name(amount.way))},
           {"words", amount.words},
           {"grams", rounded(amount.grams)},
           {"error_pct", rounded(amount.error_pct)},
           {"spread_pct", rounded(amount.spread_pct)},
           {"packing", amount.packing},
           {"counts", Json::array()}};
  for (const MeasureCount& one : amount.counts) {
    out["counts"].push_back(
        {{"measure", one.measure}, {"count", rounded(one.count)}, {"ml", rounded(one.ml)}});
  }
  return out;
}

Json lines_json(const CardPart& part) {
  Json out = Json::array();
  for (const CardLine& line : part.lines) {
    out.push_back({{"ingredient", line.name},
                   {"grams", rounded(line.grams)},
                   {"amount", amount_json(line.amount)},
                   {"note", line.note}});
  }
  return out;
}

/// With the settings of the step of the recipe that each sentence begins with.
Json steps_json(const CardPart& card_part, const Part& part) {
  Json out = Json::array();
  for (const CardStep& card_step : card_part.steps) {
    const Step& step = part.steps[card_step.step];
    out.push_back({{"number", card_step.number},
                   {"words", card_step.words},
                   {"as_found", card_step.as_found},
                   {"part", part.kind == PartKind::dough ? "" : part.name},
                   {"kind", std::string(step_kind_name(step.kind))},
                   {"minutes", range_json(step.minutes)},
                   {"celsius", range_json(step.celsius)},
                   {"until", step.until}});
  }
  return out;
}

Json part_json(const CardPart& card_part, const Recipe& recipe) {
  const Part& part = recipe.parts[card_part.part];
  return {{"name", card_part.name},
          {"kind", std::string(part_kind_name(part.kind))},
          {"grams", rounded(card_part.grams)},
          {"lines", lines_json(card_part)},
          {"steps", steps_json(card_part, part)}};
}

Json advice_json(const Card& card) {
  Json out = Json::array();
  for (const BakeAdvice& one : card.baking) {
    out.push_back({{"about", one.about}, {"words", one.words}, {"source", one.source}});
  }
  return out;
}

}  // namespace

std::string card_to_json(const Card& card) {
  Json out{{"title", card.title},
           {"language", card.language},
           {"yield", card.yield},
           {"setting", card.setting},
           {"credit", card.credit}};
  out["recipe"] = parse_json(recipe_to_json(card.recipe)).value_or(Json());
  out["kitchen"] = parse_json(kitchen_to_json(card.kitchen)).value_or(Json());
  out["parts"] = Json::array();
  for (const CardPart& part : card.parts) {
    out["parts"].push_back(part_json(part, card.recipe));
  }
  out["changes"] = Json::array();
  for (const CardChange& one : card.changes) {
    out["changes"].push_back(
        {{"what", one.what}, {"from", one.from}, {"to", one.to}, {"why", one.why}});
  }
  out["differences"] = Json::array();
  for (const Difference& one : card.differences) {
    out["differences"].push_back({{"what", one.what},
                                  {"unit", one.unit},
                                  {"home", band_json(one.home)},
                                  {"there", band_json(one.there)},
                                  {"words", one.words}});
  }
  out["times"] = Json::array();
  for (const CardTime& one : card.times) {
    out["times"].push_back({{"name", one.name},
                            {"minutes", band_json(one.minutes)},
                            {"words", one.words},
                            {"until", one.until}});
  }
  out["batch"] = card.batch ? Json{{"loads", card.batch->loads},
                                   {"pieces_a_load", rounded(card.batch->pieces_a_load)},
                                   {"piece_grams", rounded(card.batch->piece_grams)},
                                   {"words", card.batch->words}}
                            : Json();
  out["baking"] = advice_json(card);
  out["cautions"] = Json::array();
  for (const Caution& one : card.cautions) {
    out["cautions"].push_back({{"about", one.about}, {"text", one.text}, {"source", one.source}});
  }
  out["notes"] = card.notes;
  return json_text(out);
}

}  // namespace maslin::handon
