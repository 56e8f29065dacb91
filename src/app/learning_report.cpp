// What a kitchen has learnt, in words and as a document.
#include <algorithm>
#include <cmath>

#include "app/learning.h"
#include "quantity/number_text.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

/// Degrees to the whole one, times and points to what hands and eyes can tell.
std::string told(double value, bool is_signed, const std::string& unit) {
  const bool degrees = unit == "kelvin" || unit == "celsius";
  const int digits = degrees && std::fabs(value) >= 2.0 ? 0 : degrees ? 1 : 2;
  return (is_signed && value > 0 ? "+" : "") + number_text(value, digits);
}

std::string range_text(const Band& band, const std::string& unit) {
  const bool about_nothing = band.p10 < 0;
  return told(band.p10, about_nothing, unit) + " to " + told(band.p90, about_nothing, unit);
}

std::string thing_text(const LearntThing& thing) {
  std::string of = thing.of;
  std::replace(of.begin(), of.end(), '_', ' ');
  const std::string words = thing.unit == "kelvin"    ? " degrees"
                            : thing.unit == "celsius" ? " °C"
                            : thing.unit == "points"  ? " points"
                            : thing.unit == "ratio"   ? " times the usual"
                            : thing.unit == "sd"      ? " standard deviations"
                                                      : "";
  return thing.words + (of.empty() ? "" : " (" + of + ")") + ": " +
         range_text(thing.now, thing.unit) + words + " (elsewhere " +
         range_text(thing.before, thing.unit) + ")";
}

Json band_json(const Band& band) {
  return {{"p10", rounded(band.p10)}, {"p50", rounded(band.p50)}, {"p90", rounded(band.p90)}};
}

}  // namespace

const LearntThing* thing_named(const std::vector<LearntThing>& things, const std::string& name) {
  for (const LearntThing& one : things) {
    if (one.name == name) {
      return &one;
    }
  }
  return nullptr;
}

/// Whether a lesson moved or narrowed this thing by what can be told.
bool changed(const LearntThing* before, const LearntThing& after) {
  const Band& was = before == nullptr ? after.before : before->now;
  return after.now.width() < 0.95 * was.width() ||
         std::fabs(after.now.p50 - was.p50) > 0.1 * was.width();
}

std::vector<std::string> learnt_words(const KitchenLessons& before, const KitchenLessons& after,
                                      const Kitchen& kitchen) {
  const std::vector<LearntThing> was = learnt_things(before, kitchen);
  std::vector<std::string> out;
  for (const LearntThing& thing : learnt_things(after, kitchen)) {
    if (changed(thing_named(was, thing.name), thing)) {
      out.push_back(thing_text(thing));
    }
  }
  return out;
}

std::string learnt_to_json(const LearntKitchen& kitchen) {
  Json out{{"kitchen", kitchen.name},
           {"document", parse_json(kitchen_to_json(kitchen.kitchen)).value_or(Json::object())},
           {"taught_by", kitchen.taught},
           {"unlearnt", kitchen.unlearnt},
           {"learnt", Json::array()}};
  for (const LearntFrom& one : kitchen.learnt) {
    out["learnt"].push_back({{"name", one.thing.name},
                             {"what", one.thing.words},
                             {"of", one.thing.of},
                             {"unit", one.thing.unit},
                             {"before", band_json(one.thing.before)},
                             {"now", band_json(one.thing.now)},
                             {"trials", one.trials}});
  }
  return json_text(out);
}

std::string learnt_report(const LearntKitchen& kitchen) {
  const auto numbers = [](const std::vector<std::int64_t>& trials) {
    std::string out;
    for (const std::int64_t one : trials) {
      out += (out.empty() ? "" : ", ") + std::to_string(one);
    }
    return out;
  };
  std::string out = kitchen.name + "\n";
  if (kitchen.taught.empty()) {
    out += "  has learnt nothing yet; a trial teaches it when it is closed.\n";
  }
  for (const LearntFrom& one : kitchen.learnt) {
    // What moved a little with each bake is no single trial's lesson.
    out += "  " + thing_text(one.thing) +
           (one.trials.empty() ? "" : "; from trial " + numbers(one.trials)) + "\n";
  }
  if (!kitchen.taught.empty()) {
    out += "  learnt from trial " + numbers(kitchen.taught) + "\n";
  }
  if (!kitchen.unlearnt.empty()) {
    out += "  taken back: trial " + numbers(kitchen.unlearnt) + "\n";
  }
  return out;
}

}  // namespace maslin
