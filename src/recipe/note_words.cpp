#include "recipe/note_words.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "quantity/number_text.h"
#include "quantity/table.h"
#include "recipe/embedded_table.h"
#include "recipe/note_cut.h"

namespace maslin {
namespace {

struct RoleName {
  std::string_view name;
  NoteRole role;
};
constexpr std::array<RoleName, 25> k_roles{{{"ratio", NoteRole::ratio},
                                            {"rising", NoteRole::rising},
                                            {"not", NoteRole::not_so},
                                            {"nearly", NoteRole::nearly},
                                            {"above", NoteRole::above},
                                            {"below", NoteRole::below},
                                            {"core", NoteRole::core},
                                            {"dough", NoteRole::dough},
                                            {"room", NoteRole::room},
                                            {"other", NoteRole::other},
                                            {"flour_left", NoteRole::flour_left},
                                            {"before", NoteRole::before},
                                            {"after", NoteRole::after},
                                            {"after_bake", NoteRole::after_bake},
                                            {"height", NoteRole::height},
                                            {"done", NoteRole::done},
                                            {"raw", NoteRole::raw},
                                            {"at", NoteRole::at},
                                            {"from", NoteRole::from},
                                            {"to", NoteRole::to},
                                            {"out_of", NoteRole::out_of},
                                            {"prove", NoteRole::prove},
                                            {"feel", NoteRole::feel},
                                            {"crust", NoteRole::crust},
                                            {"glaze_did", NoteRole::glaze_did}}};

struct UnitName {
  std::string_view role;
  NoteDimension dimension;
};
constexpr std::array<UnitName, 9> k_units{{{"minute", NoteDimension::minutes},
                                           {"celsius", NoteDimension::celsius},
                                           {"fahrenheit", NoteDimension::fahrenheit},
                                           {"degrees", NoteDimension::degrees},
                                           {"gram", NoteDimension::grams},
                                           {"millimetre", NoteDimension::millimetres},
                                           {"millilitre", NoteDimension::millilitres},
                                           {"percent", NoteDimension::percent},
                                           {"times", NoteDimension::factor}}};

const UnitName* unit_of(std::string_view role) {
  const auto at = std::find_if(k_units.begin(), k_units.end(),
                               [&](const UnitName& unit) { return unit.role == role; });
  return at == k_units.end() ? nullptr : &*at;
}

/// Joins the words of phrases and gives each item what the table says of it.
class Namer {
 public:
  Namer(std::vector<NoteItem> items, const NoteWords& words)
      : items_(std::move(items)), words_(words) {}

  std::vector<NoteItem> named() {
    for (at_ = 0; at_ < items_.size();) {
      if (items_[at_].role != NoteRole::word) {
        out_.push_back(items_[at_++]);
      } else {
        phrase();
      }
    }
    return std::move(out_);
  }

 private:
  void phrase() {
    for (std::size_t length = words_.longest_phrase(); length > 0; --length) {
      std::string phrase;
      std::size_t end = at_;
      while (end < items_.size() && end < at_ + length && items_[end].role == NoteRole::word) {
        phrase += (phrase.empty() ? "" : " ") + items_[end++].word;
      }
      const NoteWords::Row* row = end == at_ + length ? words_.find(phrase) : nullptr;
      if (row != nullptr && apply(*row, phrase, end)) {
        at_ = end;
        return;
      }
    }
    out_.push_back(items_[at_++]);
  }

  NoteItem* bare_before() {
    const bool bare = !out_.empty() && out_.back().role == NoteRole::quantity &&
                      out_.back().dimension == NoteDimension::bare;
    return bare ? &out_.back() : nullptr;
  }

  /// "an hour and 20 minutes".
  bool joins_times(std::size_t next) const {
    return !out_.empty() && out_.back().role == NoteRole::quantity &&
           out_.back().dimension == NoteDimension::minutes && next < items_.size() &&
           items_[next].role == NoteRole::quantity;
  }

  /// False when the phrase only means this beside a number and there is none.
  bool apply(const NoteWords::Row& row, const std::string& phrase, std::size_t end) {
    NoteItem item;
    item.begin = items_[at_].begin;
    item.end = items_[end - 1].end;
    item.word = row.value;
    if (const UnitName* unit = unit_of(row.role)) {
      return apply_unit(*unit, row, phrase, end);
    }
    if (row.role == "number" || row.role == "minutes") {
      item.role = NoteRole::quantity;
      item.dimension = row.role == "number" ? NoteDimension::bare : NoteDimension::minutes;
      item.value = number_from(row.value).value_or(0.0);
    } else if (row.role == "and") {
      item.role = joins_times(end) ? NoteRole::word : NoteRole::clause_end;
    } else {
      const auto role = std::find_if(k_roles.begin(), k_roles.end(),
                                     [&](const RoleName& one) { return one.name == row.role; });
      item.role = role == k_roles.end() ? NoteRole::word : role->role;
      item.value = number_from(row.value).value_or(0.0);
    }
    if (row.role != "and" || item.role != NoteRole::word) {
      out_.push_back(std::move(item));
    }
    return true;
  }

  bool apply_unit(const UnitName& unit, const NoteWords::Row& row, const std::string& phrase,
                  std::size_t end) {
    const bool number_after = end < items_.size() && items_[end].role == NoteRole::quantity &&
                              items_[end].dimension == NoteDimension::bare;
    NoteItem* number = bare_before();
    if (number != nullptr && phrase == "x" && number_after) {
      return false;  // "30 x 20 cm" is a tin
    }
    if (number != nullptr) {
      number->dimension = unit.dimension;
      number->value *= number_from(row.value).value_or(1.0);
      number->end = items_[end - 1].end;
      return true;
    }
    // "x2": the sign stands before its number.
    if (phrase == "x" && number_after) {
      items_[end].dimension = NoteDimension::factor;
      items_[end].begin = items_[at_].begin;
      return true;
    }
    // "L 55": a colour's lightness, where a litre has its number before it.
    if (phrase == "l" && number_after && items_[end].value <= 100.0) {
      items_[end].dimension = NoteDimension::lightness;
      items_[end].begin = items_[at_].begin;
      return true;
    }
    return false;
  }

  std::vector<NoteItem> items_;
  const NoteWords& words_;
  std::size_t at_ = 0;
  std::vector<NoteItem> out_;
};

bool adds_up(const NoteItem& first, const NoteItem& second) {
  return first.role == NoteRole::quantity && second.role == NoteRole::quantity &&
         (first.dimension == NoteDimension::minutes || first.dimension == NoteDimension::grams) &&
         (second.dimension == first.dimension ||
          (second.dimension == NoteDimension::bare && first.dimension == NoteDimension::minutes &&
           first.value >= 60.0)) &&
         second.value < first.value;
}

/// "1 h 10 min", "1 h 30", "2 lb 3 oz" are one quantity.
std::vector<NoteItem> summed(const std::vector<NoteItem>& items) {
  std::vector<NoteItem> out;
  for (const NoteItem& item : items) {
    if (!out.empty() && adds_up(out.back(), item)) {
      out.back().value += item.value;
      out.back().end = item.end;
    } else {
      out.push_back(item);
    }
  }
  return out;
}

}  // namespace

NoteWords::NoteWords() {
  const Table words(recipe_data::embedded_table("observation_words.tsv"));
  for (std::size_t row = 0; row < words.size(); ++row) {
    const std::string phrase(words.cell(row, "phrase"));
    rows_[phrase] = {std::string(words.cell(row, "role")), std::string(words.cell(row, "value"))};
    const auto spaces = static_cast<std::size_t>(std::count(phrase.begin(), phrase.end(), ' '));
    longest_phrase_ = std::max(longest_phrase_, spaces + 1);
  }
  const Table ranges(recipe_data::embedded_table("observation_ranges.tsv"));
  for (std::size_t row = 0; row < ranges.size(); ++row) {
    usual_[std::string(ranges.cell(row, "what"))] = {
        ranges.number(row, "low"), ranges.number(row, "high"),
        std::string(ranges.cell(row, "unit")), std::string(ranges.cell(row, "words"))};
  }
}

const NoteWords::Row* NoteWords::find(const std::string& phrase) const {
  const auto at = rows_.find(phrase);
  return at == rows_.end() ? nullptr : &at->second;
}

UsualRange NoteWords::usual(std::string_view what) const {
  const auto at = usual_.find(what);
  return at == usual_.end() ? UsualRange{} : at->second;
}

std::vector<NoteItem> note_items(std::string_view note, const NoteWords& words) {
  return summed(Namer(cut_note(note), words).named());
}

}  // namespace maslin
