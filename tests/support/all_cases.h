#pragma once

#include <cstdlib>

namespace maslin {

/// Whether a test is to go through all its cases: as ctest's `slow` tests do, and `./check --all`.
/// The usual check takes a share of them, so that it ends within minutes.
inline bool all_cases() {
  return std::getenv("MASLIN_ALL_CASES") != nullptr;
}

}  // namespace maslin
