#include "adjust/adjust.h"
#include "quantity/number_text.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"

namespace maslin {

std::string adjustment_text(const Adjustment& adjustment) {
  std::string out = adjustment.recipe.title + "\n";
  for (const LineChange& change : adjustment.changes) {
    out += "  " + change.line + ": " + number_text(change.from_grams, 1) + " g to " +
           number_text(change.to_grams, 1) + " g, which " + change.why +
           (change.alone.empty() ? "" : "; by itself: " + change.alone) + "\n";
  }
  for (const std::string& note : adjustment.notes) {
    out += "  " + note + "\n";
  }
  for (const Conflict& one : adjustment.conflict) {
    out += "  cannot be had: " + one.want + "; " + one.nearest + "\n";
  }
  if (adjustment.changes.empty() && adjustment.notes.empty() && adjustment.conflict.empty()) {
    out += "  nothing to change\n";
  }
  return out;
}

std::string adjustment_to_json(const Adjustment& adjustment) {
  Json changes = Json::array();
  for (const LineChange& change : adjustment.changes) {
    changes.push_back({{"line", change.line},
                       {"part", change.part},
                       {"from_grams", rounded(change.from_grams)},
                       {"to_grams", rounded(change.to_grams)},
                       {"why", change.why},
                       {"alone", change.alone},
                       {"part_index", change.part_index},
                       {"line_index", change.line_index}});
  }
  Json swaps = Json::array();
  for (const SwappedLine& swap : adjustment.swaps) {
    swaps.push_back(
        {{"part_index", swap.part_index}, {"line_index", swap.line_index}, {"why", swap.why}});
  }
  Json conflict = Json::array();
  Json nearest = Json::array();
  for (const Conflict& one : adjustment.conflict) {
    conflict.push_back(one.want);
    nearest.push_back({{"want", one.want}, {"nearest", one.nearest}});
  }
  Json out{{"met", adjustment.met}};
  out["recipe"] = parse_json(recipe_to_json(adjustment.recipe)).value_or(Json::object());
  out["changes"] = std::move(changes);
  out["swaps"] = std::move(swaps);
  out["conflict"] = std::move(conflict);
  out["nearest"] = std::move(nearest);
  out["notes"] = adjustment.notes;
  return json_text(out);
}

}  // namespace maslin
