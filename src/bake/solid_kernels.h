// The loops of the solid's linear solver, slab by slab; each compiled for several widths of
// vector.
#pragma once

#include "bake/solid_solver.h"

namespace maslin::solid_kernels {

/// Sums over a slab, by columns in floats, then in doubles.
struct Sums {
  double first = 0.0, second = 0.0;
};

/// The matrix of a slab with its rows weighted, in floats, and its lines factored.
void weigh(const StencilOf<Lanes>& from, const std::vector<Pair>& weight, std::size_t slab,
           SweptMatrix& to);
/// x = sweep of `from`.
void sweep(const SweptMatrix& swept, std::size_t slab, const FloatPair* from, FloatPair* x);
/// y = start + (what the sweep leaves out of the matrix) x.
void left_out(const SweptMatrix& swept, std::size_t slab, const FloatPair* start,
              const FloatPair* x, FloatPair* y);
/// x . y and y . y.
Sums dots(const StencilShape& shape, std::size_t slab, const FloatPair* x, const FloatPair* y);
/// y -= scale x; y . y.
Sums take(const StencilShape& shape, std::size_t slab, float scale, const FloatPair* x,
          FloatPair* y);
/// x += alpha half + omega second, r -= omega t; r . shadow and r . r.
struct Vectors {
  FloatPair *x, *r;
  const FloatPair *half, *second, *t, *shadow;
};
Sums advance(const StencilShape& shape, std::size_t slab, float alpha, float omega,
             const Vectors& of);
/// p = r + beta (p - omega v).
void turn(const StencilShape& shape, std::size_t slab, float beta, float omega, const FloatPair* r,
          const FloatPair* v, FloatPair* p);

/// r = weighted, in floats; r . r in doubles as `first`.
Sums narrow(const StencilShape& shape, std::size_t slab, const Pair* residual, const Pair* weight,
            FloatPair* r);
/// x += what the solver found.
void widen(const StencilShape& shape, std::size_t slab, const FloatPair* found, Pair* x);
void residual_of(const StencilOf<Lanes>& matrix, std::size_t slab, const Pair* b, const Pair* x,
                 Pair* residual, Pair* line);

}  // namespace maslin::solid_kernels
