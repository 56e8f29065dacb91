// A rank's part of the quarter for PETSc: which faces and surfaces its cells have, their
// rates, and how these answer to the state. maslin's own functions, eight places at a time.
#pragma once

#include <petscdmda.h>

#include <algorithm>
#include <array>
#include <vector>

#include "bake/solid_rates.h"
#include "quarter_problem.h"

namespace yardstick {

struct Face {
  PetscInt first, second;  // local places of the cells it parts
  double reach, contact_m2;
};
struct Surface {
  PetscInt cell;
  double open_m2, tin_m2, foot_m2, reach;
  enum class Kind { side, top, vent, plate } kind;
};

class Patch {
 public:
  Patch(const QuarterProblem& problem, DM da) : problem_(problem) {
    DMDAGetCorners(da, &xs_, &ys_, &zs_, &xm_, &ym_, &zm_);
    DMDAGetGhostCorners(da, &gx_, &gy_, &gz_, &gxm_, &gym_, &gzm_);
    const std::size_t count = static_cast<std::size_t>(gxm_ * gym_ * gzm_);
    solids_.resize(count);
    plate_m2_.resize(count);
    physics_.resize(count);
    rate_.resize(2 * count);
    diagonal_.resize(4 * count);
    list();
  }

  /// Rates of the local cells, and with `matrix` their derivatives.
  void evaluate(double now_s, const double* u, bool matrix) {
    const ColumnFigures& f = problem_.setup.figures;
    const OvenCourse& course = problem_.setup.course;
    const Surroundings around =
        surroundings(course, oven_after(course, oven_at_start(course), 0.0, now_s));
    const Meeting meeting{f, around};
    const std::size_t count = solids_.size();
    for (std::size_t from = 0; from < count; from += k_lane_count) {
      Lanes t = 300.0, x = 0.5;
      for (std::size_t l = 0; l < k_lane_count && from + l < count; ++l) {
        t.set(l, u[2 * (from + l)]);
        x.set(l, u[2 * (from + l) + 1]);
      }
      const CellPhysics p = cell_physics(f, t, x);
      for (std::size_t l = 0; l < k_lane_count && from + l < count; ++l) {
        physics_[from + l] = {p.conductivity[l], p.vapour[l],      p.potential[l],
                              p.potential_t[l],  p.potential_x[l], p.conductivity_x[l],
                              p.vapour_t[l],     p.vapour_x[l]};
      }
    }
    std::fill(rate_.begin(), rate_.end(), 0.0);
    std::fill(diagonal_.begin(), diagonal_.end(), 0.0);
    for (const bool contact : {false, true}) {
      const std::vector<Face>& faces = contact ? contacts_ : inner_;
      std::vector<std::array<double, 8>>& slopes = contact ? contact_slopes_ : inner_slopes_;
      slopes.resize(faces.size());
      for (std::size_t from = 0; from < faces.size(); from += k_lane_count) {
        Lanes reach = 1.0, area = 1.0, t0 = 300.0, x0 = 0.5, t1 = 300.0, x1 = 0.5;
        CellPhysics p0{}, p1{};
        const std::size_t lanes = std::min(k_lane_count, faces.size() - from);
        for (std::size_t l = 0; l < lanes; ++l) {
          const Face& one = faces[from + l];
          reach.set(l, one.reach);
          area.set(l, one.contact_m2);
          t0.set(l, u[2 * one.first]);
          x0.set(l, u[2 * one.first + 1]);
          t1.set(l, u[2 * one.second]);
          x1.set(l, u[2 * one.second + 1]);
          put(p0, l, one.first);
          put(p1, l, one.second);
        }
        const FaceFlux flux = contact ? contact_flux(f, area, reach, p1, t0, t1)
                                      : inner_flux(f, reach, p0, t0, x0, p1, t1, x1);
        for (std::size_t l = 0; l < lanes; ++l) {
          const Face& one = faces[from + l];
          rate_[2 * one.first] -= flux.heat[l];
          rate_[2 * one.first + 1] -= flux.water[l];
          rate_[2 * one.second] += flux.heat[l];
          rate_[2 * one.second + 1] += flux.water[l];
          if (matrix) {
            slopes[from + l] = {flux.heat_t0[l],  flux.heat_x0[l], flux.water_t0[l],
                                flux.water_x0[l], flux.heat_t1[l], flux.heat_x1[l],
                                flux.water_t1[l], flux.water_x1[l]};
            for (std::size_t j = 0; j < 4; ++j) {
              diagonal_[4 * one.first + j] -= slopes[from + l][j];
              diagonal_[4 * one.second + j] += slopes[from + l][4 + j];
            }
          }
        }
      }
    }
    surfaces(meeting, u, matrix);
  }

  struct Capacity {
    double heat_t, heat_x, water;
  };
  Capacity capacity(std::size_t cell, const double* u) const {
    const ColumnFigures& f = problem_.setup.figures;
    if (plate_m2_[cell] > 0.0) {
      return {plate_m2_[cell] * f.plate_heat[0], 0.0, 1.0};
    }
    return {solids_[cell] * (f.solids_heat[0] + k_liquid_heat_j_per_kg_k * u[2 * cell + 1]),
            solids_[cell] * k_liquid_heat_j_per_kg_k * (u[2 * cell] - k_zero_celsius_k),
            solids_[cell]};
  }
  /// Speeds of temperature and water of a cell.
  std::array<double, 2> speed(std::size_t cell, const double* u) const {
    const Capacity c = capacity(cell, u);
    const double water = plate_m2_[cell] > 0.0 ? 0.0 : rate_[2 * cell + 1] / c.water;
    return {(rate_[2 * cell] - c.heat_x * water) / c.heat_t, water};
  }
  /// (capacities)^-1 block.
  static std::array<double, 4> over(const Capacity& c, const double* block, double sign) {
    const double wt = sign * block[2] / c.water, wx = sign * block[3] / c.water;
    return {(sign * block[0] - c.heat_x * wt) / c.heat_t,
            (sign * block[1] - c.heat_x * wx) / c.heat_t, wt, wx};
  }

  std::size_t local(PetscInt x, PetscInt y, PetscInt z) const {
    return static_cast<std::size_t>(((z - gz_) * gym_ + (y - gy_)) * gxm_ + (x - gx_));
  }
  bool owned(std::size_t cell) const { return owned_[cell]; }

  std::vector<Face> inner_, contacts_;
  std::vector<std::array<double, 8>> inner_slopes_, contact_slopes_;
  std::vector<double> solids_, plate_m2_, rate_, diagonal_;
  std::vector<bool> owned_;
  PetscInt xs_ = 0, ys_ = 0, zs_ = 0, xm_ = 0, ym_ = 0, zm_ = 0;

 private:
  struct Figures {
    double conductivity, vapour, potential, potential_t, potential_x, conductivity_x, vapour_t,
        vapour_x;
  };

  void put(CellPhysics& p, std::size_t lane, PetscInt cell) const {
    const Figures& one = physics_[static_cast<std::size_t>(cell)];
    p.conductivity.set(lane, one.conductivity);
    p.vapour.set(lane, one.vapour);
    p.potential.set(lane, one.potential);
    p.potential_t.set(lane, one.potential_t);
    p.potential_x.set(lane, one.potential_x);
    p.conductivity_x.set(lane, one.conductivity_x);
    p.vapour_t.set(lane, one.vapour_t);
    p.vapour_x.set(lane, one.vapour_x);
  }

  double at(const std::vector<Lanes>& field, PetscInt x, PetscInt y, PetscInt z) const {
    const SolidGrid& g = problem_.grid;
    const std::size_t i = static_cast<std::size_t>(x);
    return field[g.node(static_cast<std::size_t>(y) * g.groups + i % g.groups,
                        static_cast<std::size_t>(z))][i / g.groups];
  }
  double of_column(const std::vector<Lanes>& field, PetscInt x, PetscInt y) const {
    const SolidGrid& g = problem_.grid;
    const std::size_t i = static_cast<std::size_t>(x);
    return field[static_cast<std::size_t>(y) * g.groups + i % g.groups][i / g.groups];
  }

  void list() {
    const SolidGrid& g = problem_.grid;
    owned_.assign(solids_.size(), false);
    const auto inside = [&](PetscInt x, PetscInt y, PetscInt z) {
      return x >= gx_ && x < gx_ + gxm_ && y >= gy_ && y < gy_ + gym_ && z >= gz_ && z < gz_ + gzm_;
    };
    for (PetscInt z = gz_; z < gz_ + gzm_; ++z) {
      for (PetscInt y = gy_; y < gy_ + gym_; ++y) {
        for (PetscInt x = gx_; x < gx_ + gxm_; ++x) {
          const std::size_t here = local(x, y, z);
          const auto cell = static_cast<PetscInt>(here);
          owned_[here] =
              x >= xs_ && x < xs_ + xm_ && y >= ys_ && y < ys_ + ym_ && z >= zs_ && z < zs_ + zm_;
          solids_[here] = at(g.solids_kg, x, y, z);
          plate_m2_[here] = z == 0 ? of_column(g.foot_m2, x, y) : 0.0;
          if (z < static_cast<PetscInt>(g.up) && inside(x, y, z + 1)) {
            (z == 0 ? contacts_ : inner_)
                .push_back({cell, static_cast<PetscInt>(local(x, y, z + 1)), at(g.reach_z, x, y, z),
                            plate_m2_[here]});
          }
          if (z > 0 && x + 1 < static_cast<PetscInt>(g.across()) && inside(x + 1, y, z)) {
            inner_.push_back(
                {cell, static_cast<PetscInt>(local(x + 1, y, z)), at(g.reach_x, x, y, z), 0.0});
          }
          if (z > 0 && y + 1 < static_cast<PetscInt>(g.along) && inside(x, y + 1, z)) {
            inner_.push_back(
                {cell, static_cast<PetscInt>(local(x, y + 1, z)), at(g.reach_y, x, y, z), 0.0});
          }
          for (const SolidSide* side : {&g.side, &g.end}) {
            const double open = at(side->open_m2, x, y, z), tin = at(side->tin_m2, x, y, z);
            if (open + tin > 0.0) {
              surfaces_.push_back({cell, open, tin, 0.0, at(side->reach_m, x, y, z) / (open + tin),
                                   Surface::Kind::side});
            }
          }
          const double foot = of_column(g.foot_m2, x, y);
          if (z == 0) {
            surfaces_.push_back({cell, 0.0, 0.0, foot, 0.0, Surface::Kind::plate});
          }
          if (z == 1) {
            surfaces_.push_back(
                {cell, 0.0, 0.0, foot, at(g.reach_z, x, y, 0), Surface::Kind::vent});
          }
          if (z == static_cast<PetscInt>(g.up)) {
            const double top = of_column(g.top_m2, x, y), slant = top / foot;
            surfaces_.push_back(
                {cell, top, 0.0, 0.0, slant * slant * at(g.reach_z, x, y, z), Surface::Kind::top});
          }
        }
      }
    }
  }

  void surfaces(const Meeting& meeting, const double* u, bool matrix) {
    for (const Surface& one : surfaces_) {
      if (!owned_[static_cast<std::size_t>(one.cell)]) {
        continue;
      }
      CellPhysics p{};
      for (std::size_t l = 0; l < k_lane_count; ++l) {
        put(p, l, one.cell);
      }
      const Lanes t = u[2 * one.cell];
      Lanes unused;
      FaceFlux f{};
      switch (one.kind) {
        case Surface::Kind::side:
          f = open_flux(meeting, one.open_m2, one.reach * one.open_m2, p, t, unused);
          add_surface(f, tin_flux(meeting, one.tin_m2, one.reach * one.tin_m2, p, t));
          break;
        case Surface::Kind::top:
          f = open_flux(meeting, one.open_m2, one.reach, p, t, unused);
          break;
        case Surface::Kind::vent:
          f = vent_flux(meeting, one.foot_m2, one.reach, p, t);
          break;
        case Surface::Kind::plate:
          f = plate_flux(meeting, one.foot_m2, t);
          break;
      }
      rate_[2 * one.cell] += f.heat[0];
      rate_[2 * one.cell + 1] += f.water[0];
      if (matrix) {
        diagonal_[4 * one.cell] += f.heat_t0[0];
        diagonal_[4 * one.cell + 1] += f.heat_x0[0];
        diagonal_[4 * one.cell + 2] += f.water_t0[0];
        diagonal_[4 * one.cell + 3] += f.water_x0[0];
      }
    }
  }

  const QuarterProblem& problem_;
  std::vector<Surface> surfaces_;
  std::vector<Figures> physics_;
  PetscInt gx_ = 0, gy_ = 0, gz_ = 0, gxm_ = 0, gym_ = 0, gzm_ = 0;
};

}  // namespace yardstick
