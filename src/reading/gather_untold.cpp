// What the method adds and nobody measures.
#include <algorithm>

#include "reading/gatherer.h"

namespace maslin::reading {
namespace {

/// "Stir in rye flour until about the consistency of pancakes": flour right behind what puts it in.
Match put_in(const Text& text, const Span& span) {
  for (std::size_t i = span.from + 1; i < span.to; ++i) {
    const Match name = match_name(text, i);
    if (!name || name.phrase->ingredient->kind != IngredientKind::flour) {
      continue;
    }
    std::size_t before = i;
    while (before > span.from && (is_class(text, before - 1, WordClass::note) ||
                                  is_class(text, before - 1, WordClass::packing) ||
                                  is_class(text, before - 1, WordClass::the))) {
      --before;
    }
    const bool put = before > span.from && (is_class(text, before - 1, WordClass::verb) ||
                                            is_class(text, before - 1, WordClass::stop));
    return put && verb_count(text, span.from, i) > 0 ? name : Match{};
  }
  return {};
}

}  // namespace

void Gatherer::take_untold_flour() {
  const auto starchy = [](const DraftLine& line) {
    return line.ingredient != nullptr && line.ingredient->kind == IngredientKind::starch;
  };
  for (const DraftPart& part : draft_.parts) {
    if (std::any_of(part.lines.begin(), part.lines.end(), starchy)) {
      return;
    }
  }
  if (!has_flour()) {
    take_untold(put_in, "");
  }
}

void Gatherer::take_untold(const std::function<Match(const Text&, const Span&)>& added,
                           std::string_view usual) {
  for (std::size_t at = 0; at < draft_.parts.size(); ++at) {
    for (const DraftStep& step : draft_.parts[at].steps) {
      for (const Span& span : sentences(*step.text, step.from, step.to)) {
        const Match what = added(*step.text, span);
        if (!what) {
          continue;
        }
        DraftLine line;
        line.ingredient = what.phrase->ingredient;
        line.line.ingredient_id = line.ingredient->id;
        line.line.name = line.ingredient->name;
        line.line.text = std::string(step.text->slice(span.from, span.to));
        line.purpose = "need";
        if (!usual.empty()) {
          line.doubts.push_back(
              {line.line.text, "the method adds " + line.ingredient->name +
                                   " and no line says how much: " + std::string(usual)});
        }
        const std::size_t back = part_;
        part_ = at;
        add_line(std::move(line));
        part_ = back;
        return;
      }
    }
  }
}

}  // namespace maslin::reading
