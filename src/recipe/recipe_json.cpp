#include "recipe/recipe_json.h"

#include <cmath>
#include <set>

#include "recipe/json_shared.h"
#include "recipe/limits.h"

namespace maslin {
namespace {

Json line_json(const Line& line) {
  Json quantity{{"low", line.found.number ? rounded(line.found.number->low) : Json(nullptr)},
                {"high", line.found.number ? rounded(line.found.number->high) : Json(nullptr)},
                {"unit", line.found.unit}};
  if (!line.found.size.empty()) {
    quantity["size"] = line.found.size;
  }
  if (!line.found.packing.empty()) {
    quantity["packing"] = line.found.packing;
  }
  Json out{{"text", line.text}, {"ingredient", line.name}, {"id", line.ingredient_id}};
  out["quantity"] = std::move(quantity);
  out["grams"] = line.weighed ? distribution_json(line.grams) : Json(nullptr);
  out["note"] = line.note;
  if (!line.part.empty()) {
    out["part"] = line.part;
  }
  return out;
}

Json step_json(const Step& step) {
  Json out{{"kind", std::string(step_kind_name(step.kind))}, {"text", step.text}};
  out["minutes"] = range_json(step.minutes);
  out["celsius"] = range_json(step.celsius);
  out["pieces"] = step.pieces ? rounded(step.pieces->low) : Json(nullptr);
  if (step.pieces && step.pieces->high > step.pieces->low) {
    out["pieces_high"] = rounded(step.pieces->high);
  }
  if (step.piece_grams) {
    out["piece_grams"] = rounded(*step.piece_grams);
  }
  out["until"] = step.until;
  if (!step.place.empty()) {
    out["place"] = step.place;
  }
  if (step.fan) {
    out["fan"] = true;
  }
  return out;
}

/// A recipe document as it is read.
class Reader {
 public:
  Complaints complaints;

  void complain(std::string where, std::string what, std::string mend) {
    complaints.complain(std::move(where), std::move(what), std::move(mend));
  }

  Line line(const Json& value, const std::string& where) {
    Line out;
    out.text = text_at(value, "text");
    out.name = text_at(value, "ingredient");
    out.ingredient_id = text_at(value, "id");
    out.part = text_at(value, "part");
    out.note = text_at(value, "note");
    if (const Json* quantity = member(value, "quantity")) {
      out.found.number = range_from(quantity);
      out.found.unit = text_at(*quantity, "unit");
      out.found.size = text_at(*quantity, "size");
      out.found.packing = text_at(*quantity, "packing");
    }
    const Json* grams = member(value, "grams");
    if (grams != nullptr && !grams->is_null()) {
      const auto weight = distribution_from(*grams);
      if (!weight || !(weight->p10() >= 0) || !(weight->p90() <= k_most_line_grams)) {
        complain(where + ".grams", "is not a weight between 0 and a thousand tonnes",
                 "give grams as a number, or as p10, p50 and p90");
      } else {
        out.grams = *weight;
        out.weighed = true;
      }
    }
    return out;
  }

  void check_pieces(const Range& pieces, const std::string& where) {
    if (!(pieces.low >= 0.0) || !(pieces.high <= k_most_pieces)) {
      complain(where, "is not between 0 and a million", "say how many pieces it makes");
    }
  }

  Step step(const Json& value, const std::string& where) {
    Step out;
    const auto kind = step_kind_from(text_at(value, "kind"));
    if (!kind) {
      complain(where + ".kind", "\"" + text_at(value, "kind") + "\" is no kind of step",
               "use mix, rest, knead, fold, prove, divide, shape, fill, bake, steam, fry, cool, "
               "soak, strain, boil or finish");
    }
    out.kind = kind.value_or(StepKind::mix);
    out.text = text_at(value, "text");
    out.minutes = range_from(member(value, "minutes"));
    out.celsius = range_from(member(value, "celsius"));
    out.pieces = range_from(member(value, "pieces"));
    if (out.pieces) {
      out.pieces->high = number_at(value, "pieces_high").value_or(out.pieces->high);
      check_pieces(*out.pieces, where + ".pieces");
    }
    out.piece_grams = number_at(value, "piece_grams");
    out.until = text_at(value, "until");
    out.place = text_at(value, "place");
    const Json* fan = member(value, "fan");
    out.fan = fan != nullptr && fan->is_boolean() && fan->get<bool>();
    return out;
  }

  Part part(const Json& value, const std::string& where) {
    Part out;
    const auto kind = part_kind_from(text_at(value, "kind"));
    if (!kind) {
      complain(where + ".kind", "\"" + text_at(value, "kind") + "\" is no kind of part",
               "use dough, preferment, soaker, extract, filling, topping, wash or glaze");
    }
    out.kind = kind.value_or(PartKind::dough);
    out.name = text_at(value, "name");
    const auto lines = list_at(value, "lines");
    const auto steps = list_at(value, "steps");
    if (lines.size() > k_most_lines || steps.size() > k_most_lines) {
      complain(where, "has more than 400 lines or steps", "split it into parts");
      return out;
    }
    for (std::size_t i = 0; i < lines.size(); ++i) {
      out.lines.push_back(line(lines[i], where + ".lines[" + std::to_string(i) + "]"));
    }
    for (std::size_t i = 0; i < steps.size(); ++i) {
      out.steps.push_back(step(steps[i], where + ".steps[" + std::to_string(i) + "]"));
    }
    if (const Json* yield = member(value, "yield")) {
      out.yield = distribution_from(*yield).value_or(point(1.0));
    }
    return out;
  }

  Recipe recipe(const Json& document) {
    Recipe out;
    out.title = text_at(document, "title");
    out.found_at = text_at(document, "found_at");
    out.locale = text_at(document, "locale");
    out.locale_probability = number_at(document, "locale_probability").value_or(1.0);
    out.pieces = range_from(member(document, "pieces"));
    if (out.pieces) {
      check_pieces(*out.pieces, "pieces");
    }
    if (const Json* value = member(document, "tin"); value != nullptr && value->is_object()) {
      out.tin = tin_from(*value, "tin", complaints);
    }
    const auto parts = list_at(document, "parts");
    if (parts.empty() || parts.size() > k_most_parts) {
      complain("parts", parts.empty() ? "is missing or empty" : "has more than 64 entries",
               "give a list of parts, each with kind, name and lines");
      return out;
    }
    std::set<std::string> names;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const std::string where = "parts[" + std::to_string(i) + "]";
      out.parts.push_back(part(parts[i], where));
      if (!names.insert(out.parts.back().name).second) {
        complain(where + ".name", "\"" + out.parts.back().name + "\" is already another part",
                 "name each part differently");
      }
    }
    for (const Json& remark : list_at(document, "remarks")) {
      if (remark.is_string()) {
        out.remarks.push_back(remark.get<std::string>());
      }
    }
    for (const Json& doubt : list_at(document, "doubts")) {
      out.doubts.push_back({text_at(doubt, "text"), text_at(doubt, "why")});
    }
    if (!parts_in_order(out)) {
      complain("parts", "go round in a ring", "let no part use a part that uses it");
    }
    return out;
  }
};

}  // namespace

std::string recipe_to_json(const Recipe& recipe) {
  Json out{{"title", recipe.title}};
  if (!recipe.found_at.empty()) {
    out["found_at"] = recipe.found_at;
  }
  out["locale"] = recipe.locale;
  out["locale_probability"] = rounded(recipe.locale_probability);
  out["pieces"] = range_json(recipe.pieces);
  if (recipe.tin) {
    out["tin"] = tin_json(*recipe.tin);
  }
  out["parts"] = Json::array();
  for (const Part& part : recipe.parts) {
    Json one{{"kind", std::string(part_kind_name(part.kind))}, {"name", part.name}};
    if (!(part.yield == point(1.0))) {
      one["yield"] = distribution_json(part.yield);
    }
    one["lines"] = Json::array();
    for (const Line& line : part.lines) {
      one["lines"].push_back(line_json(line));
    }
    one["steps"] = Json::array();
    for (const Step& step : part.steps) {
      one["steps"].push_back(step_json(step));
    }
    out["parts"].push_back(std::move(one));
  }
  out["doubts"] = Json::array();
  for (const Doubt& doubt : recipe.doubts) {
    out["doubts"].push_back({{"text", doubt.text}, {"why", doubt.why}});
  }
  out["remarks"] = recipe.remarks;
  return json_text(out);
}

RecipeDocument recipe_from_json(std::string_view text) {
  RecipeDocument out;
  if (text.size() > k_most_document_bytes) {
    out.problems.push_back({"recipe", "is larger than 4 MB", "keep the recipe alone in the file"});
    return out;
  }
  const auto document = parse_json(text);
  if (!document || !document->is_object()) {
    out.problems.push_back(
        {"recipe", "is not a JSON object", "give the document that `maslin read --json` prints"});
    return out;
  }
  Reader reader;
  out.recipe = reader.recipe(*document);
  out.problems = std::move(reader.complaints.problems);
  return out;
}

}  // namespace maslin
