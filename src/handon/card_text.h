// The card as plain text, as one page of HTML, and as a JSON document.
#pragma once

#include <string>

#include "handon/handon.h"

namespace maslin::handon {

/// Ordinary recipe text: grams first and the measures there after them, the steps, then how to
/// measure and bake and what will differ, as notes. In English `read_text` reads it back to
/// card.recipe within written grams.
std::string card_to_text(const Card& card, const Pantry& pantry);

/// One self-contained page, without scripts and without anything fetched, to show or to print on
/// A4 or Letter. Everything found or told is escaped.
std::string card_to_html(const Card& card);

/// docs/schema/hand_on.schema.json.
std::string card_to_json(const Card& card);

}  // namespace maslin::handon
