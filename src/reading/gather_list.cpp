// Lists: their lines, those that begin in the middle of a line, and amounts told outside any.
#include <algorithm>

#include "reading/amounts.h"
#include "reading/gatherer.h"
#include "reading/prose.h"
#include "reading/setting.h"
#include "reading/two_at_once.h"

namespace maslin::reading {
namespace {

// A recipe document holds so many; what goes over is kept as remarks.
constexpr std::size_t k_most_part_lines = 400;

}  // namespace

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
  // "Filling 100 g sugar …" in a line that runs on
  if (const Match bare = match(text, span.from, WordClass::part);
      bare && bare.end == span.from + 1 && text[bare.end].is_number() && text[span.from].capital) {
    Heading out;
    out.part = part_kind_from(bare.phrase->means);
    out.name = std::string(text[span.from].word);
    out.end = bare.end;
    out.name_end = bare.end;
    return out.part ? std::optional(out) : std::nullopt;
  }
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

void Gatherer::part_method(const Text& text, std::vector<Span>& all) {
  for (std::size_t n = 0; n < all.size(); ++n) {
    if (verb_first(text, all[n].from, all[n].to)) {
      continue;
    }
    for (std::size_t i = all[n].from + 1; i + 1 < all[n].to; ++i) {
      const Match verb =
          text[i].is(',') || text[i].is(';') ? match(text, i + 1, WordClass::verb) : Match{};
      const bool strong = verb && verb.phrase->value == 0.0 && !match_name(text, i + 1) &&
                          !is_class(text, i + 1, WordClass::note) &&
                          !is_class(text, i + 1, WordClass::packing);
      const LineLook list = strong ? look_at(text, all[n].from, i) : LineLook{};
      const LineLook rest = strong ? look_at(text, i + 1, all[n].to) : LineLook{};
      if (strong && list.measure_first && list.name && rest.words >= 2 && !rest.name) {
        const Span method{i + 1, all[n].to};
        all[n].to = i;
        all.insert(all.begin() + static_cast<std::ptrdiff_t>(n) + 1, method);
        break;
      }
    }
  }
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

/// The last word is "each", behind an amount.
bool ends_with_each(const Text& text, const Span& span) {
  std::size_t to = span.to;
  while (to > span.from && text[to - 1].kind == TokenKind::mark) {
    --to;
  }
  return to > span.from + 2 && is_class(text, to - 1, WordClass::each) &&
         (is_class(text, to - 2, WordClass::unit) || text[to - 2].is('.') ||
          text[to - 2].is_number());
}

bool Gatherer::add_lines(Text& text, const Span& span) {
  std::vector<DraftLine> lines = read_each(text, span.from, span.to);
  const bool each = lines.size() > 1;
  if (!each) {
    lines.clear();
  }
  std::size_t together = 0;  // where the things joined by "and" begin
  for (const Span& one : each ? std::vector<Span>() : ingredient_spans(text, span.from, span.to)) {
    // "2 eggs + a handful of seeds on top": a sum's sign joins less than a word.
    together = one.joined && !text[one.from - 1].is('+') ? together : lines.size();
    const auto said = part_said(text, one);
    if (const auto pieces = count_of_pieces(text, one)) {
      draft_.pieces = draft_.pieces ? draft_.pieces : pieces;
      draft_.remarks.emplace_back(text.slice(one.from, one.to));
      continue;
    }
    std::vector<DraftLine> read;
    if (is_class(text, skip_bullets(text, one.from, one.to), WordClass::each)) {
      read = read_each(text, one.from, one.to);
    }
    if (read.size() < 2) {
      read = read_ingredient(text, one.from, one.to);
    }
    for (DraftLine& line : read) {
      line.part_said = said;
      for (std::size_t i = together; i < lines.size() && !line.purpose.empty(); ++i) {
        lines[i].purpose = lines[i].purpose.empty() ? line.purpose : lines[i].purpose;
      }
      lines.push_back(std::move(line));
    }
    if (one.joined) {
      halve_joined(lines);
    }
  }
  // "Ham and cheese, 150 g each"
  if (lines.size() > 1 && lines.back().measure && !each && ends_with_each(text, span)) {
    for (std::size_t i = lines.size() - 1; i > 0 && !lines[i - 1].measure; --i) {
      lines[i - 1].measure = lines.back().measure;
      lines[i - 1].line.found = lines.back().line.found;
    }
  }
  // "For brushing 1 egg yolk + 1 tbsp milk, pearl sugar": what leads the line is said of all.
  const std::size_t start = skip_bullets(text, span.from, span.to);
  const bool led = static_cast<bool>(match(text, start, WordClass::purpose));
  for (std::size_t i = 1; led && i < lines.size(); ++i) {
    lines[i].purpose = lines[i].purpose.empty() ? lines[i - 1].purpose : lines[i].purpose;
  }
  const bool any = !lines.empty();
  // "Flaked almonds, candied fruit, sugar (to decorate)"
  const bool bare = std::none_of(lines.begin(), lines.end(),
                                 [](const DraftLine& line) { return line.measure.has_value(); });
  for (std::size_t i = 0; bare && i + 1 < lines.size(); ++i) {
    lines[i].purpose = lines[i].purpose.empty() ? lines.back().purpose : lines[i].purpose;
  }
  for (DraftLine& line : lines) {
    add_line(std::move(line));
  }
  last_was_ingredient_ = last_was_ingredient_ || any;
  after_method_ = false;
  return any;
}

std::optional<PartKind> Gatherer::part_said(const Text& text, const Span& span) {
  std::size_t to = span.to;
  while (to > span.from && text[to - 1].kind == TokenKind::mark) {
    --to;
  }
  for (std::size_t i = span.from + 3; i < to; ++i) {
    const Match word = match(text, i, WordClass::part);
    const bool led =
        is_class(text, i - 2, WordClass::lead) && is_class(text, i - 1, WordClass::the);
    if (word && word.end >= to && led && !is_class(text, i - 2, WordClass::purpose)) {
      return part_kind_from(word.phrase->means);
    }
  }
  return std::nullopt;
}

void Gatherer::add_line(DraftLine line) {
  DraftPart& here = current();
  const std::size_t back = part_;
  if (line.part_said && *line.part_said != here.kind) {
    const PartKind kind = *line.part_said;
    const auto open = std::find_if(draft_.parts.begin(), draft_.parts.end(),
                                   [&](const DraftPart& one) { return one.kind == kind; });
    part(kind, open == draft_.parts.end() ? std::string() : open->name)
        .lines.push_back(std::move(line));
    part_ = back;
    return;
  }
  const bool outer =
      here.kind == PartKind::wash || here.kind == PartKind::topping || here.kind == PartKind::glaze;
  if (!outer && line.purpose == "wash") {
    part(PartKind::wash, "wash").lines.push_back(std::move(line));
    part_ = back;
  } else if (!outer && line.purpose == "top") {
    part(PartKind::topping, "topping").lines.push_back(std::move(line));
    part_ = back;
  } else if (here.lines.size() < k_most_part_lines) {
    here.lines.push_back(std::move(line));
  } else {
    draft_.remarks.push_back(line.line.text);
  }
}

bool Gatherer::ends_with_amount(const Text& text, const Span& span) {
  const std::size_t to = trim_back(text, span.from, span.to);
  const std::size_t from = inner_measure(text, span.from, to);
  const auto measure = from < to ? any_measure(text, from) : std::nullopt;
  return measure && measure->number && measure->to >= to &&
         (!measure->unit.empty() || measure->number->high <= 30.0);
}

bool Gatherer::is_bare_loose(const Text& text, const Span& span) {
  const std::size_t from = skip_bullets(text, span.from, span.to);
  const Match loose = match(text, from, WordClass::loose);
  const Match name = loose ? match_name(text, loose.end) : Match{};
  return name && name.end >= trim_back(text, span.from, span.to);
}

bool Gatherer::heads_columns(const Text& text, const Span& span) {
  std::size_t words = 0;
  for (std::size_t i = span.from; i < span.to; ++i) {
    if (text[i].is_number() || match_name(text, i)) {
      return false;
    }
    if (text[i].kind != TokenKind::word) {
      continue;
    }
    ++words;
    if (!is_class(text, i, WordClass::label) && !is_class(text, i, WordClass::section) &&
        !is_class(text, i, WordClass::unit)) {
      return false;
    }
  }
  return words >= 2;
}

bool Gatherer::is_bare_figure(const Text& text, const Span& span) {
  const std::size_t first = skip_bullets(text, span.from, span.to);
  if (const auto time = any_time(text, first)) {
    return time->end >= span.to;
  }
  const Match label = text[first].is_number() ? match(text, first + 1, WordClass::label) : Match{};
  return label && label.phrase->means == "time" && label.end >= span.to;
}

bool Gatherer::leads_list(const Text& text, const Span& span) const {
  const auto whole_name = [](const Text& line, std::size_t from, std::size_t to) {
    const Match name = match_name(line, from);
    return name && name.end >= trim_back(line, from, to);
  };
  if (draft_.title.empty() || section_ == SectionKind::method || after_method_ ||
      !whole_name(text, span.from, span.to)) {
    return false;
  }
  for (std::size_t i = at_ + 1; i < std::min(lines_.size(), at_ + 6); ++i) {
    if (lines_[i].listed) {
      return true;
    }
    if (!whole_name(*lines_[i].text, lines_[i].from, lines_[i].to)) {
      return false;
    }
  }
  return false;
}

bool Gatherer::has_heat(const Text& text, const Span& span) {
  for (std::size_t i = span.from; i < span.to; ++i) {
    const Match words = match(text, i, WordClass::heat);  // "moderate oven"
    bool oven = false;
    for (std::size_t at = i; words && at <= words.end; ++at) {
      oven = oven || is_class(text, at, WordClass::oven);
    }
    if (oven || any_heat(text, i)) {
      return true;
    }
  }
  return false;
}

bool Gatherer::has_purpose(const Text& text, const Span& span) {
  for (std::size_t i = span.from; i < span.to; ++i) {
    if (is_class(text, i, WordClass::purpose)) {
      return true;
    }
  }
  return false;
}

}  // namespace maslin::reading
