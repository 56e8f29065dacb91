#include "handon/handon.h"
#include "quantity/number_text.h"

namespace maslin::handon {
namespace {

CardLine card_line(const Line& line, std::size_t place) {
  CardLine out;
  out.line = place;
  out.name = line.part.empty() ? line.name : line.part;
  out.note = line.note;
  if (!line.weighed) {
    out.amount.way = line.part.empty() ? AmountWay::as_found : AmountWay::part;
    return out;
  }
  out.grams = line.grams.p50();
  out.amount.grams = out.grams;
  out.amount.words = number_text(out.grams, out.grams < 20.0 ? 1 : 0) + " g";
  return out;
}

}  // namespace

Card carry(const Recipe& recipe, const Pantry&, const CarryRequest& request) {
  Card card;
  card.original = recipe;
  card.recipe = recipe;
  card.kitchen = request.to;
  card.language = request.language.empty() ? "en-GB" : request.language;
  card.title = recipe.title;
  card.credit = recipe.found_at;
  int number = 0;
  for (std::size_t p = 0; p < recipe.parts.size(); ++p) {
    const Part& part = recipe.parts[p];
    CardPart carried{p, part.name, 0.0, {}, {}};
    for (std::size_t i = 0; i < part.lines.size(); ++i) {
      carried.lines.push_back(card_line(part.lines[i], i));
      carried.grams += carried.lines.back().grams;
    }
    for (std::size_t i = 0; i < part.steps.size(); ++i) {
      carried.steps.push_back({i, ++number, part.steps[i].text, ""});
    }
    card.parts.push_back(std::move(carried));
  }
  return card;
}

}  // namespace maslin::handon
