// Functions compiled for several widths of vector, where the loader or the caller can choose;
// with contraction off all give the same bits. Put these before a definition that has linkage.
#pragma once

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(__OPTIMIZE__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define MASLIN_ALL_WIDTHS [[gnu::target_clones("avx512f", "avx2", "default"), gnu::flatten]]
// For loops that are worth being written for any lanes: one function of `WideLanes` for machines
// that hold eight lanes in a register, beside one of `NarrowLanes` for the others.
#define MASLIN_HAS_WIDE 1
#define MASLIN_WIDE \
  [[gnu::target("avx512f,avx512vl,avx512dq,avx512bw,avx2,bmi,bmi2"), gnu::flatten]]
#define MASLIN_NARROW [[gnu::target_clones("avx2", "default"), gnu::flatten]]
#elif defined(__clang__)
#define MASLIN_ALL_WIDTHS
#define MASLIN_HAS_WIDE 0
#define MASLIN_NARROW [[gnu::flatten]]
#else
#define MASLIN_ALL_WIDTHS
#define MASLIN_HAS_WIDE 0
#define MASLIN_NARROW
#endif

namespace maslin {

/// Whether functions of `WideLanes` run on this machine.
inline bool has_wide_registers() {
#if MASLIN_HAS_WIDE
  return __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512vl") &&
         __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512bw");
#else
  return false;
#endif
}

}  // namespace maslin
