// The living card: one HTML file that holds a recipe, the rows of the pantry it needs, the
// engine and a page, and asks for nothing from anywhere.
#pragma once

#include <cstdint>
#include <string>

#include "app/app.h"

namespace maslin {

struct LivingCardRequest {
  Kitchen home;            // where the recipe works
  std::int64_t at_ms = 0;  // when the card is written
};

struct LivingCard {
  std::string html;
  /// Of style, data, engine and script, in that order, with a line feed between: what the
  /// card compares itself with.
  std::string sha256;
  std::string recipe_id;  // SHA-256 of the recipe's document
};
Result<LivingCard> living_card(const Tools& tools, const Recipe& recipe,
                               const LivingCardRequest& request);

/// {"bytes", "sha256", "recipe"} of a card.
std::string living_card_to_json(const LivingCard& card);
/// The same with the card itself as "html".
std::string living_card_with_page(const LivingCard& card);

}  // namespace maslin
