// A card as a PDF: pages to print, with the day, the rise and the bake as pictures.
#pragma once

#include <cstdint>
#include <string>

#include "handon/handon.h"

namespace maslin::print {

enum class Paper : std::uint8_t { a4, letter };
/// Letter in North America and where it is used, A4 elsewhere.
Paper paper_of(const std::string& country);

/// The document's bytes; empty when it cannot be made.
std::string card_to_pdf(const handon::Card& card, Paper paper);

}  // namespace maslin::print
