#include "handon/card_words.h"

#include <algorithm>
#include <cmath>

#include "handon/embedded_table.h"
#include "pantry/embedded_table.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin::handon {
namespace {

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

}  // namespace

const std::vector<CardLanguage>& card_languages() {
  static const std::vector<CardLanguage> k_languages = [] {
    std::vector<CardLanguage> out;
    const Table table(handon_data::embedded_table("languages.tsv"));
    for (std::size_t row = 0; row < table.size(); ++row) {
      out.push_back({std::string(table.cell(row, "tag")), std::string(table.cell(row, "name"))});
    }
    return out;
  }();
  return k_languages;
}

std::string card_language_tags() {
  std::string out;
  const std::size_t count = card_languages().size();
  for (std::size_t i = 0; i < count; ++i) {
    out += (i == 0 ? "" : i + 1 == count ? " or " : ", ") + card_languages()[i].tag;
  }
  return out;
}

std::string card_language(std::string_view asked, std::string_view country) {
  if (asked.empty()) {
    return country == "us" ? "en-US" : "en-GB";
  }
  if (asked == "en") {
    return "en-GB";
  }
  for (const CardLanguage& one : card_languages()) {
    if (one.tag == asked) {
      return one.tag;
    }
  }
  return {};
}

CardWords::CardWords(const std::string& language)
    : language_(language), column_(language.substr(0, 2)) {
  const Table card(handon_data::embedded_table("card.tsv"));
  for (std::size_t row = 0; row < card.size(); ++row) {
    phrases_.emplace(card.cell(row, "key"), card.cell(row, column_));
  }
  if (!english()) {
    const Table cautions(handon_data::embedded_table("cautions.tsv"));
    for (std::size_t row = 0; row < cautions.size(); ++row) {
      cautions_.emplace(cautions.cell(row, "id"), cautions.cell(row, column_));
    }
    const Table stand_ins(handon_data::embedded_table("stand_ins.tsv"));
    for (std::size_t row = 0; row < stand_ins.size(); ++row) {
      stand_ins_.emplace(stand_ins.cell(row, "en"), stand_ins.cell(row, column_));
    }
    const Table untils(handon_data::embedded_table("until.tsv"));
    for (std::size_t row = 0; row < untils.size(); ++row) {
      untils_.emplace_back(untils.cell(row, "word"), untils.cell(row, column_));
    }
  }
  const Table names(embedded_table("ingredient_names.tsv"));
  for (std::size_t row = 0; row < names.size() && !english(); ++row) {
    names_.emplace(names.cell(row, "id"), names.cell(row, column_));
  }
  const Table spelling(handon_data::embedded_table("spelling.tsv"));
  for (std::size_t row = 0; row < spelling.size() && language_ == "en-US"; ++row) {
    american_.emplace(spelling.cell(row, "british"), spelling.cell(row, "american"));
  }
}

bool CardWords::has(std::string_view key) const {
  return phrases_.find(key) != phrases_.end();
}

std::string CardWords::say(std::string_view key, std::initializer_list<std::string> with) const {
  const auto at = phrases_.find(key);
  return at == phrases_.end() ? std::string(key) : filled(spelled(at->second), with);
}

std::string CardWords::filled(std::string text, std::initializer_list<std::string> with) const {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool hole = text[i] == '{' && i + 2 < text.size() && text[i + 2] == '}';
    const std::size_t which = hole ? static_cast<std::size_t>(text[i + 1] - '1') : with.size();
    if (which < with.size()) {
      out += *(with.begin() + which);
      i += 2;
    } else {
      out += text[i];
    }
  }
  return out;
}

std::string CardWords::spelled(std::string text) const {
  if (american_.empty()) {
    return text;
  }
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i;
    while (end < text.size() && is_letter(text[end])) {
      ++end;
    }
    if (end == i) {
      out += text[i++];
      continue;
    }
    const auto at = american_.find(std::string_view(text).substr(i, end - i));
    out += at == american_.end() ? text.substr(i, end - i) : at->second;
    i = end;
  }
  return out;
}

std::string CardWords::caution_text(const Caution& caution) const {
  const auto at = cautions_.find(caution.id);
  if (at == cautions_.end()) {
    return spelled(caution.text);
  }
  std::string what;
  for (const std::string_view one : split(caution.what, ',')) {
    std::string word(one.substr(one.starts_with(' ') ? 1 : 0));
    std::string key = word;
    std::replace(key.begin(), key.end(), ' ', '_');
    const std::string prefix = caution.id == "allergens" ? "allergen_" : "part_";
    what += (what.empty() ? "" : ", ") + (has(prefix + key) ? say(prefix + key) : word);
  }
  return filled(at->second, {what});
}

std::string CardWords::stand_in_text(const std::string& text) const {
  const auto at = stand_ins_.find(text);
  return at == stand_ins_.end() ? spelled(text) : at->second;
}

std::string CardWords::until_text(const std::string& found) const {
  constexpr std::string_view k_core = "core ";
  if (found.starts_with(k_core)) {
    if (const auto celsius =
            number_from(found.substr(k_core.size(), found.rfind(' ') - k_core.size()))) {
      return say("until_core", {degrees(*celsius)});
    }
  }
  if (english()) {
    return found;
  }
  const std::string folded = folded_name(found);
  for (const auto& [word, text] : untils_) {
    if (folded.find(word) != std::string::npos) {
      return text;
    }
  }
  return {};
}

std::string CardWords::ingredient(const Ingredient& ingredient, const Pantry& pantry,
                                  std::string_view as_found) const {
  if (!english()) {
    const auto at = names_.find(ingredient.id);
    return at == names_.end() || at->second.empty() ? ingredient.name : at->second;
  }
  const bool american = language_ == "en-US" && pantry.named(ingredient.name_us) == &ingredient;
  const std::string& own = american ? ingredient.name_us : ingredient.name;
  const std::string found = folded_name(as_found);
  const bool of_table =
      found == folded_name(ingredient.name) || found == folded_name(ingredient.name_us);
  return !of_table && pantry.named(as_found) == &ingredient ? std::string(as_found) : own;
}

std::string CardWords::measure(const std::string& name, double count) const {
  const auto at = phrases_.find("measure_" + name);
  if (at == phrases_.end()) {
    return name;
  }
  const std::string words = spelled(at->second);
  const std::size_t bar = words.find('|');
  const bool many = count > 1.0 && bar != std::string::npos;
  return many ? words.substr(bar + 1) : words.substr(0, bar);
}

std::string CardWords::number(double value, int decimals) const {
  std::string out = number_text(value, decimals);
  if (!english()) {
    std::replace(out.begin(), out.end(), '.', ',');
  }
  return out;
}

std::string CardWords::fraction(double value) const {
  // A third added to a whole is no longer the third that it was to the last digit.
  const double whole = std::floor(value + 1e-9);
  for (const double part : {1.0 / 3.0, 2.0 / 3.0}) {
    if (std::fabs(value - whole - part) < 1e-9) {
      return (whole > 0.0 ? number_text(whole, 0) + " " : "") + fraction_text(part);
    }
  }
  return fraction_text(value);
}

std::string CardWords::degrees(double celsius) const {
  const std::string metric = number(celsius, 0) + " °C";
  return language_ == "en-US" ? number(celsius * 1.8 + 32.0, 0) + " °F (" + metric + ")" : metric;
}

double CardWords::oven_celsius(double celsius) const {
  return language_ == "en-US" ? (std::round((celsius * 1.8 + 32.0) / 25.0) * 25.0 - 32.0) / 1.8
                              : std::round(celsius / 10.0) * 10.0;
}

std::string CardWords::oven_degrees(double celsius) const {
  const std::string metric = number(std::round(celsius / 5.0) * 5.0, 0) + " °C";
  return language_ == "en-US"
             ? number(std::round((celsius * 1.8 + 32.0) / 5.0) * 5.0, 0) + " °F (" + metric + ")"
             : metric;
}

std::string CardWords::range(double low, double high, int decimals) const {
  const std::string from = number(low, decimals);
  const std::string to = number(high, decimals);
  return from == to ? from : from + "–" + to;
}

}  // namespace maslin::handon
