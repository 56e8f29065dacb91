// Lists that begin in the middle of a line, and amounts told outside any list.
#include "reading/gatherer.h"
#include "reading/prose.h"

namespace maslin::reading {

bool Gatherer::tells_amounts(Text& text, const Span& span) const {
  if (section_ == SectionKind::notes || section_ == SectionKind::end) {
    return false;
  }
  std::size_t amounts = 0;
  for (const Mention& mention : read_mentions(text, span.from, span.to)) {
    const UnitKind unit =
        mention.line.measure ? unit_kind(mention.line.measure->unit) : UnitKind::none;
    const bool real = unit == UnitKind::mass || unit == UnitKind::volume;
    amounts += real && mention.amount && mention.line.ingredient != nullptr ? 1U : 0U;
  }
  return amounts >= 2;
}

std::optional<Heading> Gatherer::list_heading(Text& text, const Span& span) {
  auto found = read_heading(text, span.from, span.to);
  if (!found || !found->colon || !found->part) {
    return std::nullopt;
  }
  const LineLook rest = look_at(text, found->end, span.to);
  return rest.measure_first && rest.name && !rest.measure_only ? found : std::nullopt;
}

bool Gatherer::open_list(Text& text, Span& span, const LineState& state) {
  const auto found = list_heading(text, span);
  if (found) {
    open(*found, state);
    span.from = found->end;
  }
  return found.has_value();
}

std::size_t Gatherer::next_list(Text& text, const std::vector<Span>& all, std::size_t from) {
  while (from < all.size() && !list_heading(text, all[from])) {
    ++from;
  }
  return from;
}

bool Gatherer::list_follows(const Text& text, std::size_t from, std::size_t to) {
  for (const Span& segment : segments(text, from, to)) {
    const LineLook look = look_at(text, segment.from, segment.to);
    if (look.measure_first && look.name && !verb_first(text, segment.from, segment.to)) {
      return true;
    }
  }
  return false;
}

}  // namespace maslin::reading
