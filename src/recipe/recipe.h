// recipe: the words of the trade as values. A recipe has parts, a part has lines
// and steps, a line is an ingredient or another part; parts form a graph without
// rings. Recipes go to JSON and to ordinary recipe text, and come back the same.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/distribution.h"

namespace maslin {

enum class PartKind : std::uint8_t {
  dough,
  preferment,
  soaker,
  extract,
  filling,
  topping,
  wash,
  glaze
};
std::string_view part_kind_name(PartKind kind);
std::optional<PartKind> part_kind_from(std::string_view name);

enum class StepKind : std::uint8_t {
  mix,
  rest,
  knead,
  fold,
  prove,
  divide,
  shape,
  fill,
  bake,
  steam,
  fry,
  cool,
  soak,
  strain,
  boil,
  finish
};
std::string_view step_kind_name(StepKind kind);
std::optional<StepKind> step_kind_from(std::string_view name);

/// A stated range, low == high when one number was given. Units by the owner.
struct Range {
  double low = 0.0;
  double high = 0.0;
  bool operator==(const Range&) const = default;
  double middle() const { return 0.5 * (low + high); }
};

/// The amount as found: "1 1/2 cups" is {1.5, 1.5, "cup"}; "salt" has no numbers.
struct FoundAmount {
  std::optional<Range> number;
  std::string unit;     // as in the list of kitchen units, singular English; or empty
  std::string size;     // small, medium, large, extra_large, jumbo; or empty
  std::string packing;  // level, sifted, scooped, packed, heaped, chopped, ...; or empty
  bool operator==(const FoundAmount&) const = default;
};

struct Line {
  std::string text;           // as found, whole
  std::string name;           // the ingredient's name as found
  std::string ingredient_id;  // pantry id; empty when not known
  std::string part;           // name of another part when the line is that part; else empty
  FoundAmount found;
  Distribution grams;  // of the edible part; point(0) with `weighed` false when unknown
  bool weighed = false;
  std::string note;  // what was said of it: "melted", "plus extra for dusting"
  bool operator==(const Line&) const = default;
};

/// Where a prove, bake, knead, ... is to stop. Empty fields were not stated.
struct Step {
  StepKind kind = StepKind::mix;
  std::string text;              // as found
  std::optional<Range> minutes;  // how long
  std::optional<Range> celsius;  // oven, room or water, conventional oven scale
  std::optional<Range> pieces;   // divide: how many
  std::optional<double> piece_grams;
  std::string until;  // "doubled", "core 94 C", "golden"
  std::string place;  // where it stands: "warm", "cold", "frozen"; empty = the room
  bool fan = false;   // the temperature was given for a fan oven (celsius is converted)
  bool operator==(const Step&) const = default;
};

struct Part {
  PartKind kind = PartKind::dough;
  std::string name;  // unique in the recipe: "dough", "filling", "orange syrup"
  std::vector<Line> lines;
  std::vector<Step> steps;
  /// Share of the part's mass that goes on (an extract strained: 0.6). Point 1 by default.
  Distribution yield = point(1.0);
  bool operator==(const Part&) const = default;
};

/// Something the reader was not sure of, with the words it is about.
struct Doubt {
  std::string text;
  std::string why;
  bool operator==(const Doubt&) const = default;
};

/// A tin or tray as stated or owned; zero = not stated.
struct Tin {
  std::string kind;  // tray, loaf, ring, round, muffin, free
  double length_mm = 0.0;
  double width_mm = 0.0;
  double depth_mm = 0.0;
  double diameter_mm = 0.0;
  std::string material;
  std::string colour;
  bool operator==(const Tin&) const = default;
};

struct Recipe {
  std::string title;
  std::string found_at;  // address or file it came from
  std::string locale;    // whose measures: us, uk, au, eu, old_uk, ...
  double locale_probability = 1.0;
  std::vector<Part> parts;
  std::optional<Range> pieces;  // yield
  std::optional<Tin> tin;
  std::vector<std::string> remarks;  // lines that are neither ingredient nor step; nothing is lost
  std::vector<Doubt> doubts;
  bool operator==(const Recipe&) const = default;

  const Part* part_named(std::string_view name) const;
  /// The dough: the first part of that kind, else the first part; null when empty.
  const Part* dough() const;
};

/// Indices of parts ordered so that a part comes after the parts its lines use;
/// nothing when the parts go round in a ring.
std::optional<std::vector<std::size_t>> parts_in_order(const Recipe& recipe);

}  // namespace maslin
