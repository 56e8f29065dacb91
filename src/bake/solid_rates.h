// Rates of a solid and the matrix that goes with them. In a header because the stepper
// must see it whole.
#pragma once

#include "bake/column_flux.h"
#include "bake/solid.h"

namespace maslin {

inline CellPhysics next_lane(const CellPhysics& p) {
  return {next_lane(p.conductivity), next_lane(p.vapour),      next_lane(p.potential),
          next_lane(p.potential_t),  next_lane(p.potential_x), next_lane(p.conductivity_x),
          next_lane(p.vapour_t),     next_lane(p.vapour_x)};
}

struct SolidStage {
  const SolidGrid& grid;
  Meeting meeting;
  const SolidScale& scale;
};

enum class Want { rates, rates_and_matrix };

inline void take(Pair& rate, const FaceFlux& f) {
  rate.a -= f.heat;
  rate.b -= f.water;
}
inline void give(Pair& rate, const Lanes& heat, const Lanes& water) {
  rate.a += heat;
  rate.b += water;
}
inline Block by_first(double scale, const FaceFlux& f) {
  return {scale * f.heat_t0, scale * f.heat_x0, scale * f.water_t0, scale * f.water_x0};
}
inline Block by_second(double scale, const FaceFlux& f) {
  return {scale * f.heat_t1, scale * f.heat_x1, scale * f.water_t1, scale * f.water_x1};
}
inline void add(Block& to, const Block& what, double sign) {
  to.aa += sign * what.aa;
  to.ab += sign * what.ab;
  to.ba += sign * what.ba;
  to.bb += sign * what.bb;
}
/// Outer wall of a tin and the contact behind it, into a side cell: no heat of its own.
inline FaceFlux tin_flux(const Meeting& s, const Lanes& area, const Lanes& reach,
                         const CellPhysics& p, const Lanes& t) {
  const CellFigures<Lanes>& g = s.figures;
  const Lanes contact = area * g.plate_contact;
  const Lanes inner = reach * p.conductivity;
  const Lanes conduct = contact * inner / max(contact + inner, 1e-300);
  const Lanes sigma = k_stefan_boltzmann * g.plate_radiation;
  const Lanes floor2 = s.around.floor_k * s.around.floor_k;
  Lanes wall = t, slope = 0.0;
  for (int pass = 0; pass < 2; ++pass) {
    const Lanes square = wall * wall;
    const Lanes gain =
        g.plate_convection * (s.around.air_k - wall) +
        sigma * (floor2 + square) * (s.around.floor_k + wall) * (s.around.floor_k - wall);
    slope = area * (g.plate_convection + 4.0 * sigma * square * wall);
    wall += (area * gain - conduct * (wall - t)) / max(slope + conduct, 1e-300);
  }
  FaceFlux f = vent_flux(s, area, reach, p, t);
  f.heat += conduct * (wall - t);
  f.heat_t0 -= conduct * slope / max(slope + conduct, 1e-300);
  return f;
}

inline void add_surface(FaceFlux& to, const FaceFlux& f) {
  to.heat += f.heat;
  to.water += f.water;
  to.heat_t0 += f.heat_t0;
  to.heat_x0 += f.heat_x0;
  to.water_t0 += f.water_t0;
  to.water_x0 += f.water_x0;
}

inline void side_surfaces(const SolidStage& s, const SolidSide& side, const SolidState& state,
                          SolidRoom& room, std::size_t at) {
  const Lanes open = side.open_m2[at] * s.scale.area_side;
  const Lanes tin = side.tin_m2[at] * s.scale.area_side;
  const Lanes both = open + tin;
  if (!any(both > Lanes(0.0))) {
    return;
  }
  const Lanes reach = side.reach_m[at] * s.scale.reach_side / max(both, 1e-300);
  Lanes unused;
  add_surface(room.surface[at], open_flux(s.meeting, open, reach * open, room.physics[at],
                                          state.temperature[at], unused));
  add_surface(room.surface[at],
              tin_flux(s.meeting, tin, reach * tin, room.physics[at], state.temperature[at]));
}

/// Columns of a slab.
struct SlabColumns {
  SlabColumns(const SolidGrid& g, std::size_t slab)
      : from(g.shape().slab_from(slab) * g.groups), to(g.shape().slab_from(slab + 1) * g.groups) {}
  std::size_t from, to;
};

/// What enters every node of a slab from outside, into room.surface.
inline void solid_surfaces(const SolidStage& s, const SolidState& state, SolidRoom& room,
                           std::size_t slab) {
  const SolidGrid& g = s.grid;
  const SlabColumns columns(g, slab);
  for (std::size_t column = columns.from; column < columns.to; ++column) {
    const Lanes foot = g.foot_m2[column] * s.scale.area_up;
    for (std::size_t k = 0; k <= g.up; ++k) {
      const std::size_t at = g.node(column, k);
      room.surface[at] = FaceFlux{};
      if (k > 0 && column % g.groups == g.groups - 1) {
        side_surfaces(s, g.side, state, room, at);
      }
      if (k > 0 && g.along > 1 && column / g.groups == g.along - 1) {
        side_surfaces(s, g.end, state, room, at);
      }
    }
    const std::size_t plate = g.node(column, 0), first = g.node(column, 1),
                      top = g.node(column, g.up);
    add_surface(room.surface[plate], plate_flux(s.meeting, foot, state.temperature[plate]));
    add_surface(room.surface[first], vent_flux(s.meeting, foot, g.reach_z[plate] * s.scale.reach_up,
                                               room.physics[first], state.temperature[first]));
    // Slanted: a larger area over a shorter way.
    const Lanes top_area = g.top_m2[column] * s.scale.area_up;
    const Lanes slant = g.top_m2[column] / g.foot_m2[column];
    Lanes unused;
    add_surface(room.surface[top],
                open_flux(s.meeting, top_area, slant * slant * g.reach_z[top] * s.scale.reach_up,
                          room.physics[top], state.temperature[top], unused));
  }
}

template <Want want>
void faces_up(const SolidStage& s, const SolidState& state, double gamma_h, SolidRoom& room,
              std::size_t column) {
  const SolidGrid& g = s.grid;
  for (std::size_t k = 0; k < g.up; ++k) {
    const std::size_t at = g.node(column, k);
    const Lanes reach = g.reach_z[at] * s.scale.reach_up;
    const FaceFlux f =
        k == 0
            ? contact_flux(s.meeting.figures, g.foot_m2[column] * s.scale.area_up, reach,
                           room.physics[at + 1], state.temperature[at], state.temperature[at + 1])
            : inner_flux(s.meeting.figures, reach, room.physics[at], state.temperature[at],
                         state.water[at], room.physics[at + 1], state.temperature[at + 1],
                         state.water[at + 1]);
    take(room.inner[at], f);
    give(room.inner[at + 1], f.heat, f.water);
    if constexpr (want == Want::rates_and_matrix) {
      const Block first = by_first(gamma_h, f), second = by_second(gamma_h, f);
      add(room.matrix.diagonal[at], first, 1.0);
      add(room.matrix.diagonal[at + 1], second, -1.0);
      room.matrix.z_up[at] = second;
      room.matrix.z_low[at + 1] = {-first.aa, -first.ab, -first.ba, -first.bb};
    }
  }
}

/// Faces to the next cell across; at the seam that is the first group, one lane on.
template <Want want>
void faces_across(const SolidStage& s, const SolidState& state, double gamma_h, SolidRoom& room,
                  std::size_t column) {
  const SolidGrid& g = s.grid;
  const bool seam = column % g.groups == g.groups - 1;
  const std::size_t other = seam ? column + 1 - g.groups : column + 1;
  for (std::size_t k = 1; k <= g.up; ++k) {
    const std::size_t at = g.node(column, k), to = g.node(other, k);
    const Lanes reach = g.reach_x[at] * s.scale.reach_side;
    const Lanes t = seam ? next_lane(state.temperature[to]) : state.temperature[to];
    const Lanes x = seam ? next_lane(state.water[to]) : state.water[to];
    const CellPhysics p = seam ? next_lane(room.physics[to]) : room.physics[to];
    const FaceFlux f = inner_flux(s.meeting.figures, reach, room.physics[at], state.temperature[at],
                                  state.water[at], p, t, x);
    take(room.inner[at], f);
    give(room.inner[to], seam ? lane_before(f.heat) : f.heat,
         seam ? lane_before(f.water) : f.water);
    if constexpr (want == Want::rates_and_matrix) {
      const Block first = by_first(gamma_h, f), second = by_second(gamma_h, f);
      add(room.matrix.diagonal[at], first, 1.0);
      add(room.matrix.diagonal[to], seam ? lane_before(second) : second, -1.0);
      room.matrix.x_up[at] = second;
      room.matrix.x_low[at] = {-first.aa, -first.ab, -first.ba, -first.bb};
    }
  }
}

template <Want want>
void faces_along(const SolidStage& s, const SolidState& state, double gamma_h, SolidRoom& room,
                 std::size_t column) {
  const SolidGrid& g = s.grid;
  const std::size_t other = column + g.groups;
  if (other >= g.columns()) {
    return;
  }
  for (std::size_t k = 1; k <= g.up; ++k) {
    const std::size_t at = g.node(column, k), to = g.node(other, k);
    const FaceFlux f = inner_flux(s.meeting.figures, g.reach_y[at] * s.scale.reach_side,
                                  room.physics[at], state.temperature[at], state.water[at],
                                  room.physics[to], state.temperature[to], state.water[to]);
    take(room.inner[at], f);
    give(room.inner[to], f.heat, f.water);
    if constexpr (want == Want::rates_and_matrix) {
      const Block first = by_first(gamma_h, f), second = by_second(gamma_h, f);
      add(room.matrix.diagonal[at], first, 1.0);
      add(room.matrix.diagonal[to], second, -1.0);
      room.matrix.y_up[at] = second;
      room.matrix.y_low[at] = {-first.aa, -first.ab, -first.ba, -first.bb};
    }
  }
}

/// Physics, rates between nodes into room.inner, surfaces into room.surface, and if
/// wanted the matrix  mass - gamma h d(rate)/d(state); of a slab, its faces to the next slab
/// left to `seam_faces`.
template <Want want>
void solid_rates(const SolidStage& s, const SolidState& state, double gamma_h, SolidRoom& room,
                 std::size_t slab) {
  const SolidGrid& g = s.grid;
  const CellFigures<Lanes>& f = s.meeting.figures;
  const SlabColumns columns(g, slab);
  for (std::size_t column = columns.from; column < columns.to; ++column) {
    for (std::size_t k = 0; k <= g.up; ++k) {
      const std::size_t at = g.node(column, k);
      room.inner[at] = {0.0, 0.0};
      if (k > 0) {
        room.physics[at] = cell_physics(f, state.temperature[at], state.water[at]);
      }
      if constexpr (want == Want::rates_and_matrix) {
        const Lanes& solids = g.solids_kg[at];
        room.mass[at] =
            k == 0 ? Pair{g.foot_m2[column] * f.plate_heat, 0.0}
                   : Pair{solids * (f.solids_heat + k_liquid_heat_j_per_kg_k * state.water[at]),
                          solids * heat_of_water(state.temperature[at])};
        room.matrix.diagonal[at] = {room.mass[at].a, room.mass[at].b, 0.0,
                                    k == 0 ? Lanes(1.0) : solids};
        room.weight[at] = {1.0 / room.mass[at].a, k == 0 ? Lanes(1.0) : 100.0 / solids};
      }
    }
  }
  for (std::size_t column = columns.from; column < columns.to; ++column) {
    faces_up<want>(s, state, gamma_h, room, column);
    faces_across<want>(s, state, gamma_h, room, column);
    if (column + g.groups < columns.to) {
      faces_along<want>(s, state, gamma_h, room, column);
    }
  }
  solid_surfaces(s, state, room, slab);
  if constexpr (want == Want::rates_and_matrix) {
    for (std::size_t at = g.node(columns.from, 0); at < g.node(columns.to, 0); ++at) {
      add(room.matrix.diagonal[at], by_first(gamma_h, room.surface[at]), -1.0);
    }
  }
}

/// The faces between slabs, once both their sides are known.
template <Want want>
void seam_faces(const SolidStage& s, const SolidState& state, double gamma_h, SolidRoom& room) {
  const StencilShape shape = s.grid.shape();
  for (std::size_t slab = 0; slab + 1 < shape.slabs(); ++slab) {
    const std::size_t to = shape.slab_from(slab + 1) * shape.groups;
    for (std::size_t column = to - shape.groups; column < to; ++column) {
      faces_along<want>(s, state, gamma_h, room, column);
    }
  }
}

}  // namespace maslin
