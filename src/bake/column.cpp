#include "bake/column.h"

#include "bake/cell_physics.h"
#include "numerics/clones.h"

namespace maslin {
namespace {

Lanes power(const Lanes& s, const Lanes& exponent) {
  return select(s > Lanes(0.0), pow(max(s, 1e-30), exponent), 0.0);
}

/// Distances from the core as shares of the depth: cells shrink toward the surface by
/// a constant ratio, the last about `thinnest` of the depth.
std::vector<double> graded_faces(int count, double thinnest) {
  // Find the ratio q with (1 - q) / (1 - q^count) q^(count-1) = thinnest, first cell 1.
  double low = 0.3, high = 0.9999;
  for (int i = 0; i < 60; ++i) {
    const double q = 0.5 * (low + high);
    double sum = 0.0, cell = 1.0;
    for (int j = 0; j < count; ++j) {
      sum += cell;
      cell *= q;
    }
    (cell / q / sum < thinnest ? low : high) = q;
  }
  std::vector<double> faces{0.0};
  double sum = 0.0, cell = 1.0;
  for (int j = 0; j < count; ++j) {
    sum += cell;
    faces.push_back(sum);
    cell *= low;
  }
  for (double& f : faces) {
    f /= sum;
  }
  return faces;
}

/// Mean of s^2 over a cell of a body whose area grows as s^n. With distances taken
/// between these means, a temperature a + b s^2 passes exactly its flux 2 b s.
Lanes mean_square(const Lanes& s0, const Lanes& s1, const Lanes& n) {
  return (n + 1.0) / (n + 3.0) * (power(s1, n + 3.0) - power(s0, n + 3.0)) /
         (power(s1, n + 1.0) - power(s0, n + 1.0));
}

struct Leg {
  Lanes area, depth;
  Lanes exponent;
  std::vector<Lanes> face;  // shares of the depth, inner to outer

  std::size_t cells() const { return face.size() - 1; }
  Lanes volume(std::size_t j) const {
    return area * depth / (exponent + 1.0) *
           (power(face[j + 1], exponent + 1.0) - power(face[j], exponent + 1.0));
  }
  Lanes square(std::size_t j) const { return mean_square(face[j], face[j + 1], exponent); }
  Lanes area_at(std::size_t f) const { return area * power(face[f], exponent); }
};

/// Conductance of face f of an inside eased by `ease`: whole in the core, none at the
/// surfaces, in between in proportion to the distance.
Lanes eased(const CellColumn& column, const std::vector<Lanes>& inside, std::size_t f,
            const Lanes& ease) {
  return column.reach_m[f] * (1.0 + inside[f] * (ease - 1.0));
}

/// Slowest decay of conduction in the column with base and open surface held, over
/// diffusivity, 1/m2: inverse iteration from an even start.
Lanes slowest_decay(const CellColumn& c, const std::vector<Lanes>& inside, const Lanes& ease,
                    const Lanes& m3_per_kg) {
  std::vector<Lanes> diagonal(c.count), tie(c.count), u(c.count, 1.0), next(c.count);
  for (std::size_t f = 0; f + 1 < c.count; ++f) {
    const Lanes reach = eased(c, inside, f, ease);
    tie[f] = f == 0 ? Lanes(0.0) : reach;
    diagonal[f + 1] += reach;
    if (f > 0) {
      diagonal[c.before(f)] += reach;
    }
  }
  diagonal[c.last] += c.open_reach_m;
  // Eliminate the branch from its tip, then the trunk from the base.
  for (std::size_t f = c.count - 2; f >= c.last; --f) {
    diagonal[c.before(f)] -= tie[f] * tie[f] / diagonal[f + 1];
  }
  for (std::size_t f = 1; f < c.last; ++f) {
    diagonal[f + 1] -= tie[f] * tie[f] / diagonal[f];
  }
  Lanes decay = 0.0;
  for (int round = 0; round < 5; ++round) {
    Lanes with = 0.0, against = 0.0;
    for (std::size_t i = 1; i < c.count; ++i) {
      next[i] = c.solids_kg[i] * u[i];
    }
    for (std::size_t f = c.count - 2; f >= c.last; --f) {
      next[c.before(f)] += next[f + 1] * tie[f] / diagonal[f + 1];
    }
    for (std::size_t f = 1; f < c.last; ++f) {
      next[f + 1] += next[f] * tie[f] / diagonal[f];
    }
    next[c.last] /= diagonal[c.last];
    for (std::size_t f = c.last - 1; f >= 1; --f) {
      next[f] = (next[f] + tie[f] * next[f + 1]) / diagonal[f];
    }
    for (std::size_t f = c.last; f + 1 < c.count; ++f) {
      next[f + 1] = (next[f + 1] + tie[f] * next[c.before(f)]) / diagonal[f + 1];
    }
    for (std::size_t i = 1; i < c.count; ++i) {
      with += c.solids_kg[i] * u[i] * u[i];
      against += c.solids_kg[i] * u[i] * next[i];
    }
    decay = with / (against * m3_per_kg);
    for (std::size_t i = 1; i < c.count; ++i) {
      u[i] = next[i] * (with / against);
    }
  }
  return decay;
}

/// Eases the inside until the column's decay is the shape's.
MASLIN_ALL_WIDTHS
void match_decay(CellColumn& column, const std::vector<Lanes>& inside, const Lanes& wanted,
                 const Lanes& m3_per_kg) {
  Lanes low = 0.15, high = 4.0;
  for (int i = 0; i < 14; ++i) {
    const Lanes middle = sqrt(low * high);
    const Mask slow = slowest_decay(column, inside, middle, m3_per_kg) < wanted;
    low = select(slow, middle, low);
    high = select(slow, high, middle);
  }
  const Lanes ease = sqrt(low * high);
  for (std::size_t f = 1; f + 1 < column.count; ++f) {
    column.reach_m[f] = eased(column, inside, f, ease);
  }
}

constexpr int k_filling_cells = 4;  // of a filling in each leg

/// How far out in the legs a filling reaches, as a share of the depth: where core and legs
/// together have its volume.
Lanes filling_rim(const PieceGeometry& g) {
  const Lanes core = pow(g.join, g.exponent + 1.0);  // of the volume
  const Lanes m = g.shell_exponent + 1.0;
  const Lanes start = pow(g.join, m);
  const Lanes over = clamp((g.filling_share - core) / max(1.0 - core, 1e-9), 0.002, 0.95);
  return pow(start + over * (1.0 - start), 1.0 / m);
}

}  // namespace

CellColumn make_column(const PieceGeometry& geometry, const Lanes& solids_kg,
                       const ColumnCells& cells) {
  const Lanes& meet = geometry.join;
  const Lanes& m = geometry.shell_exponent;
  const bool filled = any(geometry.filling_share > Lanes(0.0));
  const Lanes rim = filled ? filling_rim(geometry) : meet;
  const auto leg_faces = [&](int count) {
    std::vector<Lanes> out;
    for (int j = 0; filled && j < k_filling_cells; ++j) {
      out.push_back(meet + (rim - meet) * (static_cast<double>(j) / k_filling_cells));
    }
    for (const double share : graded_faces(count, 0.4 / count)) {
      out.push_back(rim + (1.0 - rim) * share);
    }
    return out;
  };
  const Leg base{geometry.base_area_m2, geometry.base_depth_m, m, leg_faces(cells.base)};
  const Leg open{geometry.open_area_m2, geometry.open_depth_m, m, leg_faces(cells.open)};
  const Lanes area = base.area + open.area;
  const Lanes depth = (base.area * base.depth + open.area * open.depth) / area;
  // Its area makes the core's volume right.
  Leg core{(geometry.exponent + 1.0) * geometry.volume_m3 / depth, depth, geometry.exponent, {}};
  for (int j = 0; j <= cells.core; ++j) {
    core.face.push_back(meet * (static_cast<double>(j) / cells.core));
  }
  CellColumn out;
  out.filling_reach = filled ? k_filling_cells : 0;
  out.join = base.cells() + 1;
  out.last = out.join + open.cells();
  out.count = out.last + core.cells();
  out.solids_kg.assign(out.count, 0.0);
  out.depth_m.assign(out.count, 0.0);
  out.reach_m.assign(out.count - 1, 0.0);
  out.base_area_m2 = base.area;
  out.open_area_m2 = open.area;
  std::vector<Lanes> inside(out.count, 1.0);
  inside[0] = 0.0;
  Lanes whole = 0.0;
  const auto put = [&out, &whole](const Leg& leg, std::size_t j, std::size_t node) {
    out.solids_kg[node] = leg.volume(j);
    out.depth_m[node] = leg.depth * (leg.face[j + 1] - leg.face[j]);
    whole += out.solids_kg[node];
  };
  // With distances taken so, a temperature a + b s^2 passes exactly its flux 2 b s.
  const auto reach = [](const Lanes& face_area, const Leg& leg, std::size_t f, const Lanes& inner,
                        const Lanes& outer) {
    return face_area * 2.0 * leg.face[f] / (leg.depth * (outer - inner));
  };
  for (std::size_t j = 0; j < core.cells(); ++j) {
    // The outermost core cell is the join; the inner ones follow it inward.
    put(core, j, j + 1 == core.cells() ? out.join : out.count - 1 - j);
    if (j + 1 < core.cells()) {
      out.reach_m[out.count - 2 - j] =
          reach(core.area_at(j + 1), core, j + 1, core.square(j), core.square(j + 1));
    }
  }
  if (core.cells() > 1) {
    out.core_extrapolation = core.square(0) / (core.square(1) - core.square(0));
  }
  for (const Leg* leg : {&base, &open}) {
    Lanes inner = core.square(core.cells() - 1);
    // Where the leg meets the core: its share of the core's area or its own, the mean.
    Lanes face_area = 0.5 * (leg->area_at(0) + core.area_at(core.cells()) * leg->area / area);
    for (std::size_t j = 0; j < leg->cells(); ++j) {
      const std::size_t node = leg == &open ? out.join + 1 + j : out.join - 1 - j;
      put(*leg, j, node);
      const std::size_t face = leg == &open ? node - 1 : node;
      out.reach_m[face] = reach(face_area, *leg, j, inner, leg->square(j));
      inside[face] = (1.0 - leg->face[j]) / (1.0 - meet);
      inner = leg->square(j);
      face_area = leg->area_at(j + 1);
    }
    (leg == &open ? out.open_reach_m : out.reach_m[0]) =
        reach(leg->area, *leg, leg->cells(), inner, 1.0);
  }
  for (Lanes& kg : out.solids_kg) {
    kg = kg * solids_kg / whole;
  }
  match_decay(out, inside, geometry.decay_per_m2, whole / solids_kg);
  return out;
}

void part_solids(CellColumn& column, const Lanes& filling_kg, const Lanes& dough_kg) {
  Lanes within = 0.0, around = 0.0;
  for (std::size_t i = 1; i < column.count; ++i) {
    (column.inside(i) ? within : around) += column.solids_kg[i];
  }
  for (std::size_t i = 1; i < column.count; ++i) {
    column.solids_kg[i] *= column.inside(i) ? filling_kg / within : dough_kg / around;
  }
}

CellColumn with_topping(const CellColumn& bare, const Lanes& thick_m, const Lanes& solids_kg) {
  constexpr int k_cells = 8;
  const std::vector<double> faces = graded_faces(k_cells, 0.4 / k_cells);
  CellColumn out = bare;
  out.topping_cells = k_cells;
  out.last = bare.last + k_cells;
  out.count = bare.count + k_cells;
  const auto outward = static_cast<std::ptrdiff_t>(bare.last);
  std::vector<Lanes> solids, depth, reach;
  // From the middle of the bare column's last cell to its surface, then from cell to cell.
  Lanes inner = bare.open_area_m2 / bare.open_reach_m;
  for (std::size_t j = 0; j < k_cells; ++j) {
    const double share = faces[j + 1] - faces[j];
    const Lanes half = (0.5 * share) * thick_m;
    solids.push_back(share * solids_kg);
    depth.push_back(share * thick_m);
    reach.push_back(bare.open_area_m2 / (inner + half));
    inner = half;
  }
  out.open_reach_m = bare.open_area_m2 / inner;
  out.solids_kg.insert(out.solids_kg.begin() + outward + 1, solids.begin(), solids.end());
  out.depth_m.insert(out.depth_m.begin() + outward + 1, depth.begin(), depth.end());
  out.reach_m.insert(out.reach_m.begin() + outward, reach.begin(), reach.end());
  return out;
}

void settle_figures(ColumnFigures& f) {
  f.inverse_pressure = 1.0 / f.pressure;
  f.inverse_first_water = 1.0 / f.first_water;
  f.isotherm_offset = log(0.125 * f.polymer_share);
  f.conductivity_gain =
      (f.conductivity_wet - f.conductivity_dry) * (f.first_water + 0.15) / f.first_water;
  // (373.15 / 298.15)^1.81 = 1.5010.
  f.free_vapour = f.vapour_passage *
                  (2.56e-5 * 1.5010 * k_standard_pressure_pa * k_water_molar_mass_kg_per_mol /
                   (k_gas_constant_j_per_mol_k * 373.15)) *
                  f.inverse_pressure;
  f.liquid_passage = f.solids_density * f.water_diffusivity;
  Lanes unused;
  // A start below that stands for ice (`frozen_start_k`), not for colder gas.
  const Lanes start_k = max(f.start_k, 255.15);
  const Lanes first = 0.97 * exp(log_saturation(start_k, unused)) * f.inverse_pressure;
  f.first_swelling = start_k / max(1.0 - first, 0.1);
}

}  // namespace maslin
