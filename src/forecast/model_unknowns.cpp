#include "forecast/model_unknowns.h"

#include <array>

#include "forecast/embedded_table.h"
#include "quantity/table.h"

namespace maslin {
namespace {

template <typename Model>
struct Place {
  std::string_view name;
  Lanes Model::* value;
};

constexpr std::array<Place<KitchenDraws>, 8> k_kitchen{{
    {"room_celsius", &KitchenDraws::room_celsius},
    {"warm_place_above_room", &KitchenDraws::warm_place_above_room},
    {"warm_liquid_celsius", &KitchenDraws::warm_liquid_celsius},
    {"mixing_temperature_error", &KitchenDraws::mixing_temperature_error},
    {"fridge_celsius", &KitchenDraws::fridge_celsius},
    {"bake_pace", &KitchenDraws::bake_pace},
    {"done_core_k", &KitchenDraws::done_core_k},
    {"yeast_alive", &KitchenDraws::yeast_alive},
}};
constexpr std::array<Place<RiseUnknowns>, 10> k_rise{{
    {"yeast_vigour", &RiseUnknowns::yeast_vigour},
    {"flour_sugar", &RiseUnknowns::flour_sugar},
    {"retention", &RiseUnknowns::retention},
    {"inversion", &RiseUnknowns::inversion},
    {"tolerance", &RiseUnknowns::tolerance},
    {"waking", &RiseUnknowns::waking},
    {"mixed_air", &RiseUnknowns::mixed_air},
    {"heat_transfer", &RiseUnknowns::heat_transfer},
    {"gas_kept", &RiseUnknowns::gas_kept},
    {"eye", &RiseUnknowns::eye},
}};
constexpr std::array<Place<BakeUnknowns>, 8> k_bake{{
    {"oven_offset_k", &BakeUnknowns::oven_offset_k},
    {"convection_factor", &BakeUnknowns::convection_factor},
    {"radiation_factor", &BakeUnknowns::radiation_factor},
    {"conductivity_factor", &BakeUnknowns::conductivity_factor},
    {"evaporation_factor", &BakeUnknowns::evaporation_factor},
    {"browning_factor", &BakeUnknowns::browning_factor},
    {"mass_factor", &BakeUnknowns::mass_factor},
    {"spring_factor", &BakeUnknowns::spring_factor},
}};

Distribution prior_of(const Table& table, std::size_t row) {
  const double a = table.number(row, "a");
  const double b = table.number(row, "b");
  const Shape shape = shape_from(table.cell(row, "shape"));
  return shape == Shape::lognormal ? lognormal(a, b)
         : shape == Shape::uniform ? uniform(a, b)
                                   : normal(a, b);
}

/// What the kitchen's description says of an unknown.
Distribution told(const Kitchen& kitchen, std::string_view name, const Distribution& otherwise) {
  if (name == "room_celsius" && kitchen.room_celsius) {
    return normal(*kitchen.room_celsius, 1.0);
  }
  if (name == "oven_offset_k" && kitchen.oven_offset_celsius) {
    return normal(*kitchen.oven_offset_celsius, 4.0);
  }
  if (name == "mass_factor" && kitchen.scale) {
    return normal(1.0, 0.02);
  }
  return otherwise;
}

template <typename Model, std::size_t N>
void add_group(std::string_view group, const std::array<Place<Model>, N>& places,
               const Table& table, const Kitchen& kitchen, std::vector<Unknown>& out) {
  for (const Place<Model>& place : places) {
    for (std::size_t row = 0; row < table.size(); ++row) {
      if (table.cell(row, "group") == group && table.cell(row, "name") == place.name) {
        out.push_back({std::string(place.name),
                       std::string(table.cell(row, "words")),
                       std::string(table.cell(row, "measure")),
                       std::string(table.cell(row, "unit")),
                       told(kitchen, place.name, prior_of(table, row)),
                       table.cell(row, "lasts") != "draw",
                       std::string(table.cell(row, "source")),
                       std::string(table.cell(row, "lasts")),
                       table.number(row, "day"),
                       {},
                       table.number(row, "bake_log")});
      }
    }
  }
}

template <typename Model, std::size_t N>
std::size_t put(const std::array<Place<Model>, N>& places, const BatchDraws& draws, std::size_t at,
                Model& model) {
  for (const Place<Model>& place : places) {
    model.*(place.value) = draws[at++];
  }
  return at;
}

}  // namespace

std::vector<Unknown> model_unknowns(const Kitchen& kitchen, const Models& models) {
  const Table table(forecast_data::embedded_table("forecast_unknowns.tsv"));
  std::vector<Unknown> out;
  add_group("kitchen", k_kitchen, table, kitchen, out);
  add_group("rise", k_rise, table, kitchen, out);
  add_group("bake", k_bake, table, kitchen, out);
  for (const DoughUnknown& one : models.dough.unknowns) {
    Unknown unknown{std::string(one.name),
                    std::string(one.name),
                    "",
                    std::string(one.unit),
                    one.prior,
                    one.lasts != UnknownLasts::draw,
                    std::string(one.source)};
    for (std::size_t row = 0; row < table.size(); ++row) {
      if (table.cell(row, "group") == "dough" && table.cell(row, "name") == one.name) {
        unknown.words = table.cell(row, "words");
        unknown.measure = table.cell(row, "measure");
        unknown.belongs = table.cell(row, "lasts");
        unknown.day = table.number(row, "day");
      }
    }
    out.push_back(std::move(unknown));
  }
  for (const FinishUnknownRow& one : models.finish_unknowns) {
    out.push_back({"finish/" + one.name, one.words, one.measure, one.unit,
                   one.name == "humidity_pct" && kitchen.humidity_pct
                       ? normal(*kitchen.humidity_pct, 4.0)
                       : one.distribution,
                   one.lasts, one.source});
  }
  return out;
}

ModelDraws model_draws(const Models& models, const Kitchen& kitchen, const BatchDraws& draws,
                       std::size_t first) {
  ModelDraws out;
  std::size_t at = put(k_kitchen, draws, first, out.kitchen);
  at = put(k_rise, draws, at, out.rise);
  at = put(k_bake, draws, at, out.bake);
  for (const DoughUnknown& one : models.dough.unknowns) {
    out.dough.*(one.value) = draws[at++];
  }
  for (const FinishUnknownRow& one : models.finish_unknowns) {
    out.finish.*(one.place) = draws[at++];
  }
  // Heat that comes faster by every way: the same bake in less time, its colour with it.
  for (Lanes BakeUnknowns::* way :
       {&BakeUnknowns::convection_factor, &BakeUnknowns::radiation_factor,
        &BakeUnknowns::conductivity_factor, &BakeUnknowns::browning_factor}) {
    out.bake.*way *= out.kitchen.bake_pace;
  }
  // A dead packet still holds a few living cells.
  constexpr double k_dead_vigour = 0.01;
  out.rise.yeast_vigour *= select(out.kitchen.yeast_alive < 0.0, k_dead_vigour, 1.0);
  // One room, one fridge, one height for all models.
  out.finish.room_celsius = out.kitchen.room_celsius;
  out.finish.fridge_celsius = out.kitchen.fridge_celsius;
  out.finish.altitude_m = kitchen.altitude_m.value_or(0.0);
  out.finish.humidity_pct = clamp(out.finish.humidity_pct, 5.0, 98.0);
  return out;
}

}  // namespace maslin
