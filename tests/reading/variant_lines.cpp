#include "variant_lines.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>
#include <vector>

namespace maslin {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

constexpr std::array<std::string_view, 20> k_units{
    "g",           "kg",     "ml",  "l",     "dl",       "oz",        "lb",
    "tsp",         "tbsp",   "cup", "cups",  "teaspoon", "teaspoons", "tablespoon",
    "tablespoons", "ounces", "lbs", "grams", "pound",    "EL"};

/// "1 1/2" keeps its blank: "11/2" would be another number.
bool is_mixed(const Cut& cut) {
  return cut.amount.find(' ') != cut.amount.rfind(' ');
}

}  // namespace

std::string replaced(std::string text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
  return text;
}

std::string without_bullet(const std::string& line) {
  std::size_t at = line.find_first_not_of(" \t");
  at = at == std::string::npos ? line.size() : at;
  for (const std::string_view sign : {"\xE2\x80\xA2", "\xC2\xB7", "-", "*"}) {
    if (std::string_view(line).substr(at).starts_with(sign)) {
      at += sign.size();
      at = line.find_first_not_of(" \t", at);
      break;
    }
  }
  return at == std::string::npos ? std::string() : line.substr(at);
}

std::optional<Cut> cut_of(const std::string& listed) {
  const std::string line = without_bullet(listed);
  std::size_t at = 0;
  while (at < line.size() &&
         (is_digit(line[at]) || line[at] == '/' || line[at] == '.' ||
          (line[at] == ' ' && at + 1 < line.size() && is_digit(line[at + 1])))) {
    ++at;
  }
  if (at == 0 || !is_digit(line[0]) || line[at - 1] == '.') {
    return std::nullopt;
  }
  const std::size_t unit_from = line.find_first_not_of(' ', at);
  const std::size_t unit_to =
      unit_from == std::string::npos ? std::string::npos : line.find(' ', unit_from);
  if (unit_to == std::string::npos) {
    return std::nullopt;
  }
  const std::string_view unit = std::string_view(line).substr(unit_from, unit_to - unit_from);
  if (std::find(k_units.begin(), k_units.end(), unit) == k_units.end()) {
    return std::nullopt;
  }
  Cut out{line.substr(0, unit_to), line.substr(line.find_first_not_of(' ', unit_to))};
  // What is said after the name would stand between it and the amount.
  const bool plain = std::none_of(out.name.begin(), out.name.end(), [](char c) {
    return is_digit(c) || c == ',' || c == '(' || c == ';' || c == ':' || c == '-' || c == '/' ||
           c == '.' || c == '+';
  });
  return plain ? std::optional(out) : std::nullopt;
}

std::string upper(std::string text) {
  for (char& c : text) {
    c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  }
  return text;
}

std::string lower(std::string text) {
  for (char& c : text) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return text;
}

bool has_letter_unit(const std::string& line) {
  for (const char* letter : {" T ", " t ", " T.", " t.", " c ", " C ", " L ", "1T", "1t"}) {
    if (line.find(letter) != std::string::npos) {
      return true;
    }
  }
  return false;
}

std::string glued(const std::string& line) {
  const auto cut = cut_of(line);
  return cut ? replaced(cut->amount, " ", "") + " " + cut->name : line;
}

std::string all_glued(const std::string& line) {
  const auto cut = cut_of(line);
  return cut && !is_mixed(*cut) ? replaced(cut->amount, " ", "") + cut->name : line;
}

std::string signs(std::string line) {
  line = replaced(std::move(line), " 1/2 ", "\xC2\xBD ");
  line = replaced(std::move(line), " 1/4 ", "\xC2\xBC ");
  line = replaced(std::move(line), " 3/4 ", "\xC2\xBE ");
  for (const auto& [from, to] : std::vector<std::pair<std::string, std::string>>{
           {"1/2 ", "\xC2\xBD "}, {"1/4 ", "\xC2\xBC "}, {"3/4 ", "\xC2\xBE "}}) {
    line = line.starts_with(from) ? to + line.substr(from.size()) : line;
  }
  return line;
}

std::string spelt_fractions(std::string line) {
  line = replaced(std::move(line), "\xC2\xBD", " 1/2");
  line = replaced(std::move(line), "\xC2\xBC", " 1/4");
  line = replaced(std::move(line), "\xC2\xBE", " 3/4");
  return replaced(std::move(line), "  ", " ");
}

std::string scanned(const std::string& line) {
  const auto cut = cut_of(line);
  if (!cut) {
    return line;
  }
  std::string amount = cut->amount;
  for (std::size_t i = 0; i < amount.size(); ++i) {
    const bool inside = i > 0 && is_digit(amount[i - 1]);
    amount[i] = amount[i] == '0' && inside ? 'O' : amount[i];
  }
  amount[0] = amount[0] == '1' ? 'l' : amount[0];
  return amount + " " + cut->name;
}

std::string counted_after(const std::string& line) {
  const std::string plain = without_bullet(line);
  for (const char* eggs : {" eggs", " egg", " large eggs"}) {
    if (plain.size() > 2 && is_digit(plain[0]) && plain.substr(1) == eggs) {
      return std::string(eggs).substr(1) + " x" + plain[0];
    }
  }
  return line;
}

std::string counted_before(const std::string& line) {
  const std::string plain = without_bullet(line);
  const bool eggs =
      plain.size() > 2 && is_digit(plain[0]) && plain[1] == ' ' &&
      (plain.substr(1) == " eggs" || plain.substr(1) == " egg" || plain.substr(1) == " egg yolks");
  return eggs ? plain.substr(0, 1) + "x" + plain.substr(1) : line;
}

std::string spelt_numbers(const std::string& line) {
  constexpr std::array<std::string_view, 7> k_words{"",     "One",  "Two", "Three",
                                                    "Four", "Five", "Six"};
  const std::string plain = without_bullet(line);
  const bool one = plain.size() > 3 && plain[0] >= '1' && plain[0] <= '6' && plain[1] == ' ' &&
                   std::isalpha(static_cast<unsigned char>(plain[2])) != 0;
  return one ? std::string(k_words[static_cast<std::size_t>(plain[0] - '0')]) + plain.substr(1)
             : line;
}

std::string said_twice(const std::string& line) {
  const auto cut = cut_of(line);
  if (!cut || cut->amount.find('/') != std::string::npos) {
    return line;
  }
  const auto number = std::stod(cut->amount);
  if (cut->amount.ends_with(" g")) {
    const auto tenths = static_cast<int>(number / 2.835 + 0.5);
    return cut->amount + " (" + std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) +
           " oz) " + cut->name;
  }
  if (cut->amount.ends_with(" cups") || cut->amount.ends_with(" cup")) {
    return cut->amount + " (" + std::to_string(static_cast<int>(number * 240)) + " ml) " +
           cut->name;
  }
  return line;
}

std::string tabled(const std::string& line) {
  const auto cut = cut_of(line);
  return cut ? "| " + cut->amount + " | " + cut->name + " |" : line;
}

std::string with_link(const std::string& line) {
  const auto cut = cut_of(line);
  return cut ? cut->amount + " of " + cut->name : line;
}

}  // namespace maslin
