// What is wanted of a recipe, and what is to stay, from a baker's short words.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "dough/feel.h"

namespace maslin {

enum class WantKind : std::uint8_t {
  feel,
  effective_hydration,
  water_pct_flour,
  sugar_pct_flour,
  fat_pct_flour,
  salt_pct_flour,
  egg_pct_flour,
  yeast_pct_flour,
  total_grams,
  pieces,
  piece_grams,
  scale,
  fill,
  cost,
  prove_minutes,
  no_egg,
  no_dairy,
  paste,
  swap
};

/// A bound that binds nothing.
inline constexpr double k_want_no_limit = 1e9;

struct Want {
  std::string text;  // as given
  WantKind kind = WantKind::feel;
  double low = 0.0;
  double high = 0.0;
  double times = 0.0;         // the figure as it stands, so many times; 0 = low and high hold
  bool each = false;          // of a cost: low and high are of one piece
  double feel_classes = 0.0;  // the feel so many classes softer (+) or stiffer (-)
  std::string from;           // swap: the ingredient's name or id that goes; scale: that of which
                              // low is the grams there are
                              // empty = what the recipe has of the kind of `to`
  std::string to;             // and what stands in for it; empty = the table's first
  double share = 1.0;         // swap: of what goes, by weight
};

/// A want, or the sentence that says what it should have been.
struct ParsedWant {
  std::optional<Want> want;
  std::string problem;
};

/// "feel=soft", "sugar_pct_flour<=20", "total_grams=900", "effective_hydration=60..64",
/// "pieces=12", "piece_grams=75", "scale=2", "fill=right", "cost<=3", "prove_minutes<=60",
/// "no_egg", "no_dairy", "paste=6" (so much of the flour cooked to a paste, %), "swap
/// whole_milk=oat_milk". "<" means "<=".
ParsedWant parse_want(std::string_view text);

/// Sets the bounds to the middle half of a feel's class, of at most 20 points, so that the
/// bag's own thirst does not carry the dough out of it.
void aim_at_feel(Want& want, DoughFeel feel);

/// Resolves `feel_classes` from a dough's feel score: whole classes to the middle of that
/// class, a fraction by so much of the class's width.
void move_feel(Want& want, double score);

/// What stays as it is: a line by ingredient, kind ("eggs", "flour") or name; with a number,
/// so many pieces or packets ("orange=3") or grams ("flour=500g").
struct Hold {
  std::string text;
  std::string what;
  std::optional<double> count;
  std::optional<double> grams;
};
Hold parse_hold(std::string_view text);

}  // namespace maslin
