#include "reading/weigh.h"

#include <algorithm>
#include <cmath>

#include "quantity/number_text.h"
#include "reading/made_up.h"
#include "reading/mixture.h"

namespace maslin::reading {
namespace {

/// "About" widens an amount by a tenth (common practice, no source).
constexpr double k_about_cv = 0.1;
/// Two amounts of one thing that differ by less than this are taken to agree: prints
/// round to 5 g and cups to the eighth.
constexpr double k_agree = 0.2;

/// More of one thing than this is a slip of the pen, g.
constexpr double k_most_grams = 1e7;

/// Gives the line its weight, unless it is a slip of the pen; false then.
bool set_weight(DraftLine& line, const Distribution& grams) {
  if (!(grams.p50() < k_most_grams)) {
    line.doubts.push_back({line.line.text,
                           "no kitchen weighs that much: the amount is left out; "
                           "say it again"});
    return false;
  }
  line.line.grams = grams;
  line.line.weighed = true;
  return true;
}

Distribution amount_of(const FoundMeasure& measure) {
  if (!measure.number) {
    return point(1.0);
  }
  const Range range = *measure.number;
  const Distribution stated =
      range.low == range.high ? point(range.low) : uniform(range.low, range.high);
  return measure.approximate ? product(stated, lognormal(1.0, k_about_cv)) : stated;
}

std::optional<Distribution> by_volume(const Distribution& amount, double ml, double cv,
                                      const Ingredient& ingredient, std::string_view packing,
                                      const Pantry& pantry) {
  const auto fill = pantry.packing(ingredient, packing);
  if (!fill) {
    return std::nullopt;
  }
  return product(amount, product(lognormal(ml, cv), lognormal(fill->g_per_ml, fill->cv)));
}

std::optional<Distribution> by_loose(const Distribution& amount, std::string_view word,
                                     const Ingredient& ingredient, std::string_view packing,
                                     const Lexicons& lexicons) {
  const LooseMeasure* loose = lexicons.loose_measure(word);
  if (loose == nullptr) {
    return std::nullopt;
  }
  if (loose->grams > 0.0) {
    return product(amount, lognormal(loose->grams, loose->cv));
  }
  return by_volume(amount, loose->ml, loose->cv, ingredient, packing, *lexicons.pantry);
}

/// What has no pieces.
bool is_never_counted(const Ingredient& ingredient) {
  switch (ingredient.kind) {
    case IngredientKind::flour:
    case IngredientKind::starch:
    case IngredientKind::water:
    case IngredientKind::salt:
    case IngredientKind::leavening:
      return true;
    default:
      return false;
  }
}

bool is_strong_taste(const Ingredient& ingredient) {
  switch (ingredient.kind) {
    case IngredientKind::salt:
    case IngredientKind::spice:
    case IngredientKind::extract:
    case IngredientKind::yeast:
    case IngredientKind::leavening:
      return true;
    default:
      return false;
  }
}

std::optional<Distribution> weigh_at(const FoundMeasure& measure, const Ingredient& ingredient,
                                     std::string_view packing, std::string_view size,
                                     std::string_view locale, const Lexicons& lexicons) {
  const Pantry& pantry = *lexicons.pantry;
  const Distribution amount = amount_of(measure);
  if (measure.content) {
    FoundMeasure inside;
    inside.number = measure.content;
    inside.unit = measure.content_unit;
    const auto one = weigh_at(inside, ingredient, packing, "", locale, lexicons);
    return one ? std::optional(product(amount, *one)) : std::nullopt;
  }
  // The very thing counted before its kind: a clove before a piece.
  if (measure.unit == "piece" || unit_kind(measure.unit) == UnitKind::loose) {
    if (const auto loose = by_loose(amount, measure.word, ingredient, packing, lexicons)) {
      return loose;
    }
  }
  if (!measure.word.empty() && pantry.portion(ingredient, measure.word, size, locale)) {
    return pantry.weigh(ingredient, amount, measure.word, packing, size, locale);
  }
  const std::string_view unit = measure.unit;
  if (unit.empty() && measure.word.empty() && is_never_counted(ingredient)) {
    return std::nullopt;  // "20 salt": of what, nobody said
  }
  if (unit == "some") {
    return by_loose(amount, is_strong_taste(ingredient) ? "some strong" : "some", ingredient,
                    packing, lexicons);
  }
  if (const auto known = pantry.weigh(ingredient, amount, unit, packing, size, locale)) {
    return known;
  }
  return by_loose(amount, unit, ingredient, packing, lexicons);
}

std::string amount_words(const FoundMeasure& m) {
  std::string out = m.number ? fraction_text(m.number->middle()) : "";
  out += m.unit.empty() ? "" : " " + std::string(m.unit);
  return out;
}

std::string grams_words(double grams) {
  return number_text(grams, grams < 10.0 ? 1 : 0) + " g";
}

/// A weight and a volume of one thing that cannot both be true.
void doubt_disagreement(DraftLine& line, const Distribution& grams,
                        const std::vector<PlaceShare>& places, const Lexicons& lexicons) {
  if (!line.other || !line.other->number) {
    return;
  }
  const UnitKind kind = unit_kind(line.other->unit);
  if (kind != UnitKind::mass && kind != UnitKind::volume) {
    return;  // packets and pieces differ too much to argue with
  }
  const auto other = weigh_measure(*line.other, *line.ingredient, line.line.found.packing,
                                   line.line.found.size, places, lexicons);
  if (!other || other->p50() <= 0.0 || grams.p50() <= 0.0) {
    return;
  }
  const double apart = std::fabs(log_same(other->p50() / grams.p50()));
  const double allowed = std::max(k_agree, 2.5 * std::max(log_spread(*other), log_spread(grams)));
  if (apart > allowed) {
    line.doubts.push_back(
        {line.line.text,
         line.ingredient->name + ": " + amount_words(*line.measure) + " and " +
             amount_words(*line.other) + " do not agree, the second would be about " +
             grams_words(other->p50()) + "; " + grams_words(grams.p50()) + " was taken"});
  }
}

/// Vessels that differ so much from each other that one must be measured.
constexpr double k_unsettled_cv = 0.18;

void doubt_vessel(DraftLine& line, const std::vector<PlaceShare>& places, const Pantry& pantry) {
  const FoundMeasure& m = *line.measure;
  const auto vessel = unit_kind(m.unit) == UnitKind::volume && !places.empty()
                          ? pantry.measure(m.unit, places.front().locale)
                          : std::nullopt;
  const bool spoon = m.unit == "tsp" || m.unit == "tbsp" || m.unit == "dessertspoon";
  if (vessel && vessel->cv >= k_unsettled_cv && !spoon) {
    line.doubts.push_back({line.line.text, "a " + std::string(m.unit) +
                                               " has no fixed size: measure yours with water"});
  } else if (m.unit == "part") {
    line.doubts.push_back({line.line.text,
                           "a part has no size: only the proportions are known, a cup was taken "
                           "for one part"});
  } else if ((m.unit == "can" || m.unit == "jar") && !m.content) {
    line.doubts.push_back({line.line.text, "the size of the " +
                                               std::string(m.unit == "can" ? "tin" : m.unit) +
                                               " is not said: weigh what is in it"});
  }
}

void weigh_line(DraftLine& line, const std::vector<PlaceShare>& places, const Lexicons& lexicons) {
  if (line.ingredient == nullptr || !line.line.part.empty()) {
    return;
  }
  if (!line.measure) {
    FoundMeasure some;
    some.unit = "some";
    // "Salt to taste", "flour for dusting": little, but not nothing.
    if (line.purpose.empty() || line.purpose == "need" || line.purpose == "fry" ||
        line.purpose == "extra") {
      return;
    }
    line.measure = some;
    if (const auto grams = weigh_measure(some, *line.ingredient, "", "", places, lexicons)) {
      line.line.grams = *grams;
      line.line.weighed = true;
    }
    line.measure.reset();
    return;
  }
  if (line.measure->unit == "percent") {
    return;
  }
  const std::string& packing = line.line.found.packing;
  const std::string& size = line.line.found.size;
  // Things whose weight goes by their name: cherry tomatoes.
  const std::string name = folded_name(line.line.name);
  if (line.measure->unit.empty() && lexicons.loose_measure(name) != nullptr) {
    line.measure->unit = "piece";
    line.measure->word = name;
  }
  auto grams = weigh_measure(*line.measure, *line.ingredient, packing, size, places, lexicons);
  if (!grams && line.other) {
    grams = weigh_measure(*line.other, *line.ingredient, packing, size, places, lexicons);
  }
  // Millilitres beside a cup or a can are the better volume.
  if (line.other && unit_kind(line.other->unit) == UnitKind::volume &&
      (line.other->unit == "ml" || line.other->unit == "cl" || line.other->unit == "l") &&
      unit_kind(line.measure->unit) != UnitKind::mass && !line.measure->content &&
      line.measure->unit != "ml" && line.measure->unit != "cl" && line.measure->unit != "l") {
    const auto better =
        weigh_measure(*line.other, *line.ingredient, packing, size, places, lexicons);
    grams = better ? better : grams;
  }
  if (!grams) {
    line.doubts.push_back({line.line.text, "this amount of " + line.ingredient->name +
                                               " cannot be weighed: weigh it and say grams"});
    return;
  }
  for (const FoundMeasure& sum : line.sums) {
    FoundMeasure positive = sum;
    const double sign = sum.number->low < 0.0 ? -1.0 : 1.0;
    positive.number = Range{std::fabs(sum.number->low), std::fabs(sum.number->high)};
    if (const auto more =
            weigh_measure(positive, *line.ingredient, packing, size, places, lexicons)) {
      grams = summed(*grams, *more, sign);
    }
  }
  if (set_weight(line, *grams)) {
    doubt_disagreement(line, *grams, places, lexicons);
    doubt_vessel(line, places, *lexicons.pantry);
  }
}

bool is_flour(const DraftLine& line) {
  return line.ingredient != nullptr && (line.ingredient->kind == IngredientKind::flour ||
                                        line.ingredient->flour.absorption_pct > 0.0);
}

/// Baker's percentages become grams through the flour's weight or the dough's.
void weigh_percentages(Draft& draft) {
  double flour_pct = 0.0;
  double all_pct = 0.0;
  double flour_grams = 0.0;
  std::vector<DraftLine*> lines;
  for (DraftPart& part : draft.parts) {
    for (DraftLine& line : part.lines) {
      if (line.measure && line.measure->unit == "percent" && line.measure->number) {
        const double pct = line.measure->middle();
        all_pct += pct;
        flour_pct += is_flour(line) ? pct : 0.0;
        lines.push_back(&line);
      } else if (is_flour(line) && line.line.weighed) {
        flour_grams += line.line.grams.p50();
      }
    }
  }
  if (lines.empty() || all_pct <= 0.0) {
    return;
  }
  double per_pct = flour_grams / 100.0;
  bool assumed = false;
  if (flour_pct > 0.0) {
    double total = draft.total_grams.value_or(0.0);
    if (draft.pieces && draft.piece_grams) {
      total = total > 0.0 ? total : draft.pieces->middle() * *draft.piece_grams;
    }
    assumed = total <= 0.0;
    per_pct = assumed ? 500.0 / flour_pct : total / all_pct;
  }
  for (DraftLine* line : lines) {
    if (per_pct > 0.0) {
      set_weight(*line, point(line->measure->middle() * per_pct));
    }
  }
  if (assumed) {
    draft.doubts.push_back({"%",
                            "only percentages are given: 500 g of flour was taken; say the "
                            "weight of the flour or of the dough"});
  }
}

/// A line that is another part weighs what its lines weigh, when no amount was said.
void weigh_part_lines(Draft& draft, const std::vector<PlaceShare>&) {
  for (DraftPart& part : draft.parts) {
    for (DraftLine& line : part.lines) {
      if (line.line.part.empty()) {
        continue;
      }
      if (line.measure && grams_in(line.measure->unit) > 0.0) {
        set_weight(line, amount_of(*line.measure).scaled(grams_in(line.measure->unit)));
        continue;
      }
      for (const DraftPart& other : draft.parts) {
        if (other.name != line.line.part) {
          continue;
        }
        Distribution total = point(0.0);
        for (const DraftLine& one : other.lines) {
          total = one.line.weighed ? summed(total, one.line.grams, 1.0) : total;
        }
        if (total.p50() > 0.0) {
          set_weight(line, total);
        }
      }
    }
  }
}

}  // namespace

std::optional<Distribution> weigh_measure(const FoundMeasure& measure, const Ingredient& ingredient,
                                          std::string_view packing, std::string_view size,
                                          const std::vector<PlaceShare>& places,
                                          const Lexicons& lexicons) {
  Mixture all;
  for (const PlaceShare& place : places) {
    if (const auto grams = weigh_at(measure, ingredient, packing, size, place.locale, lexicons)) {
      all.emplace_back(place.probability, *grams);
    }
    if (grams_in(measure.unit) > 0.0) {
      break;  // a gram is a gram everywhere
    }
  }
  return all.empty() ? std::nullopt : std::optional(mixed(all));
}

void weigh_draft(Draft& draft, const std::vector<PlaceShare>& places, const Lexicons& lexicons) {
  const DraftLine* before = nullptr;
  for (DraftPart& part : draft.parts) {
    for (std::size_t i = 0; i < part.lines.size(); ++i) {
      DraftLine& line = part.lines[i];
      if (line.same_as_before && before != nullptr && !line.measure) {
        line.measure = before->measure;
        line.line.found = before->line.found;
      }
      weigh_line(line, places, lexicons);
      weigh_made_up(part.lines, i);
      before = &line;
    }
  }
  weigh_percentages(draft);
  weigh_part_lines(draft, places);
}

}  // namespace maslin::reading
