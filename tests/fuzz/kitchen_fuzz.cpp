#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "recipe/price_list.h"
#include "recipe/recipe_json.h"

/// Documents of a kitchen, of what it has learnt and of its prices. What was taken comes back
/// as it was.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace maslin;
  static const Pantry pantry(embedded_pantry_tables());
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const KitchenDocument read = kitchen_from_json(text);
  if (read.problems.empty()) {
    const std::string written = kitchen_to_json(read.kitchen);
    const KitchenDocument again = kitchen_from_json(written);
    if (!again.problems.empty() || kitchen_to_json(again.kitchen) != written) {
      std::abort();
    }
  }
  const std::string lessons = lessons_to_json(lessons_from_json(text));
  if (lessons_to_json(lessons_from_json(lessons)) != lessons) {
    std::abort();
  }
  const PriceReading prices = read_prices(text);
  for (const auto& [food, price] : food_prices(prices.list, pantry, "").by_id) {
    if (!(price.per_gram() >= 0.0)) {
      std::abort();
    }
  }
  return 0;
}
