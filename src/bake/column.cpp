#include "bake/column.h"

namespace maslin {
namespace {

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
Lanes mean_square(double s0, double s1, const Lanes& n) {
  const auto power = [](double s, const Lanes& e) {
    return s > 0.0 ? pow(Lanes(s), e) : Lanes(0.0);
  };
  return (n + 1.0) / (n + 3.0) * (power(s1, n + 3.0) - power(s0, n + 3.0)) /
         (power(s1, n + 1.0) - power(s0, n + 1.0));
}

}  // namespace

Column make_column(const PieceGeometry& geometry, const Lanes& solids_kg, int cells_base,
                   int cells_open) {
  const Lanes& n = geometry.exponent;
  Column out;
  out.core = static_cast<std::size_t>(cells_base);
  out.count = static_cast<std::size_t>(cells_base + cells_open);
  out.solids_kg.assign(out.count, 0.0);
  out.depth_m.assign(out.count, 0.0);
  out.reach_m.assign(out.count, 0.0);
  out.base_area_m2 = geometry.base_area_m2;
  out.open_area_m2 = geometry.open_area_m2;
  struct Half {
    Lanes area, depth;
    int count;
    bool open;
  };
  Lanes whole = 0.0;
  for (const Half& half : {Half{geometry.base_area_m2, geometry.base_depth_m, cells_base, false},
                           Half{geometry.open_area_m2, geometry.open_depth_m, cells_open, true}}) {
    const std::vector<double> face = graded_faces(half.count, 0.16 / half.count);
    const Lanes half_volume = half.area * half.depth / (n + 1.0);
    for (int j = 0; j < half.count; ++j) {
      const auto at = static_cast<std::size_t>(j);
      const std::size_t node = half.open ? out.core + at : out.core - at;
      const Lanes inner = j == 0 ? Lanes(0.0) : pow(Lanes(face[at]), n + 1.0);
      const Lanes share = pow(Lanes(face[at + 1]), n + 1.0) - inner;
      out.solids_kg[node] += half_volume * share;
      out.depth_m[node] += half.depth * (face[at + 1] - face[at]);
      whole += half_volume * share;
      const Lanes here = mean_square(face[at], face[at + 1], n);
      const Lanes face_area = half.area * pow(Lanes(face[at + 1]), n);
      if (j + 1 == half.count) {
        const Lanes reach = half.area / (half.depth * (1.0 - here) / 2.0);
        (half.open ? out.open_reach_m : out.reach_m[0]) = reach;
        continue;
      }
      const Lanes there = mean_square(face[at + 1], face[at + 2], n);
      const Lanes distance = half.depth * (there - here) / (2.0 * face[at + 1]);
      out.reach_m[half.open ? node : node - 1] = face_area / distance;
      if (j == 0) {
        out.core_extrapolation = here / (there - here);
      }
    }
  }
  for (Lanes& kg : out.solids_kg) {
    kg = kg * solids_kg / whole;
  }
  return out;
}

}  // namespace maslin
