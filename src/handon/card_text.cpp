#include "handon/card_text.h"

#include <cmath>

#include "handon/card_words.h"
#include "handon/carried_lines.h"
#include "handon/differences.h"
#include "quantity/number_text.h"

namespace maslin::handon {
namespace {

/// A line of text stays one line, whatever a name holds.
std::string one_line(std::string_view text) {
  std::string out;
  for (const char c : text) {
    out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
  }
  return out;
}

std::string error_words(const HouseholdAmount& amount, const CardWords& words) {
  const double off = std::fabs(amount.error_pct);
  return off < 0.5 ? std::string()
                   : ", " + words.say(amount.error_pct > 0.0 ? "error_over" : "error_under",
                                      {words.number(off, 0)});
}

std::string heading_text(const Part& part, const CardPart& card, const CardWords& words) {
  const std::string kind(part_kind_name(part.kind));
  // In English the kind goes along, so that the text reads back to it.
  return words.english() && !part.name.empty() && part.name != kind ? card.name + " (" + kind + "):"
                                                                    : card.name + ":";
}

class TextCard {
 public:
  TextCard(const Card& card, const Pantry& pantry)
      : card_(card), pantry_(pantry), words_(card.language) {}

  std::string write() {
    head();
    for (const CardPart& part : card_.parts) {
      // Each part's own steps stand under it: so the text reads back to the same parts.
      write_lines(part);
      write_steps(part);
    }
    notes();
    return std::move(out_);
  }

 private:
  void line(const std::string& text) { out_ += one_line(text) + "\n"; }

  void head() {
    if (!card_.title.empty()) {
      line(card_.title);
      out_ += "\n";
    }
    if (words_.english() && !card_.recipe.locale.empty()) {
      line("Measures: " + card_.recipe.locale);
    }
    if (!card_.yield.empty()) {
      line(card_.yield);
    }
  }

  std::string amount_text(const CardLine& card_line, const Line& recipe_line) const {
    const HouseholdAmount& amount = card_line.amount;
    switch (amount.way) {
      case AmountWay::part:
        return recipe_line.weighed && recipe_line.found.number
                   ? grams_words(card_line.grams, words_) + (words_.english() ? " of the " : " ")
               : words_.english() ? "all of the "
                                  : "";
      case AmountWay::counted:
      case AmountWay::as_found:
        return amount.words.empty() ? "" : amount.words + " ";
      case AmountWay::scale:
      case AmountWay::measures:
        break;
    }
    const std::string& packing = recipe_line.found.packing;
    const bool of_name = packing.empty() || packing == "level" || packing == "heaped" ||
                         !words_.english() || card_line.name.rfind(packing, 0) == 0 ||
                         card_line.note.find(packing) != std::string::npos;
    return grams_words(card_line.grams, words_) + " " + (of_name ? "" : packing + " ");
  }

  void write_line(const CardLine& card_line, const Line& recipe_line) {
    std::string text = amount_text(card_line, recipe_line) + card_line.name;
    if (!card_line.note.empty()) {
      text += ", " + card_line.note;
    }
    if (card_line.amount.way == AmountWay::measures) {
      text += " (" + card_line.amount.words + error_words(card_line.amount, words_) + ")";
    }
    line(text);
  }

  void write_lines(const CardPart& part) {
    const Part& recipe_part = card_.recipe.parts[part.part];
    out_ += "\n";
    line(heading_text(recipe_part, part, words_));
    for (const CardLine& one : part.lines) {
      write_line(one, recipe_part.lines[one.line]);
    }
  }

  void write_steps(const CardPart& part) {
    out_ += part.steps.empty() ? "" : "\n";
    for (const CardStep& step : part.steps) {
      line(std::to_string(step.number) + ". " + step.words);
      if (!words_.english() && !step.as_found.empty()) {
        line("   " + words_.say("as_found", {step.as_found}));
      }
    }
  }

  void note(const std::string& text) { line("- " + text); }

  void measures() {
    bool measured = false;
    double spread = 0.0;
    for (const CardPart& part : card_.parts) {
      for (const CardLine& one : part.lines) {
        measured = measured || one.amount.way == AmountWay::measures;
        const Ingredient* ingredient =
            pantry_.find(card_.recipe.parts[part.part].lines[one.line].ingredient_id);
        if (ingredient != nullptr && ingredient->kind == IngredientKind::flour) {
          spread = std::max(spread, one.amount.spread_pct);
        }
      }
    }
    if (!measured) {
      return;
    }
    note(words_.say("measure_level"));
    for (const OwnMeasure& own : card_.kitchen.measures) {
      note(words_.say("measure_is", {words_.measure(own.name, 1.0), words_.number(own.ml, 1)}));
    }
    if (spread > 0.0) {
      note(words_.say("measure_spread", {words_.number(spread, 0)}));
    }
  }

  void notes() {
    out_ += "\n";
    line(words_.say("notes") + ":");
    if (!card_.setting.empty()) {
      note(card_.setting);
    }
    measures();
    if (card_.batch && !card_.batch->words.empty()) {
      note(card_.batch->words);
    }
    for (const BakeAdvice& advice : card_.baking) {
      note(advice.words);
    }
    for (const CardChange& change : card_.changes) {
      note(words_.say("change", {change.what, change.from, change.to, change.why}));
    }
    for (const Difference& difference : card_.differences) {
      note(difference.words);
    }
    for (const std::string& one : card_.notes) {
      note(one);
    }
    for (const Caution& caution : card_.cautions) {
      note(words_.say("mind") + ": " + caution.text);
    }
    if (!card_.credit.empty()) {
      note(words_.say("found_at", {card_.credit}));
    }
    for (const std::string& remark : card_.recipe.remarks) {
      // The yield stands at the top.
      if (card_.yield.empty() || remark.rfind("Makes", 0) != 0) {
        line(remark);
      }
    }
  }

  const Card& card_;
  const Pantry& pantry_;
  CardWords words_;
  std::string out_;
};

}  // namespace

std::string card_to_text(const Card& card, const Pantry& pantry) {
  return TextCard(card, pantry).write();
}

}  // namespace maslin::handon
