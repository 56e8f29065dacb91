#include "finish/finish.h"

#include "finish/entries.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

std::string celsius_text(const Lanes& celsius) {
  return number_text(celsius[0], 1) + " C";
}

/// True when some lane is not between the two, or no number at all.
bool outside(const Lanes& x, double low, double high) {
  return !all((x >= low) & (x <= high));
}

/// Problems of the place: the air and the temperatures the models can take.
void check_place(const FinishUnknowns& unknowns, std::vector<Problem>& problems) {
  if (outside(unknowns.humidity_pct, 0.0, 100.0)) {
    problems.push_back({"kitchen", "the humidity is outside 0 to 100 %",
                        "give the relative humidity of the room, for example 55"});
  }
  if (outside(unknowns.room_celsius, 0.0, 60.0)) {
    problems.push_back({"kitchen",
                        "a room at " + celsius_text(unknowns.room_celsius) +
                            " is outside the 0 to 60 C for which finishes are worked out",
                        "give the room temperature in degrees Celsius, for example 21"});
  }
}

/// Problems of the piece.
void check_piece(const BakedPiece& piece, std::vector<Problem>& problems) {
  if (outside(piece.core_celsius, -30.0, 250.0)) {
    problems.push_back(
        {"bake", "a core of " + celsius_text(piece.core_celsius) + " is no temperature of bread",
         "give it in degrees Celsius, for example 96"});
  }
  if (outside(piece.grams, 0.0, 1e6) || outside(piece.count, 0.0, 1e6)) {
    problems.push_back({"bake", "the size or the number of the pieces is no number",
                        "give how many pieces there are and the grams of one"});
  }
  if (outside(piece.dough_loss, 0.0, 0.9)) {
    problems.push_back({"bake", "the loss in the oven is outside 0 to 90 %",
                        "give the share of the dough's mass baked away, for example 0.11"});
  }
}

/// Problems of one part; false when nothing can be worked out for it.
bool check_part(const FinishPart& part, std::vector<Problem>& problems) {
  const std::size_t before = problems.size();
  for (const Portions::Item& item : part.portions.items) {
    if (outside(item.grams, 0.0, 1e9)) {
      problems.push_back({part.name, "the mass of " + item.ingredient->name + " is no mass",
                          "give it in grams, 0 or more"});
    }
  }
  const FinishWork work = work_for(part);
  const bool wet_work =
      work == FinishWork::glaze || work == FinishWork::syrup || work == FinishWork::soak;
  if (wet_work &&
      !any(part.portions.grams_of(Component::water) > 0.01 * part.portions.total_grams())) {
    problems.push_back({part.name, "it has no liquid",
                        work == FinishWork::soak
                            ? "add the liquid that the fruit stands in"
                            : "add water, juice or milk: about 15 g to 100 g of icing sugar"});
  }
  if (part.soak_celsius && outside(*part.soak_celsius, 0.0, 100.0)) {
    problems.push_back({part.name,
                        "a soak at " + celsius_text(*part.soak_celsius) + " is outside 0 to 100 C",
                        "give the temperature of the liquid in degrees Celsius"});
  }
  if (part.soak_hours && outside(*part.soak_hours, 0.0, 1e6)) {
    problems.push_back({part.name, "the length of the soak is no time", "give hours, 0 or more"});
  }
  return problems.size() == before;
}

std::optional<FinishEntry> work_out(const FinishScene& scene, const FinishPart& part) {
  switch (work_for(part)) {
    case FinishWork::glaze:
      return glaze_entry(scene, part);
    case FinishWork::coating:
      return coating_entry(scene, part);
    case FinishWork::wash:
      return wash_entry(scene, part);
    case FinishWork::syrup:
      return syrup_entry(scene, part);
    case FinishWork::filling:
      return filling_entry(scene, part);
    case FinishWork::soak:
      return soak_entry(scene, part);
    case FinishWork::nothing:
      break;
  }
  if (part.kind == PartKind::dough && holds_kind(part.portions, IngredientKind::dried_fruit)) {
    return fruit_entry(scene, part);
  }
  return std::nullopt;
}

}  // namespace

const FinishEntry* FinishForecast::entry(std::string_view what, std::string_view part) const {
  for (const FinishEntry& each : entries) {
    if (each.what == what && each.part == part) {
      return &each;
    }
  }
  return nullptr;
}

const FinishFigure* figure(const FinishEntry& entry, std::string_view name) {
  for (const FinishFigure& each : entry.figures) {
    if (each.name == name) {
      return &each;
    }
  }
  return nullptr;
}

FinishForecast finish_parts(const FinishTables& tables, const std::vector<FinishPart>& parts,
                            const BakedPiece& piece, const FinishUnknowns& unknowns) {
  FinishForecast out;
  check_place(unknowns, out.problems);
  check_piece(piece, out.problems);
  if (!out.problems.empty()) {
    return out;
  }
  std::vector<FinishPart> sound;
  sound.reserve(parts.size());
  for (const FinishPart& part : parts) {
    if (check_part(part, out.problems)) {
      sound.push_back(part);
    }
  }
  const FinishScene scene = finish_scene(tables, sound, piece, unknowns);
  for (const FinishPart& part : sound) {
    if (std::optional<FinishEntry> entry = work_out(scene, part)) {
      out.entries.push_back(std::move(*entry));
    }
    if (work_for(part) == FinishWork::filling && boils_to_syrup(part)) {
      out.entries.push_back(syrup_entry(scene, part));
    }
  }
  if (scene.has_dough) {
    out.entries.push_back(cooling_entry(scene));
  }
  for (FinishEntry& entry : keeping_entries(scene)) {
    out.entries.push_back(std::move(entry));
  }
  out.cautions = finish_cautions(scene);
  out.outside = outside_sentences(scene);
  return out;
}

}  // namespace maslin
