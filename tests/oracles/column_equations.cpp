#include "column_equations.h"

#include <cmath>

namespace maslin {

ColumnEquations::ColumnEquations(const CellColumn& column, const ColumnFigures& figures)
    : column_(column),
      figures_(figures),
      logs_(column.count),
      physics_(column.count),
      rate_(column.count) {
  state_.temperature.resize(column.count);
  state_.water.resize(column.count);
}

void ColumnEquations::surround(const Surroundings& around, double volume_ratio) {
  around_ = around;
  reach_scale_ = std::pow(volume_ratio, figures_.spring_conductance[0]);
  area_scale_ = std::pow(volume_ratio, figures_.spring_area[0]);
}

const ColumnState& ColumnEquations::state_of(const double* nodes) {
  for (std::size_t i = 0; i < column_.count; ++i) {
    state_.temperature[i] = nodes[2 * i];
    state_.water[i] = nodes[2 * i + 1];
  }
  return state_;
}

const std::vector<Pair>& ColumnEquations::rates(const double* nodes) {
  state_of(nodes);
  const Stage stage{column_, {figures_, around_}, reach_scale_, area_scale_};
  const NodesOf<Lanes> all{state_.temperature.data(), state_.water.data()};
  inner_rates(stage, all, {logs_.data(), physics_.data()}, rate_.data());
  add_surfaces(surface_fluxes(stage, all, physics_.data()), column_.last, rate_.data());
  return rate_;
}

ColumnEquations::Capacity ColumnEquations::capacity(const double* nodes, std::size_t node) const {
  if (node == 0) {
    return {column_.base_area_m2[0] * figures_.plate_heat[0], 0.0, 1.0};
  }
  const double solids = column_.solids_kg[node][0];
  return {solids * (figures_.solids_heat[0] + k_liquid_heat_j_per_kg_k * nodes[2 * node + 1]),
          solids * k_liquid_heat_j_per_kg_k * (nodes[2 * node] - k_zero_celsius_k), solids};
}

void ColumnEquations::start_from(const ColumnState& start, double* nodes) const {
  for (std::size_t i = 0; i < column_.count; ++i) {
    nodes[2 * i] = start.temperature[i][0];
    nodes[2 * i + 1] = start.water[i][0];
  }
}

}  // namespace maslin
