#include "variants.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <utility>

namespace maslin {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::string replaced(std::string text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
  return text;
}

/// The words of a line without the bullet it may have.
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

constexpr std::array<std::string_view, 20> k_units{
    "g",           "kg",     "ml",  "l",     "dl",       "oz",        "lb",
    "tsp",         "tbsp",   "cup", "cups",  "teaspoon", "teaspoons", "tablespoon",
    "tablespoons", "ounces", "lbs", "grams", "pound",    "EL"};

/// The amount a line begins with, where it is a plain number and a unit of one word.
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

using EachLine = std::function<std::string(const std::string&)>;

/// The bullet and blanks a line begins with.
std::string bullet_before(const std::string& line) {
  return line.substr(0, line.size() - without_bullet(line).size());
}

Sheet each_listed(const Sheet& sheet, const EachLine& rewrite) {
  Sheet out = sheet;
  for (std::size_t i = 0; i < out.lines.size(); ++i) {
    if (out.listed[i]) {
      out.lines[i] = rewrite(out.lines[i]);
    }
  }
  return out;
}

Variant led(const char* name, std::string sign) {
  return {name, false, [sign](const Sheet& sheet) {
            return each_listed(
                sheet, [&](const std::string& line) { return sign + without_bullet(line); });
          }};
}

Variant ended(const char* name, std::string sign) {
  return {name, false, [sign](const Sheet& sheet) {
            return each_listed(sheet, [&](const std::string& line) {
              return line.ends_with('.') || line.ends_with(',') ? line : line + sign;
            });
          }};
}

/// Runs of three listed lines and more on one line, if all are short and hold no such mark.
Variant run_on(const char* name, std::string mark) {
  return {name, false, [mark](const Sheet& sheet) {
            Sheet out;
            for (std::size_t i = 0; i < sheet.lines.size();) {
              std::size_t to = i;
              while (to < sheet.lines.size() && sheet.listed[to] && cut_of(sheet.lines[to])) {
                ++to;
              }
              if (to < i + 3) {
                out.lines.push_back(sheet.lines[i]);
                out.listed.push_back(sheet.listed[i]);
                ++i;
                continue;
              }
              std::string row;
              for (; i < to; ++i) {
                row += (row.empty() ? "" : mark) + without_bullet(sheet.lines[i]);
              }
              out.lines.push_back(std::move(row));
              out.listed.push_back(true);
            }
            return out;
          }};
}

Variant turned(const char* name, std::string between, std::string after) {
  return {name, false, [between, after](const Sheet& sheet) {
            return each_listed(sheet, [&](const std::string& line) {
              const auto cut = cut_of(line);
              return cut ? bullet_before(line) + cut->name + between + cut->amount + after : line;
            });
          }};
}

/// Another word for the unit of a plain line.
Variant respelt(const char* name, std::vector<std::pair<std::string, std::string>> units) {
  return {name, true, [units](const Sheet& sheet) {
            return each_listed(sheet, [&](const std::string& line) {
              const auto cut = cut_of(line);
              for (const auto& [from, to] : units) {
                if (cut && cut->amount.ends_with(" " + from)) {
                  return bullet_before(line) +
                         cut->amount.substr(0, cut->amount.size() - from.size()) + to + " " +
                         cut->name;
                }
              }
              return line;
            });
          }};
}

Variant lines_as(const char* name, bool english, EachLine rewrite) {
  return {name, english, [rewrite](const Sheet& sheet) {
            return each_listed(sheet, [&](const std::string& line) {
              const std::string words = without_bullet(line);
              const std::string other = rewrite(words);
              return other == words ? line : bullet_before(line) + other;
            });
          }};
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

/// Whether one-letter units tell a spoon by their case.
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

/// "1 1/2" keeps its blank: "11/2" would be another number.
bool is_mixed(const Cut& cut) {
  return cut.amount.find(' ') != cut.amount.rfind(' ');
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

/// A scan's slips in figures: O for 0, l for 1.
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

/// The same again in a bracket: "1 cup (240 ml) milk", "500 g (17.6 oz) flour".
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

Sheet numbered(const Sheet& sheet) {
  Sheet out = sheet;
  std::size_t number = 0;
  for (std::size_t i = 0; i < out.lines.size(); ++i) {
    number = out.listed[i] ? number + 1 : 0;
    out.lines[i] =
        out.listed[i] ? std::to_string(number) + ". " + without_bullet(out.lines[i]) : out.lines[i];
  }
  return out;
}

Sheet spaced_out(const Sheet& sheet) {
  Sheet out;
  for (std::size_t i = 0; i < sheet.lines.size(); ++i) {
    out.lines.push_back(sheet.lines[i]);
    out.listed.push_back(sheet.listed[i]);
    if (sheet.listed[i]) {
      out.lines.emplace_back();
      out.listed.push_back(false);
    }
  }
  return out;
}

Sheet tight(const Sheet& sheet) {
  Sheet out;
  for (std::size_t i = 0; i < sheet.lines.size(); ++i) {
    if (i > 0 && !sheet.lines[i].empty()) {
      out.lines.push_back(sheet.lines[i]);
      out.listed.push_back(sheet.listed[i]);
    } else if (i == 0) {
      out.lines.push_back(sheet.lines[i]);
      out.listed.push_back(sheet.listed[i]);
    }
  }
  return out;
}

}  // namespace

std::vector<Variant> variants() {
  std::vector<Variant> out{
      {"as it stands", false, [](const Sheet& sheet) { return sheet; }},
      led("dashes", "- "),
      led("dashes, no blank", "-"),
      led("stars", "* "),
      led("bullets", "\xE2\x80\xA2 "),
      led("bullets, no blank", "\xE2\x80\xA2"),
      led("boxes", "\xE2\x96\xA2 "),
      led("brackets to tick", "[ ] "),
      led("ticks", "\xE2\x9C\x94\xEF\xB8\x8F "),
      led("pictures", "\xF0\x9F\xA7\x88 "),
      led("arrows", "\xE2\x9E\xA1\xEF\xB8\x8F "),
      led("long dashes", "\xE2\x80\x93 "),
      led("plus signs", "+ "),
      led("tabs", "\t"),
      ended("commas at the end", ","),
      ended("semicolons at the end", ";"),
      ended("stops at the end", "."),
      ended("two blanks at the end", "  "),
      run_on("run on with commas", ", "),
      run_on("run on with semicolons", "; "),
      run_on("run on with bars", " | "),
      run_on("run on with bullets", " \xE2\x80\xA2 "),
      run_on("run on with dashes", " - "),
      run_on("run on with strokes", " / "),
      run_on("run on with stops", ". "),
      run_on("run on with plus signs", " + "),
      run_on("run on, nothing between", " "),
      turned("amount after a blank", " ", ""),
      turned("amount after a dash", " - ", ""),
      turned("amount after a colon", ": ", ""),
      turned("amount after a comma", ", ", ""),
      turned("amount after dots", " ........ ", ""),
      turned("amount in a bracket", " (", ")"),
      turned("amount after a tab", "\t", ""),
      turned("amount after an equals sign", " = ", ""),
      turned("amount after a long dash", " \xE2\x80\x94 ", ""),
      lines_as("amount glued to its unit", false, glued),
      lines_as("amount glued to its name", false, all_glued),
      lines_as("of between", true, with_link),
      lines_as("fractions as signs", false, signs),
      lines_as("fractions written out", false, spelt_fractions),
      lines_as("a scan's letters", false, scanned),
      lines_as("eggs x2", true, counted_after),
      lines_as("2x eggs", true, counted_before),
      lines_as("numbers in words", true, spelt_numbers),
      lines_as("said twice", true, said_twice),
      lines_as("in a table", false, tabled),
      lines_as("capitals", false,
               [](const std::string& line) { return has_letter_unit(line) ? line : upper(line); }),
      lines_as("small letters", false,
               [](const std::string& line) { return has_letter_unit(line) ? line : lower(line); }),
      {"numbered", false, numbered},
      {"a blank line after each", false, spaced_out},
      {"no blank lines", false, tight},
      respelt("grams",
              {{"g", "grams"}, {"ml", "mls"}, {"tsp", "teaspoons"}, {"tbsp", "tablespoons"}}),
      respelt("gms",
              {{"g", "gms"}, {"kg", "kgs"}, {"lb", "lbs"}, {"tsp", "tsps"}, {"tbsp", "tbsps"}}),
      respelt("gr.", {{"g", "gr."},
                      {"oz", "oz."},
                      {"tsp", "tsp."},
                      {"tbsp", "tbsp."},
                      {"cups", "c."},
                      {"cup", "c."}}),
      respelt("Tbs", {{"tbsp", "Tbs"},
                      {"tsp", "Tsp"},
                      {"tablespoons", "Tbls."},
                      {"teaspoon", "teasp."},
                      {"cups", "Cups"}}),
      respelt("T and t", {{"tbsp", "T"},
                          {"tsp", "t"},
                          {"cups", "C"},
                          {"cup", "C"},
                          {"tablespoons", "T."},
                          {"teaspoons", "t."}}),
  };
  return out;
}

}  // namespace maslin
