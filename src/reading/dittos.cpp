// Ditto marks: "1 cup suet" and after it `1/2 " sugar`.
#include "reading/gatherer.h"

namespace maslin::reading {

void Gatherer::read_dittos(Text& text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i].is('"') && i > 0 && text[i].spaced && text[i - 1].is_number() &&
        text[i + 1].spaced && text[i + 1].kind == TokenKind::word && !ditto_.empty()) {
      Token& mark = text.tokens[i];
      mark.kind = TokenKind::word;
      mark.mark = '\0';
      mark.word = ditto_;
      bind(text, i);
      continue;
    }
    const Match unit = i > 0 && text[i - 1].is_number() ? match(text, i, WordClass::unit) : Match{};
    const UnitKind kind = unit ? unit_kind(unit.phrase->means) : UnitKind::none;
    if (unit && unit.end == i + 1 && (kind == UnitKind::volume || kind == UnitKind::mass)) {
      ditto_ = text[i].word;
    }
  }
}

}  // namespace maslin::reading
