// A linearly implicit method for stiff rates.
#pragma once

#include <cstddef>

namespace maslin::rodas3 {

// RODAS3 (Sandu et al. 1997, Atmos. Environ. 31:3459; coefficients from memory, the order
// measured by the bake's tests): four stages, three of them with new rates, third order,
// L-stable, the last stage itself the error. With m the capacity and F the rates,
//   (m - gamma h F') v_i = gamma h F(u + m sum a_ij v_j) + gamma m sum c_ij v_j,
//   u' = u + m (2 v_0 + v_2 + v_3).
// It keeps every linear balance that F keeps.
inline constexpr std::size_t k_stages = 4;
inline constexpr double k_gamma = 0.5;
inline constexpr double k_a[k_stages][k_stages] = {{0}, {0}, {2, 0, 0}, {2, 0, 1}};
inline constexpr double k_c[k_stages][k_stages] = {{0}, {4}, {1, -1}, {1, -1, -8.0 / 3.0}};
inline constexpr double k_m[k_stages] = {2, 0, 1, 1};
/// Where in the step what changes with time is taken: stage time plus gamma sum.
inline constexpr double k_when[k_stages] = {0.5, 1.5, 1.0, 1.0};

}  // namespace maslin::rodas3
