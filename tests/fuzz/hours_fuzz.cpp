#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "app/library.h"
#include "plan/clock_text.h"
#include "plan/open_hours.h"
#include "recipe/kitchen.h"

/// Hours and moments as a person writes them. Hours that were understood come back as they
/// were, and open hours find a time for what fits in a day.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace maslin;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  static_cast<void>(clock_from(text));
  static_cast<void>(clock_said(text, 29'000'000.0));
  static_cast<void>(moment_of(text, 1'700'000'000'000));
  const auto hours = daily_hours_from(text);
  if (!hours) {
    return 0;
  }
  const std::string written = daily_hours_text(*hours);
  const auto again = daily_hours_from(written);
  if (!again || daily_hours_text(*again) != written) {
    std::abort();
  }
  const OpenHours open({*hours});
  const double fitted = open.fit(1000.0, 0.0, 1.0, 0.0);
  if (!open.never() && !(fitted >= 1000.0 && fitted <= 1000.0 + 3 * 1440.0)) {
    std::abort();
  }
  return 0;
}
