#include "pantry/pantry.h"

#include <algorithm>

#include "pantry/filling.h"
#include "quantity/table.h"

namespace maslin {
namespace {

std::string join(const std::vector<std::string_view>& words, std::size_t from, std::size_t count) {
  std::string out;
  for (std::size_t i = from; i < from + count; ++i) {
    out += i > from ? " " : "";
    out += words[i];
  }
  return out;
}

/// How near the locale of a row is to the one asked for; below zero when it is another.
int locale_fit(std::string_view row, std::string_view locale, std::string_view near) {
  if (row == locale && !row.empty()) {
    return 8;
  }
  if (row == near && !row.empty()) {
    return 4;
  }
  return row.empty() ? 0 : -1;
}

/// How well a portion row answers for the size; below zero when it does not.
int size_fit(std::string_view row, std::string_view size) {
  if (row == size) {
    return 3;
  }
  if (row.empty()) {
    return 1;
  }
  if (!size.empty()) {
    return -1;
  }
  return row == "medium" ? 2 : 0;
}

}  // namespace

const Ingredient* Pantry::find(std::string_view id) const {
  const auto at = by_id_.find(id);
  return at == by_id_.end() ? nullptr : &ingredients_[at->second];
}

const Ingredient* Pantry::named(std::string_view name) const {
  const auto at = by_name_.find(folded_name(name));
  return at == by_name_.end() ? nullptr : &ingredients_[at->second];
}

const Ingredient* Pantry::best_match(std::string_view phrase, std::string* matched) const {
  const std::string folded = folded_name(phrase);
  const std::vector<std::string_view> words = split(folded, ' ');
  for (std::size_t count = std::min(longest_name_words_, words.size()); count > 0; --count) {
    for (std::size_t from = words.size() - count + 1; from-- > 0;) {
      const std::string run = join(words, from, count);
      const auto at = by_name_.find(run);
      if (at != by_name_.end()) {
        if (matched != nullptr) {
          *matched = run;
        }
        return &ingredients_[at->second];
      }
    }
  }
  return nullptr;
}

std::vector<const Ingredient*> Pantry::search(std::string_view word, std::size_t most) const {
  const std::string folded = folded_name(word);
  std::vector<std::pair<std::size_t, const Ingredient*>> found;
  for (const auto& [name, index] : by_name_) {
    if (name.find(folded) == std::string::npos || folded.empty()) {
      continue;
    }
    const Ingredient* ingredient = &ingredients_[index];
    const auto same = std::find_if(found.begin(), found.end(),
                                   [&](const auto& entry) { return entry.second == ingredient; });
    // Nearness: how much longer than the word the name is.
    const std::size_t extra = name.size() - folded.size();
    if (same == found.end()) {
      found.emplace_back(extra, ingredient);
    } else {
      same->first = std::min(same->first, extra);
    }
  }
  // Names come in no order: the id settles ties the same way everywhere.
  std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
    return a.first != b.first ? a.first < b.first : a.second->id < b.second->id;
  });
  std::vector<const Ingredient*> out;
  for (const auto& entry : found) {
    if (out.size() < most) {
      out.push_back(entry.second);
    }
  }
  return out;
}

std::vector<Packing> Pantry::packings(const Ingredient& ingredient) const {
  auto at = packings_.find(ingredient.id);
  if (at == packings_.end()) {
    at = packings_.find(kind_key(ingredient));
  }
  return at == packings_.end() ? std::vector<Packing>() : at->second;
}

std::optional<Packing> Pantry::packing(const Ingredient& ingredient, std::string_view name) const {
  const std::vector<Packing> known = packings(ingredient);
  for (const Packing& one : known) {
    if (one.name == name) {
      return one;
    }
  }
  return known.empty() ? std::nullopt : std::optional(known.front());
}

std::optional<Portion> Pantry::portion(const Ingredient& ingredient, std::string_view word,
                                       std::string_view size, std::string_view locale) const {
  const std::string_view near = near_locale(locale);
  for (const std::string& key : {ingredient.id, kind_key(ingredient), std::string("any")}) {
    const auto at = portions_.find(key);
    const Portion* best = nullptr;
    int best_fit = -1;
    for (std::size_t i = 0; at != portions_.end() && i < at->second.size(); ++i) {
      const Portion& row = at->second[i];
      const int by_locale = locale_fit(row.locale, locale, near);
      const int by_size = size_fit(row.size, size);
      if (row.word == word && by_locale >= 0 && by_size >= 0 && by_locale + by_size > best_fit) {
        best = &row;
        best_fit = by_locale + by_size;
      }
    }
    if (best != nullptr) {
      return *best;
    }
  }
  return std::nullopt;
}

std::string_view Pantry::near_locale(std::string_view locale) const {
  const auto at = near_locales_.find(locale);
  return at == near_locales_.end() ? std::string_view() : std::string_view(at->second);
}

std::optional<Measure> Pantry::measure(std::string_view unit, std::string_view locale) const {
  const std::string_view near = near_locale(locale);
  const Measure* best = nullptr;
  int best_fit = -2;
  for (const Measure& row : measures_) {
    // A vessel known in one country only (a breakfast cup) is that one everywhere.
    const int fit = locale_fit(row.locale, locale, near);
    if (row.unit == unit && fit > best_fit) {
      best = &row;
      best_fit = fit;
    }
  }
  return best == nullptr ? std::nullopt : std::optional(*best);
}

Distribution Pantry::filled(const Ingredient& ingredient, const Packing& packing,
                            const Measure& measure, std::string_view heap_word) const {
  const bool spoon = measure.ml <= k_spoon_ml;
  const bool unstated = packing.name == k_unstated_packing;
  const Packing fill = spoon && unstated
                           ? this->packing(ingredient, k_unstated_spoon_packing).value_or(packing)
                           : packing;
  Distribution grams =
      product(lognormal(measure.ml, measure.cv), lognormal(fill.g_per_ml, fill.cv));
  for (const Heap& heap : heaps_) {
    if (heap.word == heap_word && heap.spoon == spoon) {
      grams = product(grams, lognormal(heap.factor, heap.cv));
    }
  }
  return grams;
}

std::optional<Distribution> Pantry::weigh(const Ingredient& ingredient, const Distribution& amount,
                                          std::string_view unit, std::string_view packing_name,
                                          std::string_view size, std::string_view locale) const {
  if (const double g = grams_in(unit); g > 0) {
    return amount.scaled(g);
  }
  // A row of its own for this unit ("a pinch of salt", "a glass of wine") is better than
  // volume times density.
  if (const auto one = portion(ingredient, unit.empty() ? "piece" : unit, size, locale)) {
    return product(amount, lognormal(one->grams, one->grams > 0 ? one->sd / one->grams : 0.0));
  }
  const auto vessel = measure(unit, locale);
  const auto fill = packing(ingredient, packing_name);
  if (!vessel || !fill) {
    return std::nullopt;
  }
  return product(amount, filled(ingredient, *fill, *vessel, packing_name));
}

}  // namespace maslin
