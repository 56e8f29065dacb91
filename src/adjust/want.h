// What is wanted of a recipe, and what is to stay, from a baker's short words.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

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
  swap
};

struct Want {
  std::string text;  // as given
  WantKind kind = WantKind::feel;
  double low = 0.0;
  double high = 0.0;
  std::string from;  // swap: the ingredient's name or id that goes
  std::string to;    // and what stands in for it; empty = the table's first
};

/// A want, or the sentence that says what it should have been.
struct ParsedWant {
  std::optional<Want> want;
  std::string problem;
};

/// "feel=soft", "sugar_pct_flour<=20", "total_grams=900", "effective_hydration=60..64",
/// "pieces=12", "piece_grams=75", "scale=2", "fill=right", "cost<=3", "prove_minutes<=60",
/// "no_egg", "no_dairy", "swap whole_milk=oat_milk". "<" means "<=".
ParsedWant parse_want(std::string_view text);

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
