#include "pantry/pantry.h"

#include <algorithm>

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

std::string kind_key(const Ingredient& ingredient) {
  return "kind:" + std::string(kind_name(ingredient.kind));
}

/// How well a portion row answers; below zero when it does not.
int portion_fit(const Portion& row, std::string_view word, std::string_view size,
                std::string_view locale) {
  if (row.word != word || (!row.locale.empty() && row.locale != locale)) {
    return -1;
  }
  int fit = row.locale.empty() ? 0 : 4;
  if (row.size == size) {
    fit += 3;
  } else if (size.empty() && row.size == "medium") {
    fit += 1;
  } else if (!row.size.empty()) {
    return size.empty() ? 0 : -1;
  }
  return fit;
}

/// Spoons filled above the rim hold about 2.2 level ones of a powder; the log-normal
/// spread 0.3 is common practice, no source.
constexpr double k_heaped = 2.2;
constexpr double k_heaped_cv = 0.3;

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
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
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
  for (const std::string& key : {ingredient.id, kind_key(ingredient), std::string("any")}) {
    const auto at = portions_.find(key);
    const Portion* best = nullptr;
    int best_fit = -1;
    for (std::size_t i = 0; at != portions_.end() && i < at->second.size(); ++i) {
      const int fit = portion_fit(at->second[i], word, size, locale);
      if (fit > best_fit) {
        best = &at->second[i];
        best_fit = fit;
      }
    }
    if (best != nullptr) {
      return *best;
    }
  }
  return std::nullopt;
}

std::optional<Measure> Pantry::measure(std::string_view unit, std::string_view locale) const {
  const Measure* general = nullptr;
  for (const Measure& row : measures_) {
    if (row.unit != unit) {
      continue;
    }
    if (row.locale == locale) {
      return row;
    }
    if (general == nullptr || row.locale.empty()) {
      general = general != nullptr && general->locale.empty() ? general : &row;
    }
  }
  return general == nullptr ? std::nullopt : std::optional(*general);
}

std::optional<Distribution> Pantry::weigh(const Ingredient& ingredient, const Distribution& amount,
                                          std::string_view unit, std::string_view packing_name,
                                          std::string_view size, std::string_view locale) const {
  if (const double g = grams_in(unit); g > 0) {
    return amount.scaled(g);
  }
  // A row of its own for this unit ("a pinch of salt", "a cup of packed spinach leaves")
  // is better than volume times density.
  if (const auto one = portion(ingredient, unit.empty() ? "piece" : unit, size, locale)) {
    return product(amount, lognormal(one->grams, one->grams > 0 ? one->sd / one->grams : 0.0));
  }
  const auto ml = measure(unit, locale);
  const auto fill = packing(ingredient, packing_name);
  if (!ml || !fill) {
    return std::nullopt;
  }
  Distribution grams =
      product(amount, product(lognormal(ml->ml, ml->cv), lognormal(fill->g_per_ml, fill->cv)));
  if (packing_name == "heaped") {
    grams = product(grams, lognormal(k_heaped, k_heaped_cv));
  }
  return grams;
}

}  // namespace maslin
