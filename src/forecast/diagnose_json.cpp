#include "forecast/diagnose.h"
#include "recipe/json.h"

namespace maslin {
namespace {

Json band_json(const Band& band) {
  return {{"p10", rounded(band.p10)}, {"p50", rounded(band.p50)}, {"p90", rounded(band.p90)}};
}

Json cause_json(const Cause& cause) {
  Json out{{"cause", cause.cause},
           {"figure", cause.figure},
           {"unit", cause.unit},
           {"chance", rounded(cause.chance)},
           {"chance_before", rounded(cause.chance_before)},
           {"expected", band_json(cause.expected)},
           {"now", band_json(cause.now)},
           {"mend", cause.mend},
           {"effect", nullptr},
           {"source", cause.source}};
  if (cause.effect) {
    out["effect"] = {{"of", cause.effect->words},
                     {"unit", cause.effect->unit},
                     {"as_it_is", band_json(cause.effect->as_it_is)},
                     {"mended", band_json(cause.effect->mended)}};
  }
  return out;
}

}  // namespace

std::string diagnoses_to_json(const std::vector<Diagnosis>& diagnoses) {
  Json out = Json::array();
  for (const Diagnosis& one : diagnoses) {
    Json entry{{"fault", one.fault}, {"causes", Json::array()}, {"look_at", one.look_at}};
    for (const Cause& cause : one.causes) {
      entry["causes"].push_back(cause_json(cause));
    }
    out.push_back(std::move(entry));
  }
  return json_text(out);
}

}  // namespace maslin
