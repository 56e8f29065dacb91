#include "recipe/observation.h"

#include <array>
#include <iterator>
#include <utility>

#include "recipe/json.h"

namespace maslin {
namespace {

struct KindRow {
  std::string_view name;
  std::string_view unit;
};
constexpr std::array<KindRow, 14> k_kinds{{{"volume_ratio", ""},
                                           {"minutes_done", "min"},
                                           {"core_celsius", "°C"},
                                           {"dough_celsius", "°C"},
                                           {"room_celsius", "°C"},
                                           {"flour_left_grams", "g"},
                                           {"feel", ""},
                                           {"crust", ""},
                                           {"crust_lightness", "L*"},
                                           {"mass_before_grams", "g"},
                                           {"mass_after_grams", "g"},
                                           {"height", "mm"},
                                           {"glaze", "g"},
                                           {"score", ""}}};
constexpr std::array<std::string_view, 3> k_bounds{"is", "below", "above"};

bool is_class(ObservationKind kind) {
  return kind == ObservationKind::feel || kind == ObservationKind::crust;
}

/// Those that say with the value what it is of: the sense of a score, what a glaze did.
std::string_view word_key(ObservationKind kind) {
  return kind == ObservationKind::score ? "of" : kind == ObservationKind::glaze ? "did" : "";
}

Bound bound_from(std::string_view name) {
  return name == k_bounds[1] ? Bound::below : name == k_bounds[2] ? Bound::above : Bound::is;
}

Json observation_json(const Observation& one) {
  Json out{{"kind", std::string(observation_kind_name(one.kind))}};
  out["value"] = is_class(one.kind) ? Json(one.word) : Json(one.value);
  const auto add_text = [&out](const char* key, std::string_view text) {
    if (!text.empty()) {
      out[key] = std::string(text);
    }
  };
  const auto add_number = [&out](const char* key, const std::optional<double>& number) {
    if (number) {
      out[key] = *number;
    }
  };
  add_text("unit", observation_unit(one.kind));
  if (const std::string_view key = word_key(one.kind); !key.empty()) {
    add_text(std::string(key).c_str(), one.word);
  }
  if (one.kind == ObservationKind::score) {
    out["out_of"] = one.out_of;
  }
  if (one.bound != Bound::is) {
    add_text("bound", k_bounds[static_cast<std::size_t>(one.bound)]);
  }
  add_number("at_minutes", one.at_minutes);
  if (one.step) {
    out["step"] = *one.step;
  }
  add_text("prove", one.prove);
  add_text("text", one.text);
  add_text("question", one.question);
  add_number("meant", one.meant);
  add_number("meant_minutes", one.meant_minutes);
  return out;
}

std::optional<Observation> observation_from(const Json& value) {
  const auto kind = observation_kind_from(text_at(value, "kind"));
  if (!kind) {
    return std::nullopt;
  }
  Observation one;
  one.kind = *kind;
  if (is_class(*kind)) {
    one.word = text_at(value, "value");
  } else {
    const auto number = number_at(value, "value");
    if (!number) {
      return std::nullopt;
    }
    one.value = *number;
  }
  if (const std::string_view key = word_key(*kind); !key.empty()) {
    one.word = text_at(value, std::string(key).c_str());
  }
  if (*kind == ObservationKind::score) {
    one.out_of = number_at(value, "out_of").value_or(0.0);
  }
  one.bound = bound_from(text_at(value, "bound"));
  one.at_minutes = number_at(value, "at_minutes");
  if (const auto step = number_at(value, "step"); step && *step >= 1 && *step <= 1e6) {
    one.step = static_cast<int>(*step);
  }
  one.prove = text_at(value, "prove");
  one.text = text_at(value, "text");
  one.question = text_at(value, "question");
  one.meant = number_at(value, "meant");
  one.meant_minutes = number_at(value, "meant_minutes");
  return one;
}

}  // namespace

SeenDocument seen_from_json(std::string_view list, const NoteWords& words) {
  constexpr std::size_t k_most = 200;
  SeenDocument out;
  const std::optional<Json> entries = parse_json(list);
  if (!entries || !entries->is_array() || entries->size() > k_most) {
    out.problem = "What was seen is to be a list of up to 200 notes, like [\"doubled at 48 min\"].";
    return out;
  }
  for (const Json& entry : *entries) {
    if (entry.is_string()) {
      NoteReading note = read_note(entry.get<std::string>(), words);
      std::move(note.observations.begin(), note.observations.end(),
                std::back_inserter(out.observations));
      std::move(note.unread.begin(), note.unread.end(), std::back_inserter(out.unread));
    } else if (auto one = observation_from(entry)) {
      out.observations.push_back(std::move(*one));
    } else {
      out.problem = "Entry " + std::to_string(&entry - &entries->front() + 1) +
                    " of what was seen is neither a note in words nor an observation; its kind "
                    "is to be one of docs/schema/trial.schema.json.";
      return out;
    }
  }
  return out;
}

std::string_view observation_kind_name(ObservationKind kind) {
  return k_kinds[static_cast<std::size_t>(kind)].name;
}

std::optional<ObservationKind> observation_kind_from(std::string_view name) {
  for (std::size_t i = 0; i < k_kinds.size(); ++i) {
    if (k_kinds[i].name == name) {
      return static_cast<ObservationKind>(i);
    }
  }
  return std::nullopt;
}

std::string_view observation_unit(ObservationKind kind) {
  return k_kinds[static_cast<std::size_t>(kind)].unit;
}

std::string observations_to_json(const std::vector<Observation>& observations) {
  Json out = Json::array();
  for (const Observation& one : observations) {
    out.push_back(observation_json(one));
  }
  return json_text(out);
}

std::vector<Observation> observations_from_json(std::string_view text) {
  std::vector<Observation> out;
  const std::optional<Json> list = parse_json(text);
  if (!list || !list->is_array()) {
    return out;
  }
  for (const Json& value : *list) {
    if (const auto one = observation_from(value)) {
      out.push_back(*one);
    }
  }
  return out;
}

}  // namespace maslin
