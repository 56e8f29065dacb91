#include "variants.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <utility>

#include "variant_lines.h"

namespace maslin {
namespace {

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
