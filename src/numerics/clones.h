// A function compiled for several widths of vector, where the loader can choose; with
// contraction off all give the same bits. Put it before a definition that has linkage.
#pragma once

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(__OPTIMIZE__) && \
    !defined(__SANITIZE_ADDRESS__)
#define MASLIN_ALL_WIDTHS [[gnu::target_clones("avx512f", "avx2", "default"), gnu::flatten]]
#else
#define MASLIN_ALL_WIDTHS
#endif
