#include <algorithm>

#include "quantity/number_text.h"
#include "recipe/json_shared.h"
#include "recipe/room_day.h"

namespace maslin {
namespace {

Json lessons_json(const KitchenLessons& lessons) {
  Json out{{"trials", lessons.trials}, {"unknowns", Json::array()}};
  for (const LearntUnknown& one : lessons.unknowns) {
    out["unknowns"].push_back({{"name", one.name},
                               {"described", {one.described_a, one.described_b}},
                               {"mean", one.mean}});
  }
  out["covariance"] = lessons.covariance;
  return out;
}

KitchenLessons lessons_from(const Json& document) {
  constexpr std::size_t k_most = 400;
  constexpr double k_most_trials = 1e6;
  KitchenLessons out;
  out.trials =
      static_cast<int>(std::clamp(number_at(document, "trials").value_or(0.0), 0.0, k_most_trials));
  for (const Json& entry : list_at(document, "unknowns")) {
    const std::span<const Json> described = list_at(entry, "described");
    const auto mean = number_at(entry, "mean");
    if (described.size() != 2 || !described[0].is_number() || !described[1].is_number() || !mean) {
      return {};
    }
    out.unknowns.push_back(
        {text_at(entry, "name"), described[0].get<double>(), described[1].get<double>(), *mean});
  }
  for (const Json& entry : list_at(document, "covariance")) {
    out.covariance.push_back(entry.is_number() ? entry.get<double>() : 0.0);
  }
  const std::size_t count = out.unknowns.size();
  return count <= k_most && out.covariance.size() == count * count ? out : KitchenLessons{};
}

/// Points of the room by the hour: {"07:00": 17, "13:00": 22}. Those at fault are left out.
void take_room_by_hour(const Json& document, Kitchen& kitchen, Complaints& complaints) {
  constexpr double k_coldest = -10.0;
  constexpr double k_hottest = 50.0;
  constexpr std::size_t k_most = 48;
  const Json* points = member(document, "room_by_hour");
  if (points != nullptr && points->is_object() && points->size() <= k_most) {
    for (const auto& [hour, value] : points->items()) {
      const auto minutes = hour_of_day_from(hour);
      const double celsius = value.is_number() ? value.get<double>() : k_hottest + 1.0;
      if (!minutes || !(celsius >= k_coldest) || !(celsius <= k_hottest)) {
        complaints.complain("room_by_hour",
                            "\"" + hour.substr(0, 20) + "\" is no hour of a day with -10 to 50 °C",
                            "write it as {\"07:00\": 17, \"22:30\": 20}");
        continue;
      }
      kitchen.room_by_hour.push_back({*minutes, celsius});
    }
  } else if (points != nullptr) {
    complaints.complain("room_by_hour", "is no list of hours with their temperatures",
                        "write it as {\"07:00\": 17, \"22:30\": 20}");
  }
  if (!settle_room(kitchen) && (kitchen.room_night_celsius || !kitchen.room_by_hour.empty())) {
    complaints.complain("room_celsius", "through the day is told twice, or by its night alone",
                        "give room_celsius with room_night_celsius, or room_by_hour with each "
                        "hour once");
    kitchen.room_night_celsius.reset();
    kitchen.room_by_hour.clear();
  }
}

/// Of a day, where the stretches do not overlap.
double hours_in_all(const std::vector<DailyHours>& all) {
  double minutes = 0.0;
  for (const DailyHours& one : all) {
    const double length = one.to_minutes - one.from_minutes;
    minutes += length > 0.0 ? length : length + 1440.0;
  }
  return std::min(minutes / 60.0, 24.0);
}

}  // namespace

std::string lessons_to_json(const KitchenLessons& lessons) {
  return json_text(lessons_json(lessons));
}

KitchenLessons lessons_from_json(std::string_view text) {
  const auto document = parse_json(text);
  return document ? lessons_from(*document) : KitchenLessons{};
}

std::string kitchen_to_json(const Kitchen& kitchen) {
  Json out{{"name", kitchen.name}};
  const auto add = [&out](const char* key, const std::optional<double>& value) {
    if (value) {
      out[key] = rounded(*value);
    }
  };
  if (!kitchen.country.empty()) {
    out["country"] = kitchen.country;
  }
  add("room_celsius", kitchen.room_celsius);
  add("room_night_celsius", kitchen.room_night_celsius);
  for (const RoomPoint& one : kitchen.room_by_hour) {
    out["room_by_hour"][hour_of_day_text(one.minutes)] = rounded(one.celsius);
  }
  add("humidity_pct", kitchen.humidity_pct);
  add("altitude_m", kitchen.altitude_m);
  if (kitchen.oven || kitchen.oven_offset_celsius) {
    Json oven = Json::object();
    if (kitchen.oven) {
      oven["kind"] = std::string(oven_kind_name(*kitchen.oven));
    }
    if (kitchen.oven_offset_celsius) {
      oven["offset_celsius"] = rounded(*kitchen.oven_offset_celsius);
    }
    out["oven"] = std::move(oven);
  }
  if (!kitchen.tins.empty()) {
    out["tins"] = Json::array();
    for (const Tin& tin : kitchen.tins) {
      out["tins"].push_back(tin_json(tin));
    }
  }
  if (kitchen.scale || !kitchen.measures.empty()) {
    out["measures"] = Json::array();
    if (kitchen.scale) {
      out["measures"].push_back("scale");
    }
    for (const OwnMeasure& measure : kitchen.measures) {
      out["measures"].push_back({{"name", measure.name}, {"ml", rounded(measure.ml)}});
    }
  }
  if (kitchen.flour_protein_pct) {
    out["flour"] = {{"protein_pct", rounded(*kitchen.flour_protein_pct)}};
  }
  if (!kitchen.yeast_kind.empty() || kitchen.yeast_age_months) {
    Json yeast = Json::object();
    if (!kitchen.yeast_kind.empty()) {
      yeast["kind"] = kitchen.yeast_kind;
    }
    if (kitchen.yeast_age_months) {
      yeast["age_months"] = rounded(*kitchen.yeast_age_months);
    }
    out["yeast"] = std::move(yeast);
  }
  if (!kitchen.at_hand.empty()) {
    out["at_hand"] = kitchen.at_hand;
  }
  if (kitchen.fridge) {
    out["fridge"] = *kitchen.fridge;
  }
  add("power_hours", kitchen.power_hours);
  if (!kitchen.equipment.empty()) {
    out["equipment"] = kitchen.equipment;
  }
  if (kitchen.awake) {
    out["awake"] = daily_hours_text(*kitchen.awake);
  }
  for (const DailyHours& hours : kitchen.power) {
    out["power"].push_back(daily_hours_text(hours));
  }
  if (!kitchen.prices.empty()) {
    out["prices"] = prices_json(kitchen.prices);
  }
  if (!kitchen.learnt.unknowns.empty()) {
    out["learnt"] = lessons_json(kitchen.learnt);
  }
  return json_text(out);
}

KitchenDocument kitchen_from_json(std::string_view text) {
  KitchenDocument out;
  const auto document = text.size() > k_most_document_bytes ? std::nullopt : parse_json(text);
  if (!document || !document->is_object()) {
    out.problems.push_back(
        {"kitchen", "is not a JSON object", "see docs/schema/kitchen.schema.json for its fields"});
    return out;
  }
  Complaints complaints;
  Kitchen& kitchen = out.kitchen;
  const auto within = [&](const Json& object, const char* key, double low, double high,
                          const std::string& where) -> std::optional<double> {
    const auto value = number_at(object, key);
    if (value && (*value < low || *value > high)) {
      complaints.complain(where,
                          "is " + number_text(*value, 1) + ", outside " + number_text(low, 0) +
                              " to " + number_text(high, 0),
                          "give a value inside it, or leave it out");
      return std::nullopt;
    }
    return value;
  };
  kitchen.name = text_at(*document, "name");
  kitchen.country = text_at(*document, "country");
  kitchen.room_celsius = within(*document, "room_celsius", -10, 50, "room_celsius");
  kitchen.room_night_celsius =
      within(*document, "room_night_celsius", -10, 50, "room_night_celsius");
  take_room_by_hour(*document, kitchen, complaints);
  kitchen.humidity_pct = within(*document, "humidity_pct", 0, 100, "humidity_pct");
  kitchen.altitude_m = within(*document, "altitude_m", -430, 6000, "altitude_m");
  if (const Json* oven = member(*document, "oven")) {
    const std::string kind = text_at(*oven, "kind");
    kitchen.oven = oven_kind_from(kind);
    if (!kind.empty() && !kitchen.oven) {
      complaints.complain(
          "oven.kind", "\"" + kind + "\" is no kind of oven",
          "use conventional, fan, gas, wood, charcoal_drum, pot, steamer, toaster or "
          "none");
    }
    kitchen.oven_offset_celsius = within(*oven, "offset_celsius", -80, 80, "oven.offset_celsius");
  }
  for (const Json& value : list_at(*document, "tins")) {
    kitchen.tins.push_back(tin_from(value, "tins", complaints));
  }
  for (const Json& value : list_at(*document, "measures")) {
    if (value.is_string()) {
      kitchen.scale = kitchen.scale || value.get<std::string>() == "scale";
    } else if (const auto ml = within(value, "ml", 0.1, 20000, "measures.ml")) {
      kitchen.measures.push_back({text_at(value, "name"), *ml});
    }
  }
  if (const Json* flour = member(*document, "flour")) {
    kitchen.flour_protein_pct = within(*flour, "protein_pct", 4, 20, "flour.protein_pct");
  }
  if (const Json* yeast = member(*document, "yeast")) {
    kitchen.yeast_kind = text_at(*yeast, "kind");
    kitchen.yeast_age_months = within(*yeast, "age_months", 0, 120, "yeast.age_months");
  }
  const auto words_at = [&document](const char* key) {
    std::vector<std::string> words;
    for (const Json& value : list_at(*document, key)) {
      if (value.is_string()) {
        words.push_back(value.get<std::string>());
      }
    }
    return words;
  };
  kitchen.at_hand = words_at("at_hand");
  kitchen.power_hours = within(*document, "power_hours", 0, 24, "power_hours");
  kitchen.equipment = words_at("equipment");
  // Before a toaster oven was a kind of oven it was a thing beside one.
  const auto toaster =
      std::find(kitchen.equipment.begin(), kitchen.equipment.end(), "toaster_oven");
  if (toaster != kitchen.equipment.end()) {
    kitchen.equipment.erase(toaster);
    kitchen.oven =
        kitchen.oven && *kitchen.oven != OvenKind::none ? kitchen.oven : OvenKind::toaster;
  }
  const auto hours_in = [&complaints](const std::string& said, const char* where) {
    const auto hours = daily_hours_from(said);
    if (!hours) {
      complaints.complain(where, "\"" + said + "\" are no hours of a day",
                          "write them as 06:00-23:00");
    }
    return hours;
  };
  if (member(*document, "awake") != nullptr) {
    kitchen.awake = hours_in(text_at(*document, "awake"), "awake");
  }
  for (const std::string& said : words_at("power")) {
    if (const auto hours = hours_in(said, "power")) {
      kitchen.power.push_back(*hours);
    }
  }
  if (!kitchen.power_hours && !kitchen.power.empty()) {
    kitchen.power_hours = hours_in_all(kitchen.power);
  }
  if (const Json* prices = member(*document, "prices")) {
    PriceReading read = prices_from(*prices);
    kitchen.prices = std::move(read.list);
    for (Problem& one : read.problems) {
      complaints.complain("prices." + one.where, std::move(one.what), std::move(one.mend));
    }
  }
  if (const Json* learnt = member(*document, "learnt")) {
    kitchen.learnt = lessons_from(*learnt);
  }
  if (const Json* fridge = member(*document, "fridge"); fridge != nullptr && fridge->is_boolean()) {
    kitchen.fridge = fridge->get<bool>();
  }
  out.problems = std::move(complaints.problems);
  return out;
}

}  // namespace maslin
