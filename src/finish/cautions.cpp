// Cautions and limits of a finish forecast.
#include "finish/entries.h"

namespace maslin {
namespace {

constexpr std::array k_perishable = {
    IngredientKind::dairy,  IngredientKind::cheese,     IngredientKind::egg,
    IngredientKind::meat,   IngredientKind::fish,       IngredientKind::puree,
    IngredientKind::fruit,  IngredientKind::vegetable,  IngredientKind::potato,
    IngredientKind::legume, IngredientKind::plant_milk, IngredientKind::cooked};

bool keeps_badly(const Portions& portions) {
  for (const IngredientKind kind : k_perishable) {
    if (holds_kind(portions, kind)) {
      return true;
    }
  }
  return false;
}

bool goes_on_piece(const FinishPart& part) {
  return part.kind == PartKind::filling || part.kind == PartKind::topping ||
         part.kind == PartKind::glaze;
}

/// Gathers the cautions that apply, with the part's name in their text.
class CautionList {
 public:
  explicit CautionList(const FinishTables& tables) : tables_(tables) {}

  const CautionText* find(std::string_view id) const {
    for (const CautionText& caution : tables_.cautions) {
      if (caution.id == id) {
        return &caution;
      }
    }
    return nullptr;
  }

  void add(std::string_view id, const std::string& part, const Lanes& applies) {
    if (const CautionText* caution = find(id)) {
      std::string text = caution->text;
      const std::size_t at = text.find("{part}");
      if (at != std::string::npos) {
        text.replace(at, 6, part);
        if (at == 0 && text[0] >= 'a' && text[0] <= 'z') {
          text[0] = static_cast<char>(text[0] - 'a' + 'A');
        }
      }
      found_.push_back({caution->id, part, text, caution->source, applies});
    }
  }

  bool called_by(std::string_view id, const Portions& portions) const {
    const CautionText* caution = find(id);
    return caution != nullptr && holds_any(portions, caution->ids);
  }

  std::vector<FinishCaution> take() { return std::move(found_); }

 private:
  const FinishTables& tables_;
  std::vector<FinishCaution> found_;
};

void add_spoilage(const FinishScene& scene, const FinishPart& part, CautionList& list) {
  const KeepingModel& model = scene.tables.keeping;
  if (goes_on_piece(part) && keeps_badly(part.portions)) {
    const Lanes activity = eaten_water_activity(scene, part);
    const Mask risky =
        (activity > model.growth_pathogen) & (part_ph(part.portions) > model.acid_limit_ph);
    list.add("chill_perishable", part.name, select(risky, 1.0, 0.0));
  }
  const bool raw = goes_on_piece(part) && !part.baked && !part.boiled;
  if (raw && holds_kind(part.portions, IngredientKind::egg)) {
    list.add("raw_egg", part.name, 1.0);
  }
  if (raw && list.called_by("herb_oil", part.portions)) {
    list.add("herb_oil", part.name, 1.0);
  }
  if (holds_kind(part.portions, IngredientKind::meat) ||
      holds_kind(part.portions, IngredientKind::fish)) {
    list.add("cook_meat", part.name, 1.0);
  }
  if (!part.baked && list.called_by("honey_infant", part.portions)) {
    list.add("honey_infant", part.name, 1.0);
  }
}

void add_handling(const FinishScene& scene, const FinishPart& part, CautionList& list) {
  if (boils_to_syrup(part)) {
    list.add("hot_syrup", part.name, 1.0);
    list.add("not_for_canning", part.name, 1.0);
  }
  if (goes_on_piece(part) && holds_kind(part.portions, IngredientKind::alcohol)) {
    list.add("alcohol", part.name, 1.0);
  }
  if (list.called_by("sugar_cakes", part.portions)) {
    list.add("sugar_cakes", part.name, select(scene.unknowns.humidity_pct > 60.0, 1.0, 0.0));
  }
  // A little ginger in a dough is spice; what is mixed in as fruit slackens all of it.
  const Lanes enough_g = goes_on_piece(part)            ? Lanes(0.0)
                         : part.kind == PartKind::dough ? 0.02 * scene.flour_g
                                                        : Lanes(1e9);
  Lanes raw_g = 0.0;
  for (const Portions::Item& item : part.portions.items) {
    if (item.ingredient->protease) {
      raw_g += item.grams;
    }
  }
  if (any(raw_g > enough_g)) {
    list.add("protease", part.name, select(raw_g > enough_g, 1.0, 0.0));
  }
}

}  // namespace

Lanes part_ph(const Portions& portions) {
  Lanes weighted = 0.0;
  Lanes grams = 0.0;
  for (const Portions::Item& item : portions.items) {
    const double water = item.ingredient->composition[Component::water];
    const double ph = item.ingredient->ph > 0.0 ? item.ingredient->ph : 6.5;
    if (water > 0.1) {
      weighted += item.grams * water * ph;
      grams += item.grams * water;
    }
  }
  return select(grams > 1e-9, weighted / max(grams, 1e-9), 6.5);
}

std::vector<FinishCaution> finish_cautions(const FinishScene& scene) {
  CautionList list(scene.tables);
  for (const FinishPart& part : scene.parts) {
    add_spoilage(scene, part, list);
    add_handling(scene, part, list);
  }
  if (scene.has_dough) {
    list.add("mould_not_safety", "", 1.0);
    list.add("rope_warm", "", select(scene.unknowns.room_celsius > 25.0, 1.0, 0.0));
  }
  return list.take();
}

std::vector<std::string> outside_sentences(const FinishScene& scene) {
  std::vector<std::string> out;
  for (const FinishPart& part : scene.parts) {
    if (work_for(part) != FinishWork::glaze) {
      continue;
    }
    const Lanes fat = part.portions.grams_of(Component::fat);
    if (any(fat > 0.1 * part.portions.total_grams())) {
      out.push_back(part.name +
                    ": holds more than a tenth fat; the amounts named for a thickness are those "
                    "with the fat soft, set fat makes it stiffer");
    }
  }
  const KeepingModel& model = scene.tables.keeping;
  if (scene.has_dough && any(scene.crumb.water_activity > model.mould_activity_high)) {
    out.emplace_back(
        "keeping: the crumb is moister than the cakes the days without mould were measured on; "
        "the figure for the moistest of them stands in");
  }
  return out;
}

}  // namespace maslin
