#include "handon/label_list.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin::handon {
namespace {

/// Added water up to this share of the finished product may be left out: 1169/2011 Annex VII A (1).
constexpr double k_water_left_out = 0.05;
/// American lists may gather what is no more than this share: 21 CFR 101.4(a)(2).
constexpr double k_gathered = 0.02;

/// What may flavour without being measured out: 1169/2011 Annex VIII (1)(a)(iii), from memory.
bool only_flavours(IngredientKind kind) {
  return kind == IngredientKind::spice || kind == IngredientKind::herb ||
         kind == IngredientKind::extract || kind == IngredientKind::salt ||
         kind == IngredientKind::yeast || kind == IngredientKind::water;
}

bool says_little(const std::string& word) {
  static const std::set<std::string> words{
      "flour",  "white", "plain",   "strong", "wheat", "whole", "dried",  "fresh", "powder",
      "ground", "raw",   "cooked",  "puree",  "paste", "juice", "bread",  "bun",   "roll",
      "loaf",   "dough", "filling", "glaze",  "icing", "syrup", "sugar",  "soft",  "sweet",
      "dark",   "light", "medium",  "brown",  "oil",   "fat",   "water",  "and",   "the",
      "with",   "of",    "topping", "rise",   "self",  "all",   "purpose"};
  return words.count(word) == 1 || word.size() < 3;
}

std::set<std::string> telling_words(const std::string& text) {
  std::set<std::string> out;
  const std::string folded = folded_name(text);
  for (const std::string_view word : split(folded, ' ')) {
    if (!says_little(std::string(word))) {
      out.insert(std::string(word));
    }
  }
  return out;
}

bool share_a_word(const std::set<std::string>& a, const std::set<std::string>& b) {
  return std::any_of(a.begin(), a.end(), [&b](const auto& word) { return b.count(word) == 1; });
}

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return text;
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// One food of a group as the list shows it, while it is put together.
struct Entry {
  const Ingredient* food = nullptr;
  LabelName name;
  double grams = 0.0;
};

class Listing {
 public:
  Listing(const LabelContents& contents, const LabelTables& tables, LabelRules rules,
          const std::string& title)
      : contents_(contents), tables_(tables), rules_(rules), title_(telling_words(title)) {
    mixed_ = mean_of(contents.mixed_grams);
    finished_ = mean_of(contents.finished_grams);
  }

  IngredientList list() {
    weigh_water();
    weigh_sulphites();
    for (const FoodGroup& group : contents_.groups) {
      std::vector<LabelIngredient> entries = entries_of(group);
      if (group.compound.empty()) {
        std::move(entries.begin(), entries.end(), std::back_inserter(out_.ingredients));
      } else {
        out_.ingredients.push_back(compound(group, std::move(entries)));
      }
    }
    sort(out_.ingredients);
    for (const LabelIngredient& one : out_.ingredients) {
      gather_allergens(one);
    }
    out_.text = text();
    return std::move(out_);
  }

 private:
  bool asks_quantities() const { return rules_ != LabelRules::us; }

  static bool is_water(const Ingredient& food) { return food.kind == IngredientKind::water; }

  /// Added water counts with what of it is left in the finished product; American lists go by
  /// what was put in.
  void weigh_water() {
    double added = 0.0;
    for (const FoodGroup& group : contents_.groups) {
      for (const FoodAmount& food : group.foods) {
        added += is_water(*food.named) ? mean_of(food.grams) : 0.0;
      }
    }
    if (!asks_quantities() || !(added > 0.0)) {
      return;
    }
    const double left = std::max(0.0, finished_ - (mixed_ - added));
    water_share_ = left / added;
    if (left <= k_water_left_out * finished_) {
      water_share_ = 0.0;
      out_.notes.push_back("added water is " + number_text(100.0 * left / finished_, 1) +
                           " % of the finished product and may be left out of the list");
    }
  }

  /// The most sulphur dioxide there can be; whether that passes the bound.
  void weigh_sulphites() {
    double most_mg = 0.0;
    for (const FoodGroup& group : contents_.groups) {
      for (const FoodAmount& food : group.foods) {
        most_mg += tables_.sulphite_mg_per_kg(*food.named) * mean_of(food.grams) / 1000.0;
      }
    }
    sulphite_mg_per_kg_ = finished_ > 0.0 ? 1000.0 * most_mg / finished_ : 0.0;
    if (most_mg > 0.0) {
      out_.notes.push_back("sulphites: at the most that its fruit, wine or vinegar may hold, " +
                           number_text(sulphite_mg_per_kg_, 0) +
                           " mg/kg in the finished product; they are named above 10, unless the "
                           "packets are free of them");
    }
  }

  std::vector<Entry> gathered(const FoodGroup& group) const {
    std::vector<Entry> entries;
    for (const FoodAmount& food : group.foods) {
      const double share = is_water(*food.named) ? water_share_ : 1.0;
      const double grams = mean_of(food.grams) * share;
      LabelName name = tables_.name_of(*food.named, rules_);
      const auto same = std::find_if(entries.begin(), entries.end(), [&name](const Entry& entry) {
        return entry.name.name == name.name;
      });
      if (same != entries.end()) {
        same->grams += grams;
      } else if (grams > 0.0) {
        entries.push_back({food.named, std::move(name), grams});
      }
    }
    return entries;
  }

  std::vector<LabelIngredient> entries_of(const FoodGroup& group) {
    std::vector<LabelIngredient> out;
    for (const Entry& entry : gathered(group)) {
      LabelIngredient one;
      one.mixed_grams = entry.grams;
      one.mixed_pct = 100.0 * entry.grams / mixed_;
      name(entry, one);
      const std::set<std::string> words =
          telling_words(entry.name.name + " " + entry.food->name + " " + entry.food->name_us);
      if (asks_quantities() && !only_flavours(entry.food->kind) && share_a_word(words, title_)) {
        one.quantity = quantity_declared(entry.grams, finished_);
      }
      if (!entry.name.ask.empty()) {
        out_.asks.push_back(entry.food->name + ": " + entry.name.ask);
      }
      out.push_back(std::move(one));
    }
    sort(out);
    return out;
  }

  void name(const Entry& entry, LabelIngredient& one) const {
    one.name = entry.name.name;
    std::string inside;
    for (const std::string& part : entry.name.parts) {
      inside += (inside.empty() ? "" : ", ") + part;
    }
    for (const NamedAllergen& allergen : tables_.allergens_of(*entry.food, rules_)) {
      if (allergen.over_mg_kg > 0.0 && sulphite_mg_per_kg_ <= allergen.over_mg_kg) {
        continue;
      }
      one.allergens.push_back(allergen.word);
      // Said inside the compound where its list holds the word, else of its name.
      const std::string inner = emphasised(inside, allergen.word);
      if (!inside.empty() && !inner.ends_with(")")) {
        inside = inner;
      } else {
        one.name = emphasised(one.name, allergen.word);
      }
    }
    if (!inside.empty()) {
      one.name += " (" + inside + ")";
    }
  }

  LabelIngredient compound(const FoodGroup& group, std::vector<LabelIngredient> entries) {
    LabelIngredient out;
    out.name = group.compound;
    for (const LabelIngredient& one : entries) {
      out.mixed_grams += one.mixed_grams;
    }
    out.mixed_pct = 100.0 * out.mixed_grams / mixed_;
    const bool named = share_a_word(telling_words(group.compound), title_);
    const bool told = std::any_of(entries.begin(), entries.end(),
                                  [](const auto& one) { return !one.quantity.empty(); });
    if (asks_quantities() && named && !told) {
      out.quantity = quantity_declared(out.mixed_grams, finished_);
    }
    out.of = std::move(entries);
    return out;
  }

  static void sort(std::vector<LabelIngredient>& list) {
    std::stable_sort(list.begin(), list.end(),
                     [](const auto& a, const auto& b) { return a.mixed_grams > b.mixed_grams; });
  }

  void gather_allergens(const LabelIngredient& one) {
    for (const std::string& word : one.allergens) {
      if (std::find(out_.allergens.begin(), out_.allergens.end(), word) == out_.allergens.end()) {
        out_.allergens.push_back(word);
      }
    }
    for (const LabelIngredient& inner : one.of) {
      gather_allergens(inner);
    }
  }

  static std::string entry_text(const LabelIngredient& one) {
    std::string out = one.name;
    if (!one.quantity.empty()) {
      out += " (" + one.quantity + ")";
    }
    if (!one.of.empty()) {
      std::string inside;
      for (const LabelIngredient& inner : one.of) {
        inside += (inside.empty() ? "" : ", ") + entry_text(inner);
      }
      out += " [" + inside + "]";
    }
    return out;
  }

  std::string text() const {
    std::string out;
    bool small = false;
    for (const LabelIngredient& one : out_.ingredients) {
      if (rules_ == LabelRules::us && !small && one.mixed_pct <= 100.0 * k_gathered) {
        small = true;
        out += out.empty() ? "" : ". Contains 2% or less of: " + entry_text(one);
        continue;
      }
      out += (out.empty() ? "" : ", ") + entry_text(one);
    }
    return out + (out.empty() ? "" : ".");
  }

  const LabelContents& contents_;
  const LabelTables& tables_;
  LabelRules rules_;
  std::set<std::string> title_;
  double mixed_ = 0.0;
  double finished_ = 0.0;
  double water_share_ = 1.0;
  double sulphite_mg_per_kg_ = 0.0;
  IngredientList out_;
};

}  // namespace

std::string emphasised(const std::string& name, const std::string& word) {
  // "peanuts" is told by "peanut butter", "oats" by "oat flour".
  std::string stem = lower(word);
  if (stem.ends_with('s')) {
    stem.pop_back();
  }
  const std::string low = lower(name);
  std::string out = name;
  bool found = false;
  for (std::size_t at = low.find(stem); at != std::string::npos; at = low.find(stem, at + 1)) {
    // "egg" is in no "eggplant", "milk" not in "coconut milk"'s own letters: a word by itself.
    const bool begins = at == 0 || !is_letter(low[at - 1]);
    std::size_t end = at + stem.size();
    end += end < low.size() && low[end] == 's' ? 1U : 0U;
    if (!begins || (end < low.size() && is_letter(low[end]))) {
      continue;
    }
    found = true;
    for (std::size_t i = at; i < end; ++i) {
      out[i] = out[i] >= 'a' && out[i] <= 'z' ? static_cast<char>(out[i] - 32) : out[i];
    }
  }
  if (found) {
    return out;
  }
  std::string capitals = word;
  std::transform(capitals.begin(), capitals.end(), capitals.begin(),
                 [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
  return name + " (" + capitals + ")";
}

std::string quantity_declared(double mixed_grams, double finished_grams) {
  constexpr double k_whole_from_pct = 2.0;
  if (!(finished_grams > 0.0)) {
    return "";
  }
  const double pct = 100.0 * mixed_grams / finished_grams;
  if (pct > 100.0) {
    return number_text(pct, 0) + " g for 100 g of the finished product";
  }
  const double rounded =
      pct >= k_whole_from_pct ? std::floor(pct + 0.5) : std::floor(2.0 * pct + 0.5) / 2.0;
  return number_text(rounded, 1) + " %";
}

IngredientList ingredient_list(const LabelContents& contents, const LabelTables& tables,
                               LabelRules rules, const std::string& title) {
  return Listing(contents, tables, rules, title).list();
}

}  // namespace maslin::handon
