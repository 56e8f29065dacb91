#include "adjust/adjust.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"

namespace maslin {

std::string adjustment_to_json(const Adjustment& adjustment) {
  Json changes = Json::array();
  for (const LineChange& change : adjustment.changes) {
    changes.push_back({{"line", change.line},
                       {"part", change.part},
                       {"from_grams", rounded(change.from_grams)},
                       {"to_grams", rounded(change.to_grams)},
                       {"why", change.why}});
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
  out["conflict"] = std::move(conflict);
  out["nearest"] = std::move(nearest);
  out["notes"] = adjustment.notes;
  return json_text(out);
}

}  // namespace maslin
