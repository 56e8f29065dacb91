// The quarter's equations on trilinear elements by deal.II: its mesh, shape functions, integrals,
// sparse matrix, Krylov method and incomplete factorisation; corners as quadrature points, so that
// mass is lumped; maslin's physics of a place, eight at a time. "By element": rates and matrix are
// put together element by element, with the shape functions' values taken anew each time and room
// for all that share an element, as the library's tutorials do; else along the edges, from
// integrals taken once.
#pragma once

#include <deal.II/base/parallel.h>
#include <deal.II/base/quadrature_lib.h>
#include <deal.II/dofs/dof_handler.h>
#include <deal.II/dofs/dof_tools.h>
#include <deal.II/fe/fe_q.h>
#include <deal.II/fe/fe_values.h>
#include <deal.II/grid/grid_generator.h>
#include <deal.II/grid/tria.h>
#include <deal.II/lac/dynamic_sparsity_pattern.h>
#include <deal.II/lac/solver_bicgstab.h>
#include <deal.II/lac/sparse_ilu.h>
#include <deal.II/lac/sparse_matrix.h>
#include <deal.II/lac/vector.h>
#include <cmath>
#include <map>
#include <string>
#include <vector>
#include "bake/solid_rates.h"
#include "quarter_problem.h"

namespace yardstick {

using dealii::types::global_dof_index;
using Field = dealii::Vector<double>;

/// A corner of the mesh as the equations see it.
struct Corner {
  double volume_m3 = 0.0, open_m2 = 0.0, foot_m2 = 0.0;
  std::size_t plate = 0;  // its unknown, where foot_m2 > 0
};
/// The integral of two shape functions' gradients, m.
struct Edge {
  std::size_t first, second;
  double reach;
};
struct Physics {
  double k, g, phi, phi_t, phi_x, k_x, g_t, g_x;
};

class Elements {
 public:
  Elements(const QuarterProblem& problem, bool by_element)
      : by_element_(by_element),
        problem_(problem),
        figures_(problem.setup.figures),
        element_(1),
        dofs_(mesh_) {
    make_mesh();
    integrate();
    make_matrix();
  }

  std::size_t size() const { return unknowns_; }
  const std::vector<Corner>& corners() const { return corners_; }

  void start(Field& y) const {
    for (std::size_t i = 0; i < corners_.size(); ++i) {
      y[2 * i] = quarter_piece().start_k[0];
      y[2 * i + 1] = figures_.first_water[0];
      if (corners_[i].foot_m2 > 0.0) {
        y[corners_[i].plate] = problem_.setup.start.temperature[0][0];
      }
    }
  }

  /// What is stored less what is gained, as speeds: K/s, and in water 100 times kg/kg s.
  void residual(double now_s, const Field& y, const Field& speed, Field& out) {
    gains(now_s, y, false);
    for (std::size_t i = 0; i < corners_.size(); ++i) {
      const Scale s = scale(i, y);
      out[2 * i] =
          s.heat * (s.capacity * speed[2 * i] + s.carried * speed[2 * i + 1] - gain_[2 * i]);
      out[2 * i + 1] = s.water * (s.solids * speed[2 * i + 1] - gain_[2 * i + 1]);
      if (corners_[i].foot_m2 > 0.0) {
        const std::size_t p = corners_[i].plate;
        out[p] = speed[p] - gain_[p] / plate_heat(i);
      }
    }
  }

  /// The residual's derivatives by the state and, times alpha, by its speed; factorised.
  void set_up(double now_s, const Field& y, const Field& speed, double alpha) {
    matrix_ = 0.0;
    gains(now_s, y, true);
    const double cw = k_liquid_heat_j_per_kg_k;
    dealii::parallel::apply_to_subranges(
        std::size_t{0}, corners_.size(),
        [&](std::size_t from, std::size_t to) {
          for (std::size_t i = from; i < to; ++i) {
            const Scale s = scale(i, y);
            scale_row(2 * i, -s.heat);
            scale_row(2 * i + 1, -s.water);
            matrix_.add(2 * i, 2 * i,
                        s.heat * (alpha * s.capacity + s.solids * cw * speed[2 * i + 1]));
            matrix_.add(2 * i, 2 * i + 1,
                        s.heat * (alpha * s.carried + s.solids * cw * speed[2 * i]));
            matrix_.add(2 * i + 1, 2 * i + 1, s.water * alpha * s.solids);
            if (corners_[i].foot_m2 > 0.0) {
              scale_row(corners_[i].plate, -1.0 / plate_heat(i));
              matrix_.add(corners_[i].plate, corners_[i].plate, alpha);
            }
          }
        },
        512);
    preconditioner_.initialize(matrix_);
  }

  int solve(const Field& right, Field& to, double relative) {
    dealii::SolverControl control(400, relative * right.l2_norm() + 1e-300, false, false);
    dealii::SolverBicgstab<Field> solver(control);
    to = 0.0;
    try {
      solver.solve(matrix_, to, right, preconditioner_);
    } catch (const std::exception&) {
      return 1;  // IDA tries a shorter step
    }
    iterations_ += static_cast<long>(control.last_step());
    return 0;
  }
  long iterations() const { return iterations_; }

  double water_kg(const Field& y) const {
    double out = 0.0;
    for (std::size_t i = 0; i < corners_.size(); ++i) {
      out += density_ * corners_[i].volume_m3 * y[2 * i + 1];
    }
    return out;
  }
  double coldest_k(const Field& y) const {
    double out = 1e9;
    for (std::size_t i = 0; i < corners_.size(); ++i) {
      out = std::min(out, y[2 * i]);
    }
    return out;
  }

 private:
  struct Scale {
    double solids, capacity, carried, heat, water;
  };
  Scale scale(std::size_t i, const Field& y) const {
    const double solids = density_ * corners_[i].volume_m3;
    const double heat = figures_.solids_heat[0] + k_liquid_heat_j_per_kg_k * y[2 * i + 1];
    return {solids, solids * heat,
            solids * k_liquid_heat_j_per_kg_k * (y[2 * i] - k_zero_celsius_k),
            1.0 / (solids * heat), 100.0 / solids};
  }
  double plate_heat(std::size_t i) const { return corners_[i].foot_m2 * figures_.plate_heat[0]; }

  void make_mesh() {
    const SolidGrid& g = problem_.grid;
    const double height = g.height_m[0];
    std::vector<std::vector<double>> cells(3);
    for (std::size_t i = 0; i + 1 < g.x_m.size(); ++i) {
      cells[0].push_back(g.x_m[i + 1] - g.x_m[i]);
    }
    for (std::size_t i = 0; i + 1 < g.y_m.size(); ++i) {
      cells[1].push_back(g.y_m[i + 1] - g.y_m[i]);
    }
    for (std::size_t i = 0; i + 1 < g.share_up.size(); ++i) {
      cells[2].push_back((g.share_up[i + 1] - g.share_up[i]) * height);
    }
    dealii::GridGenerator::subdivided_hyper_rectangle(
        mesh_, cells, dealii::Point<3>(), dealii::Point<3>(g.x_m.back(), g.y_m.back(), height),
        true);
    double solids = 0.0;
    for (const Lanes& kg : g.solids_kg) {
      solids += sum(kg);
    }
    density_ = solids / (g.x_m.back() * g.y_m.back() * height);
    top_ = g.top_m2[0][0] / g.foot_m2[0][0];
    dofs_.distribute_dofs(element_);
  }

  void integrate() {
    const dealii::QGaussLobatto<3> corners(2);
    const dealii::QGaussLobatto<2> face_corners(2);
    dealii::FEValues<3> values(
        element_, corners,
        dealii::update_gradients | dealii::update_values | dealii::update_JxW_values);
    dealii::FEFaceValues<3> faces(element_, face_corners,
                                  dealii::update_values | dealii::update_JxW_values);
    corners_.resize(dofs_.n_dofs());
    std::vector<global_dof_index> at(element_.dofs_per_cell);
    std::map<std::pair<std::size_t, std::size_t>, double> reach;
    for (const auto& cell : dofs_.active_cell_iterators()) {
      values.reinit(cell);
      cell->get_dof_indices(at);
      for (const unsigned int q : values.quadrature_point_indices()) {
        for (const unsigned int i : values.dof_indices()) {
          corners_[at[i]].volume_m3 += values.shape_value(i, q) * values.JxW(q);
          for (const unsigned int j : values.dof_indices()) {
            if (at[i] < at[j]) {
              reach[{at[i], at[j]}] -=
                  values.shape_grad(i, q) * values.shape_grad(j, q) * values.JxW(q);
            }
          }
        }
      }
      for (const unsigned int f : cell->face_indices()) {
        // Faces 1, 3, 5 are the far ones: side, end and top; 4 is the base.
        if (!cell->face(f)->at_boundary() || f == 0 || f == 2) {
          continue;
        }
        faces.reinit(cell, f);
        for (const unsigned int q : faces.quadrature_point_indices()) {
          for (const unsigned int i : faces.dof_indices()) {
            const double area = faces.shape_value(i, q) * faces.JxW(q);
            (f == 4 ? corners_[at[i]].foot_m2 : corners_[at[i]].open_m2) +=
                f == 5 ? top_ * area : area;
          }
        }
      }
    }
    for (const auto& [ends, value] : reach) {
      if (value > 1e-12) {
        edges_.push_back({ends.first, ends.second, value});
      }
    }
    unknowns_ = 2 * corners_.size();
    for (Corner& corner : corners_) {
      if (corner.foot_m2 > 0.0) {
        corner.plate = unknowns_++;
      }
    }
    gain_.resize(unknowns_);
    physics_.resize(corners_.size());
  }

  void make_matrix() {
    // Only what the equations tie together: the integrals between corners that share no edge
    // are nought.
    dealii::DynamicSparsityPattern ties(unknowns_, unknowns_);
    const auto tie = [&ties](std::size_t i, std::size_t j) {
      for (const std::size_t a : {0, 1}) {
        for (const std::size_t b : {0, 1}) {
          ties.add(2 * i + a, 2 * j + b);
        }
      }
    };
    for (std::size_t i = 0; i < corners_.size(); ++i) {
      tie(i, i);
      if (corners_[i].foot_m2 > 0.0) {
        const std::size_t p = corners_[i].plate;
        ties.add(p, p);
        ties.add(p, 2 * i);
        ties.add(p, 2 * i + 1);
        ties.add(2 * i, p);
      }
    }
    for (const Edge& edge : edges_) {
      tie(edge.first, edge.second);
      tie(edge.second, edge.first);
    }
    std::vector<global_dof_index> at(element_.dofs_per_cell);
    for (const auto& cell : dofs_.active_cell_iterators()) {
      cell->get_dof_indices(at);
      for (std::size_t i = 0; by_element_ && i < at.size(); ++i) {
        for (const global_dof_index other : at) {
          tie(at[i], other);
        }
      }
    }
    pattern_.copy_from(ties);
    matrix_.reinit(pattern_);
  }

  void scale_row(std::size_t row, double by) {
    for (auto entry = matrix_.begin(row); entry != matrix_.end(row); ++entry) {
      entry->value() *= by;
    }
  }

  void look_up(const Field& y) {
    const std::size_t count = corners_.size();
    dealii::parallel::apply_to_subranges(
        std::size_t{0}, (count + k_lane_count - 1) / k_lane_count,
        [&](std::size_t from, std::size_t to) {
          for (std::size_t group = from; group < to; ++group) {
            const std::size_t first = group * k_lane_count;
            Lanes t = 300.0, x = 0.5;
            for (std::size_t l = 0; l < k_lane_count && first + l < count; ++l) {
              t.set(l, y[2 * (first + l)]);
              x.set(l, y[2 * (first + l) + 1]);
            }
            const CellPhysics p = cell_physics(figures_, t, x);
            for (std::size_t l = 0; l < k_lane_count && first + l < count; ++l) {
              physics_[first + l] = {p.conductivity[l], p.vapour[l],      p.potential[l],
                                     p.potential_t[l],  p.potential_x[l], p.conductivity_x[l],
                                     p.vapour_t[l],     p.vapour_x[l]};
              if (x[l] < k_least_water) {  // both are held there
                physics_[first + l].k_x = physics_[first + l].g_x = 0.0;
              }
            }
          }
        },
        64);
  }

  /// Heat and water that every corner gains, and with `slopes` their derivatives into the matrix.
  void gains(double now_s, const Field& y, bool slopes) {
    look_up(y);
    std::fill(gain_.begin(), gain_.end(), 0.0);
    if (by_element_) {
      by_elements(y, slopes);
    } else {
      for (const Edge& edge : edges_) {
        through(edge, y, slopes);
      }
    }
    const OvenCourse& course = problem_.setup.course;
    const Surroundings around =
        surroundings(course, oven_after(course, oven_at_start(course), 0.0, now_s));
    for (std::size_t i = 0; i < corners_.size(); ++i) {
      if (corners_[i].open_m2 > 0.0 || corners_[i].foot_m2 > 0.0) {
        from_outside(i, around, y, slopes);
      }
    }
  }

  void by_elements(const Field& y, bool slopes) {
    const dealii::QGaussLobatto<3> corners(2);
    dealii::FEValues<3> values(element_, corners,
                               dealii::update_gradients | dealii::update_JxW_values);
    std::vector<global_dof_index> at(element_.dofs_per_cell);
    for (const auto& cell : dofs_.active_cell_iterators()) {
      values.reinit(cell);
      cell->get_dof_indices(at);
      for (const unsigned int i : values.dof_indices()) {
        for (const unsigned int j : values.dof_indices()) {
          if (at[i] >= at[j]) {
            continue;
          }
          double reach = 0.0;
          for (const unsigned int q : values.quadrature_point_indices()) {
            reach -= values.shape_grad(i, q) * values.shape_grad(j, q) * values.JxW(q);
          }
          through({at[i], at[j], reach}, y, slopes);
        }
      }
    }
  }

  void add(std::size_t row, std::size_t column, double value) { matrix_.add(row, column, value); }

  void through(const Edge& edge, const Field& y, bool slopes) {
    const std::size_t a = 2 * edge.first, b = 2 * edge.second;
    const Physics &p = physics_[edge.first], &q = physics_[edge.second];
    // Of two corners the tighter passage rules and conductivities stand in series, as between
    // maslin's cells: means of both would let a half dry crust through, and the error is larger.
    const bool first_rules = p.g < q.g;
    const double pass = edge.reach * (first_rules ? p.g : q.g);
    const double both = 1.0 / (p.k + q.k);
    const double conduct = 2.0 * edge.reach * p.k * q.k * both;
    const double drop = y[a] - y[b], drive = p.phi - q.phi;
    const double vapour = pass * drive;
    const double creep = edge.reach * figures_.liquid_passage[0];
    const double soak = creep * (y[a + 1] - y[b + 1]);
    const double middle = 0.5 * (y[a] + y[b]) - k_zero_celsius_k;
    const double steam = k_vapour_at_zero_celsius_j_per_kg + k_vapour_heat_j_per_kg_k * middle;
    const double liquid = k_liquid_heat_j_per_kg_k * middle;
    const double heat = conduct * drop + vapour * steam + soak * liquid;
    gain_[a] -= heat;
    gain_[a + 1] -= vapour + soak;
    gain_[b] += heat;
    gain_[b + 1] += vapour + soak;
    if (!slopes) {
      return;
    }
    const double carry =
        0.5 * (k_vapour_heat_j_per_kg_k * vapour + k_liquid_heat_j_per_kg_k * soak);
    const auto by = [&](const Physics& r, double other_k, bool rules, double sign,
                        std::size_t column) {
      const double opening = rules ? edge.reach * drive : 0.0;
      const double vapour_t = opening * r.g_t + sign * pass * r.phi_t;
      const double vapour_x = opening * r.g_x + sign * pass * r.phi_x;
      const double share = other_k * both;
      const double heat_t = sign * conduct + steam * vapour_t + carry;
      const double heat_x = 2.0 * edge.reach * share * share * r.k_x * drop + steam * vapour_x +
                            liquid * sign * creep;
      for (const auto& [row, way] : {std::pair{a, -1.0}, std::pair{b, 1.0}}) {
        add(row, column, way * heat_t);
        add(row, column + 1, way * heat_x);
        add(row + 1, column, way * vapour_t);
        add(row + 1, column + 1, way * (vapour_x + sign * creep));
      }
    };
    by(p, q.k, first_rules, 1.0, a);
    by(q, p.k, !first_rules, -1.0, b);
  }

  void from_outside(std::size_t i, const Surroundings& around, const Field& y, bool slopes) {
    const std::size_t at = 2 * i;
    const Physics& p = physics_[i];
    const Corner& c = corners_[i];
    const double t = y[at], air = around.air_k[0], top = around.top_k[0];
    const double film = figures_.mass_transfer[0] * (c.open_m2 + c.foot_m2 * figures_.base_vent[0]);
    const double vapour = film * (air_potential(Meeting{figures_, around})[0] - p.phi);
    const double warm = (vapour > 0.0 ? air : t) - k_zero_celsius_k;
    const double steam = k_vapour_at_zero_celsius_j_per_kg + k_vapour_heat_j_per_kg_k * warm;
    const double sigma = k_stefan_boltzmann * figures_.radiation[0] * around.shade[0];
    const double convection = figures_.convection[0];
    gain_[at] += vapour * steam +
                 c.open_m2 * (convection * (air - t) + sigma * (std::pow(top, 4) - std::pow(t, 4)));
    gain_[at + 1] += vapour;
    const double contact = c.foot_m2 * figures_.plate_contact[0];
    if (c.foot_m2 > 0.0) {
      const double plate = y[c.plate], floor = around.floor_k[0];
      const double glow = k_stefan_boltzmann * figures_.plate_radiation[0];
      const double through = contact * (plate - t);
      gain_[at] += through;
      gain_[c.plate] += c.foot_m2 * (figures_.plate_convection[0] * (air - plate) +
                                     glow * (std::pow(floor, 4) - std::pow(plate, 4))) -
                        through;
      if (slopes) {
        add(at, at, -contact);
        add(at, c.plate, contact);
        add(c.plate, at, contact);
        add(c.plate, c.plate,
            -contact -
                c.foot_m2 * (figures_.plate_convection[0] + 4.0 * glow * std::pow(plate, 3)));
      }
    }
    if (slopes) {
      add(at, at,
          -film * p.phi_t * steam + (vapour > 0.0 ? 0.0 : k_vapour_heat_j_per_kg_k * vapour) -
              c.open_m2 * (convection + 4.0 * sigma * std::pow(t, 3)));
      add(at, at + 1, -film * p.phi_x * steam);
      add(at + 1, at, -film * p.phi_t);
      add(at + 1, at + 1, -film * p.phi_x);
    }
  }

  bool by_element_;
  const QuarterProblem& problem_;
  const ColumnFigures& figures_;
  dealii::Triangulation<3> mesh_;
  dealii::FE_Q<3> element_;
  dealii::DoFHandler<3> dofs_;
  std::vector<Corner> corners_;
  std::vector<Edge> edges_;
  std::vector<Physics> physics_;
  std::vector<double> gain_;
  std::size_t unknowns_ = 0;
  double density_ = 0.0, top_ = 1.0;
  dealii::SparsityPattern pattern_;
  dealii::SparseMatrix<double> matrix_;
  dealii::SparseILU<double> preconditioner_;
  long iterations_ = 0;
};

}  // namespace yardstick
