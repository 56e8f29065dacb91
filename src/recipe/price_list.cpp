#include "recipe/price_list.h"

#include <algorithm>

#include "quantity/number_text.h"
#include "quantity/table.h"
#include "recipe/json_shared.h"

namespace maslin {
namespace {

constexpr std::size_t k_most_packs = 1000;
constexpr double k_most_waste_pct = 90.0;
constexpr double k_least_pack_g = 0.001;
/// What stays on bowl, bench and hands: common practice, no source.
constexpr double k_usual_waste_pct = 2.0;

std::string trimmed(std::string_view text) {
  const auto space = [](char c) { return c == ' ' || c == '\r' || c == '\n' || c == '\t'; };
  while (!text.empty() && space(text.front())) {
    text.remove_prefix(1);
  }
  while (!text.empty() && space(text.back())) {
    text.remove_suffix(1);
  }
  return std::string(text);
}

/// "1,89" as well as "1.89".
std::optional<double> amount_in(std::string text) {
  std::replace(text.begin(), text.end(), ',', '.');
  return number_from(text);
}

/// The cells of a row: by tabs or, typed without any, its last three words and what is before.
std::vector<std::string> cells_of(std::string_view row) {
  std::vector<std::string> out;
  if (row.find('\t') != std::string_view::npos) {
    for (const std::string_view cell : split(row, '\t')) {
      out.push_back(trimmed(cell));
    }
    return out;
  }
  std::vector<std::string> words;
  for (const std::string_view cell : split(row, ' ')) {
    const std::string word = trimmed(cell);
    const std::size_t digits = word.find_first_not_of("0123456789.,");
    // "500g" is 500 and g.
    if (digits != 0 && digits != std::string::npos) {
      words.push_back(word.substr(0, digits));
      words.push_back(word.substr(digits));
    } else if (!word.empty()) {
      words.push_back(word);
    }
  }
  if (words.size() < 4 || folded_name(words[0]) == "item") {
    return words;
  }
  std::string item;
  for (std::size_t i = 0; i + 3 < words.size(); ++i) {
    item += (item.empty() ? "" : " ") + words[i];
  }
  return {item, words[words.size() - 3], words[words.size() - 2], words.back()};
}

class Reading {
 public:
  PriceReading table(std::string_view text) {
    int number = 0;
    for (const std::string_view row : split(text, '\n')) {
      ++number;
      if (trimmed(row).empty() || row.starts_with('#')) {
        continue;
      }
      std::vector<std::string> cells = cells_of(row);
      cells.resize(std::max<std::size_t>(cells.size(), 4));
      if (folded_name(cells[0]) != "item") {
        take(cells, "line " + std::to_string(number));
      }
    }
    return std::move(out_);
  }

  PriceReading document(const Json& json) {
    out_.list.currency = text_at(json, "currency");
    out_.list.energy_per_kwh = price_at(json, "energy_per_kwh");
    out_.list.oven_kw = price_at(json, "oven_kw");
    out_.list.waste_pct = price_at(json, "waste_pct");
    std::size_t number = 0;
    for (const Json& one : list_at(json, "packs")) {
      const std::string where = "packs[" + std::to_string(number++) + "]";
      pack({text_at(one, "item"), number_at(one, "amount").value_or(0.0), text_at(one, "unit"),
            number_at(one, "price").value_or(-1.0)},
           where);
    }
    check_waste("waste_pct");
    return std::move(out_);
  }

 private:
  void take(const std::vector<std::string>& cells, const std::string& where) {
    const std::string what = folded_name(cells[0]);
    const auto amount = amount_in(cells[1]);
    if (what == "currency") {
      out_.list.currency = cells[1];
    } else if (what == "waste") {
      out_.list.waste_pct = amount;
      check_waste(where);
    } else if (what == "oven") {
      out_.list.oven_kw = amount;
    } else if (what == "energy" || what == "electricity") {
      const auto price = amount_in(cells[3]);
      const bool good = amount && *amount > 0.0 && price && *price >= 0.0;
      if (good) {
        out_.list.energy_per_kwh = *price / *amount;
      } else {
        problem(where, "the energy has no price", "write energy, 1, kWh and its price");
      }
    } else {
      pack({cells[0], amount.value_or(0.0), cells[2], amount_in(cells[3]).value_or(-1.0)}, where);
    }
  }

  void pack(PricedPack one, const std::string& where) {
    if (one.item.empty()) {
      problem(where, "the pack has no name", "say what is in it");
    } else if (!(one.amount > 0.0)) {
      problem(where, "\"" + one.item + "\" has no amount", "say how much a pack holds: 1.5");
    } else if (!(one.price >= 0.0)) {
      problem(where, "\"" + one.item + "\" has no price", "say what a pack costs: 1.89");
    } else if (out_.list.packs.size() < k_most_packs) {
      out_.list.packs.push_back(std::move(one));
    }
  }

  std::optional<double> price_at(const Json& json, const char* key) {
    const auto value = number_at(json, key);
    if (value && !(*value >= 0.0)) {
      problem(key, "it is below nothing", "give a number from 0");
      return std::nullopt;
    }
    return value;
  }

  void check_waste(const std::string& where) {
    const auto& waste = out_.list.waste_pct;
    if (waste && !(*waste >= 0.0 && *waste <= k_most_waste_pct)) {
      problem(where, "a waste of " + number_text(*waste, 1) + " % cannot be",
              "give a share from 0 to 90 %");
      out_.list.waste_pct.reset();
    }
  }

  void problem(const std::string& where, std::string what, std::string mend) {
    out_.problems.push_back({where, std::move(what), std::move(mend)});
  }

  PriceReading out_;
};

}  // namespace

double PriceList::waste_share() const {
  return waste_pct.value_or(k_usual_waste_pct) / 100.0;
}

PriceReading prices_from(const Json& document) {
  if (document.is_string()) {
    return Reading().table(document.get<std::string>());
  }
  return Reading().document(document);
}

Json prices_json(const PriceList& list) {
  Json out = Json::object();
  if (!list.currency.empty()) {
    out["currency"] = list.currency;
  }
  out["packs"] = Json::array();
  for (const PricedPack& pack : list.packs) {
    out["packs"].push_back({{"item", pack.item},
                            {"amount", rounded(pack.amount)},
                            {"unit", pack.unit},
                            {"price", rounded(pack.price)}});
  }
  const auto add = [&out](const char* key, const std::optional<double>& value) {
    if (value) {
      out[key] = rounded(*value);
    }
  };
  add("energy_per_kwh", list.energy_per_kwh);
  add("oven_kw", list.oven_kw);
  add("waste_pct", list.waste_pct);
  return out;
}

PriceReading read_prices(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n\xef\xbb\xbf");
  if (first != std::string_view::npos && text[first] == '{') {
    const auto json = parse_json(text);
    if (json) {
      return prices_from(*json);
    }
    PriceReading out;
    out.problems.push_back({"prices", "it is no JSON", "check its brackets, or write a table"});
    return out;
  }
  if (text.starts_with("\xef\xbb\xbf")) {
    text.remove_prefix(3);
  }
  return Reading().table(text);
}

FoodPrices food_prices(const PriceList& list, const Pantry& pantry, const std::string& country) {
  FoodPrices out;
  for (const PricedPack& pack : list.packs) {
    const Ingredient* food = pantry.find(pack.item);
    food = food != nullptr ? food : pantry.named(pack.item);
    food = food != nullptr ? food : pantry.best_match(pack.item);
    if (food == nullptr) {
      out.notes.push_back("\"" + pack.item + "\" is not in the pantry: its price is not used");
      continue;
    }
    const auto weight = pantry.weigh(*food, point(pack.amount), pack.unit, "", "", country);
    if (!weight || !(weight->p50() > 0.0)) {
      out.notes.push_back("\"" + pack.item + "\" cannot be weighed by \"" + pack.unit +
                          "\": give its pack in grams or litres");
      continue;
    }
    if (weight->p50() < k_least_pack_g) {
      out.notes.push_back("a pack of \"" + pack.item +
                          "\" holds less than a milligram: say what it holds");
      continue;
    }
    const FoodPrice price{pack, weight->p50()};
    const auto at = out.by_id.find(food->id);
    if (at == out.by_id.end() || price.per_gram() < at->second.per_gram()) {
      out.by_id[food->id] = price;
    }
  }
  return out;
}

}  // namespace maslin
