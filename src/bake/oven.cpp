#include "bake/oven.h"

#include <optional>

#include "bake/embedded_table.h"
#include "quantity/table.h"

namespace maslin {
namespace {

std::optional<OvenFigures> oven_figures_of(std::string_view kind) {
  const Table table(bake_tables::embedded_table("oven_kinds.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.cell(row, "kind") != kind) {
      continue;
    }
    OvenFigures out;
    out.convection_w_per_m2_k = table.number(row, "convection");
    out.radiation = table.number(row, "radiation");
    out.top_above_set_k = table.number(row, "top_k");
    out.base_above_set_k = table.number(row, "base_k");
    out.vapour_pa = table.number(row, "vapour_pa");
    out.drop_k = table.number(row, "drop_k");
    out.recovery_minutes = table.number(row, "recovery");
    out.warm_up_minutes = table.number(row, "warm_up");
    out.fall_minutes = table.number(row, "fall");
    out.trapped_share = table.number(row, "trapped");
    return out;
  }
  return std::nullopt;
}

BakewareFigures bakeware_figures_of(std::string_view name) {
  const Table table(bake_tables::embedded_table("bakeware.tsv"));
  BakewareFigures out;
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.cell(row, "name") != name) {
      continue;
    }
    out.emissivity = table.number(row, "emissivity");
    out.heat_j_per_m2_k = table.number(row, "heat");
    out.contact_w_per_m2_k = table.number(row, "contact");
    out.vent = table.number(row, "vent");
    out.preheated = table.cell(row, "preheated") == "yes";
  }
  return out;
}

bool within(const Lanes& x, double low, double high) {
  // A lane that is no number fails both comparisons.
  return all((x >= Lanes(low)) & (x <= Lanes(high)));
}

}  // namespace

Oven oven_of(OvenKind kind, const Lanes& set_point_k, std::string_view bakeware) {
  Oven oven;
  oven.kind = kind;
  oven.figures = oven_figures_of(oven_kind_name(kind)).value_or(OvenFigures{});
  oven.bakeware = bakeware_figures_of(bakeware);
  oven.phases.front().set_point_k = set_point_k;
  return oven;
}

std::string_view oven_problem(const Oven& oven) {
  if (oven.phases.empty()) {
    return "The oven has no temperature: give it one.";
  }
  double last = 0.0;
  for (const OvenPhase& phase : oven.phases) {
    if (!within(phase.set_point_k, 273.15, 973.15)) {
      return "The oven's temperature is outside 0 to 700 degrees Celsius: give one inside.";
    }
    if (!(phase.from_minute >= last) || !(phase.from_minute <= 1e5)) {
      return "The oven's changes are not in order of time: put them so.";
    }
    if (!(phase.steam_pa >= 0.0) || !(phase.steam_pa <= 2e5)) {
      return "The steam is outside 0 to 200 kPa: give less.";
    }
    if (!(phase.shade >= 0.0) || !(phase.shade <= 1.0)) {
      return "The share of radiation that reaches the piece is outside 0 to 1: give one inside.";
    }
    last = phase.from_minute;
  }
  if (!within(oven.pressure_pa, 3e4, 1.1e5)) {
    return "The air pressure is outside 30 to 110 kPa: give an altitude below 9000 m.";
  }
  if (!within(oven.room_k, 223.15, 333.15)) {
    return "The room is outside -50 to 60 degrees Celsius: give its temperature.";
  }
  return {};
}

}  // namespace maslin
