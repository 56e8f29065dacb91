#include "bake/solid.h"

#include <algorithm>
#include <cmath>

namespace maslin {
namespace {

constexpr double k_pi = 3.14159265358979323846;

/// Edges from 0 to 1 whose cells shrink toward 1 by a constant ratio.
std::vector<double> edges_toward_one(int count, double ratio) {
  std::vector<double> out{0.0};
  double cell = 1.0, sum = 0.0;
  for (int i = 0; i < count; ++i) {
    sum += cell;
    out.push_back(sum);
    cell *= ratio;
  }
  for (double& edge : out) {
    edge /= sum;
  }
  return out;
}

/// Edges from 0 to 1 whose cells shrink toward both ends.
std::vector<double> edges_toward_both(int count, double ratio) {
  const int low = count / 2;
  const std::vector<double> below = edges_toward_one(low, ratio);
  const std::vector<double> above = edges_toward_one(count - low, ratio);
  std::vector<double> out;
  for (std::size_t i = below.size(); i-- > 0;) {
    out.push_back(0.5 * (1.0 - below[i]));
  }
  for (std::size_t i = 1; i < above.size(); ++i) {
    out.push_back(0.5 * (1.0 + above[i]));
  }
  return out;
}

/// Ratio of growth so that the last of `count` cells is about `finest` of the whole.
double ratio_for(int count, double finest) {
  double low = 0.5, high = 1.0;
  for (int i = 0; i < 50; ++i) {
    const double ratio = 0.5 * (low + high);
    const std::vector<double> edges = edges_toward_one(count, ratio);
    (edges[edges.size() - 1] - edges[edges.size() - 2] < finest ? low : high) = ratio;
  }
  return low;
}

struct Outline {
  bool round;
  double half_x, half_y, height, open_share, tin_share, tin_height;
};

double height_at(const Outline& shape, double x) {
  if (!shape.round) {
    return shape.height;
  }
  const double r = x / shape.half_x;
  return shape.height * (k_dome_rim + (1.0 - k_dome_rim) * (1.0 - r * r));
}

/// Area of the top over the footprint below it.
double slant_at(const Outline& shape, double x) {
  if (!shape.round) {
    return k_domed_top;
  }
  const double slope = 2.0 * (1.0 - k_dome_rim) * shape.height * x / (shape.half_x * shape.half_x);
  return std::sqrt(1.0 + slope * slope);
}

Outline outline_of(const PieceSize& size) {
  Outline out{};
  out.round = size.form != PieceForm::block;
  out.half_x = 0.5 * size.width_m[0];
  out.half_y = 0.5 * size.length_m[0];
  out.height = size.height_m[0];
  if (out.round) {
    // Volume pi a^2 h (rim + (1 - rim)/2); the size's height is of a cap.
    out.height = size.volume_m3[0] /
                 (k_pi * out.half_x * out.half_x * (k_dome_rim + 0.5 * (1.0 - k_dome_rim)));
    out.open_share = 1.0;
  } else {
    out.open_share = 0.25 * size.open_sides[0];
    out.tin_share = 0.25 * size.tin_sides[0];
    // In a tin the sides are covered up to its rim, open above; else a share throughout.
    out.tin_height = out.tin_share > 0.0 ? out.tin_share * out.height : -1.0;
  }
  return out;
}

/// Open and covered area of a side face of this whole area between two heights.
void put_side(const Outline& shape, double area, double low, double high, double reach,
              SolidSide& side, std::size_t at, std::size_t lane) {
  double covered = 0.0;
  if (shape.tin_height >= 0.0) {
    covered = std::clamp((shape.tin_height - low) / (high - low), 0.0, 1.0);
  }
  const double open = shape.tin_height >= 0.0 ? 1.0 - covered : shape.open_share;
  side.open_m2[at].set(lane, area * open);
  side.tin_m2[at].set(lane, area * covered);
  side.reach_m[at].set(lane, reach * (open + covered));
}

}  // namespace

SolidGrid make_solid(const PieceSize& size, double solids_kg, const SolidCells& cells) {
  const Outline shape = outline_of(size);
  SolidGrid g;
  g.groups = static_cast<std::size_t>(std::max(cells.across, 8)) / k_lane_count;
  g.round = shape.round;
  g.along = shape.round ? 1 : static_cast<std::size_t>(std::max(cells.along, 1));
  g.up = static_cast<std::size_t>(std::max(cells.up, 4));
  const int nx = static_cast<int>(g.across()), ny = static_cast<int>(g.along);
  for (const double edge : edges_toward_one(nx, ratio_for(nx, 0.4 / nx))) {
    g.x_m.push_back(edge * shape.half_x);
  }
  for (const double edge : edges_toward_one(ny, ny > 1 ? ratio_for(ny, 0.4 / ny) : 1.0)) {
    g.y_m.push_back(edge * shape.half_y);
  }
  g.share_up =
      edges_toward_both(static_cast<int>(g.up),
                        ratio_for(static_cast<int>(g.up) / 2, 0.8 / static_cast<double>(g.up)));
  for (std::vector<Lanes>* field : {&g.solids_kg, &g.reach_z, &g.reach_x, &g.reach_y}) {
    field->assign(g.nodes(), 0.0);
  }
  for (SolidSide* side : {&g.side, &g.end}) {
    side->open_m2.assign(g.nodes(), 0.0);
    side->tin_m2.assign(g.nodes(), 0.0);
    side->reach_m.assign(g.nodes(), 0.0);
  }
  g.foot_m2.assign(g.columns(), 0.0);
  g.top_m2.assign(g.columns(), 0.0);
  const std::size_t across = g.across();
  const auto middle = [](const std::vector<double>& edge, std::size_t i) {
    return 0.5 * (edge[i] + edge[i + 1]);
  };
  for (std::size_t x = 0; x < across; ++x) {
    g.height_m.push_back(height_at(shape, middle(g.x_m, x)));
  }
  double whole = 0.0;
  for (std::size_t y = 0; y < g.along; ++y) {
    for (std::size_t x = 0; x < across; ++x) {
      const std::size_t lane = x / g.groups, column = y * g.groups + x % g.groups;
      const double dx = g.x_m[x + 1] - g.x_m[x];
      const double dy = shape.round ? 2.0 * k_pi * middle(g.x_m, x) : g.y_m[y + 1] - g.y_m[y];
      const double foot = dx * dy;
      const double height = g.height_m[x];
      g.foot_m2[column].set(lane, foot);
      g.top_m2[column].set(lane, foot * slant_at(shape, middle(g.x_m, x)));
      for (std::size_t k = 0; k <= g.up; ++k) {
        const std::size_t at = g.node(column, k);
        const auto up_middle = [&](std::size_t cell) {
          return 0.5 * (g.share_up[cell - 1] + g.share_up[cell]) * height;
        };
        const double below = k == 0 ? 0.0 : up_middle(k);
        const double above = k == g.up ? height : up_middle(k + 1);
        g.reach_z[at].set(lane, foot / (above - below));
        if (k == 0) {
          continue;
        }
        const double share = g.share_up[k] - g.share_up[k - 1];
        g.solids_kg[at].set(lane, foot * height * share);
        whole += foot * height * share;
        const double wide = shape.round ? 2.0 * k_pi * g.x_m[x + 1] : dy;
        if (x + 1 < across) {
          const double meet = 0.5 * (height + g.height_m[x + 1]) * share * wide;
          g.reach_x[at].set(lane, meet / (middle(g.x_m, x + 1) - middle(g.x_m, x)));
        } else {
          const double edge = height_at(shape, g.x_m[across]);
          put_side(shape, edge * share * wide, g.share_up[k - 1] * height, g.share_up[k] * height,
                   edge * share * wide / (0.5 * dx), g.side, at, lane);
        }
        if (y + 1 < g.along) {
          g.reach_y[at].set(lane, dx * height * share / (middle(g.y_m, y + 1) - middle(g.y_m, y)));
        } else if (g.along > 1) {
          put_side(shape, dx * height * share, g.share_up[k - 1] * height, g.share_up[k] * height,
                   dx * height * share / (0.5 * dy), g.end, at, lane);
        }
      }
    }
  }
  // A quarter holds a quarter of the dry matter; a round piece is taken whole, and a
  // section stands for its whole length.
  const double part = shape.round ? 1.0 : 0.25;
  for (Lanes& kg : g.solids_kg) {
    kg = kg * (solids_kg * part / whole);
  }
  return g;
}

SolidRoom solid_room(const SolidGrid& grid) {
  SolidRoom room{{}, {}, {}, {}, {}, {}, {}, {}, {}, {}, 0.0, {}, SolidSolver(grid.shape())};
  const std::size_t count = grid.nodes();
  room.physics.resize(count);
  static_cast<StencilShape&>(room.matrix) = grid.shape();
  room.matrix.resize();
  for (std::vector<Pair>* pairs :
       {&room.mass, &room.inner, &room.weight, &room.right, &room.residual}) {
    pairs->resize(count);
  }
  room.stage.assign(4, std::vector<Pair>(count, Pair{0.0, 0.0}));
  room.surface.resize(count);
  room.first_surface.resize(count);
  room.trial.temperature.resize(count);
  room.trial.water.resize(count);
  return room;
}

SolidGain solid_totals(const SolidGrid& grid, const ColumnFigures& figures,
                       const SolidState& state) {
  SolidGain out;
  for (std::size_t column = 0; column < grid.columns(); ++column) {
    const std::size_t plate = grid.node(column, 0);
    out.heat_j += sum(grid.foot_m2[column] * figures.plate_heat * state.temperature[plate]);
    for (std::size_t k = 1; k <= grid.up; ++k) {
      const std::size_t at = grid.node(column, k);
      out.heat_j += sum(grid.solids_kg[at] *
                        (figures.solids_heat + k_liquid_heat_j_per_kg_k * state.water[at]) *
                        (state.temperature[at] - k_zero_celsius_k));
      out.water_kg += sum(grid.solids_kg[at] * state.water[at]);
    }
  }
  return out;
}

}  // namespace maslin
