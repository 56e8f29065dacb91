// What a person wrote into a kitchen's file that no field of a kitchen takes.
#include <algorithm>
#include <array>

#include "recipe/json_shared.h"

namespace maslin {
namespace {

struct Field {
  std::string_view name;
  std::string_view kind;  // of its value, as a person would say it
};
constexpr std::array<Field, 20> k_fields{{{"name", "text"},
                                          {"country", "text"},
                                          {"room_celsius", "a number"},
                                          {"room_night_celsius", "a number"},
                                          {"room_by_hour", "an object"},
                                          {"humidity_pct", "a number"},
                                          {"altitude_m", "a number"},
                                          {"oven", "an object"},
                                          {"tins", "a list"},
                                          {"measures", "a list"},
                                          {"flour", "an object"},
                                          {"yeast", "an object"},
                                          {"at_hand", "a list"},
                                          {"fridge", "true or false"},
                                          {"power_hours", "a number"},
                                          {"equipment", "a list"},
                                          {"awake", "text"},
                                          {"power", "a list"},
                                          {"prices", ""},  // read by its own rules
                                          {"learnt", "an object"}}};

std::string_view kind_of(const Json& value) {
  return value.is_string()    ? "text"
         : value.is_number()  ? "a number"
         : value.is_object()  ? "an object"
         : value.is_array()   ? "a list"
         : value.is_boolean() ? "true or false"
                              : "nothing";
}

}  // namespace

std::vector<Problem> strangers_in_kitchen(std::string_view text) {
  Complaints complaints;
  const auto document = parse_json(text);
  if (!document || !document->is_object()) {
    return {};
  }
  for (const auto& [key, value] : document->items()) {
    const auto field = std::find_if(k_fields.begin(), k_fields.end(),
                                    [&](const Field& one) { return one.name == key; });
    if (field == k_fields.end()) {
      std::string known;
      for (const Field& one : k_fields) {
        known += (known.empty() ? "" : ", ") + std::string(one.name);
      }
      complaints.complain("\"" + key.substr(0, 40) + "\"", "is no field of a kitchen",
                          "it has " + known);
    } else if (!field->kind.empty() && !value.is_null() && kind_of(value) != field->kind) {
      const std::string mend = field->name == "oven"
                                   ? "write it as {\"kind\": \"gas\", \"offset_celsius\": 10}"
                                   : "see docs/schema/kitchen.schema.json";
      complaints.complain(std::string(field->name),
                          "is " + std::string(kind_of(value)) + " where " +
                              std::string(field->kind) + " should stand",
                          mend);
    }
  }
  return std::move(complaints.problems);
}

}  // namespace maslin
