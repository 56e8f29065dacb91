#define DOCTEST_CONFIG_IMPLEMENT_WITH_MAIN
#include <doctest/doctest.h>

#if defined(__SANITIZE_ADDRESS__)
// Fontconfig's patterns hold their elements by an offset, not by a pointer: the leak detector
// cannot follow it, and now and then takes what the library keeps for lost.
extern "C" const char* __lsan_default_suppressions() {
  return "leak:libfontconfig\n";
}
#endif
