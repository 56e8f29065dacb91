// finish: what goes on and into a piece after the dough, and how long it keeps.
//
// Glazes, syrups, fillings and soaked fruit from what they are made of; cooling of the
// piece; water activity, mould, staling, weeping. One function answers for a recipe:
// finish_parts. It works on one block of draws (lanes) and is called once for each.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "finish/cooling.h"
#include "finish/filling.h"
#include "finish/tables.h"
#include "finish/unknowns.h"
#include "properties/portion.h"
#include "recipe/recipe.h"
#include "recipe/recipe_json.h"

namespace maslin {

/// A part of the recipe as finish sees it.
struct FinishPart {
  std::string name;
  PartKind kind = PartKind::glaze;
  Portions portions;  // g of the whole batch, parts it uses poured in
  FillingPlace place = FillingPlace::rolled;
  std::optional<Lanes> soak_hours;  // soakers: how long, at what temperature
  std::optional<Lanes> soak_celsius;
  bool boiled = false;  // it has a boil step: a syrup, jam, curd; 1 - yield of it is steam
  bool baked = false;   // it goes through the oven
  Lanes yield = 1.0;    // share of its mass that goes on
};

enum class CoolingPlace { rack, tray, fan };

/// The piece as it leaves the oven, and what the dough forecast knows of it.
struct BakedPiece {
  Lanes grams = 80.0;  // of one piece, baked
  Lanes count = 12.0;
  Lanes core_celsius = 96.0;
  Lanes dough_loss = 0.11;                  // share of the dough's mass baked away
  CoolingShape shape = CoolingShape::ball;  // slab: pieces that touch, tin loaves
  CoolingPlace place = CoolingPlace::rack;
  Lanes effective_hydration = 65.0;  // % on flour, as dough/ has it
  Lanes proof_ratio = 1.8;
  Lanes scalded_share = 0.0;  // of the flour
};

/// A figure of the forecast. The name carries the unit; chance_... is 0 or 1 in a lane, so
/// that its mean over draws is the chance; infinite means never.
struct FinishFigure {
  std::string_view name;
  Lanes value;
};

/// One thing that was worked out: a glaze, a syrup, a filling, a soak, the cooling, the
/// keeping of a part. The figures and their order depend on what the recipe holds and not
/// on the draws, so blocks line up.
struct FinishEntry {
  std::string_view what;  // glaze, coating, wash, syrup, filling, soak, fruit_in_dough, cooling,
                          // keeping, staling
  std::string part;       // the part's name; empty for the whole piece
  std::vector<FinishFigure> figures;
  /// Index into FinishTables::terms, for glazes.
  std::optional<Lanes> term;
  std::optional<Lanes> term_on_warm_piece;
};

/// A caution of data/cautions.tsv; applies in the lanes that are 1.
struct FinishCaution {
  std::string_view id;
  std::string part;
  std::string text;
  std::string_view source;
  Lanes applies = 1.0;
};

struct FinishForecast {
  std::vector<FinishEntry> entries;
  std::vector<FinishCaution> cautions;
  std::vector<Problem> problems;
  /// Where a model is used outside what it was made for: one sentence each.
  std::vector<std::string> outside;

  const FinishEntry* entry(std::string_view what, std::string_view part) const;
};
const FinishFigure* figure(const FinishEntry& entry, std::string_view name);

/// Finishes and keeping of a recipe over one block of draws. `parts` holds every part, the
/// dough too. Impossible input (no liquid in a glaze, a negative temperature, humidity over
/// 100 %) makes a problem and leaves out what cannot be worked out; nothing is thrown.
FinishForecast finish_parts(const FinishTables& tables, const std::vector<FinishPart>& parts,
                            const BakedPiece& piece, const FinishUnknowns& unknowns);

}  // namespace maslin
