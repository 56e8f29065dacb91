// Lines that a printer, a mailer or a copied page broke, put together again.
#include "reading/join_lines.h"

#include <algorithm>

namespace maslin::reading {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_lower(char c) {
  return c >= 'a' && c <= 'z';
}

bool is_heading_like(std::string_view line) {
  return std::none_of(line.begin(), line.end(), is_lower);
}

bool is_unclosed(std::string_view line) {
  return std::count(line.begin(), line.end(), '(') > std::count(line.begin(), line.end(), ')');
}

/// Whether a line breaks off where no line ends: "1 tbsp dry yeast or".
bool breaks_off(std::string_view line) {
  for (const std::string_view word : {" or", " and", " of", " with", " plus", " the"}) {
    if (line.ends_with(word)) {
      return true;
    }
  }
  return is_unclosed(line) || line.ends_with('/') || (line.ends_with(',') && line.size() > 24);
}

/// A bullet and a number, nothing more.
bool is_number_alone(std::string_view line) {
  const std::string_view sign = bullet_of(line);
  line.remove_prefix(sign.size());
  return !sign.empty() && line.size() <= 6 && std::all_of(line.begin(), line.end(), [](char c) {
    return is_digit(c) || c == ' ' || c == '/' || c == ',' || c == '.';
  });
}

/// "eggs x2", "salt: 1 tsp": short, with a figure, and so no rest of the line before.
bool has_own_figure(std::string_view line) {
  constexpr std::size_t k_short = 32;
  return line.size() <= k_short && line.find('(') == std::string_view::npos &&
         std::any_of(line.begin(), line.end(), is_digit);
}

}  // namespace

bool ends_hyphened(std::string_view line) {
  // "250 ml milk -warm from the pan-": words set between dashes.
  const std::size_t dash = line.find(" -");
  if (dash != std::string_view::npos && dash + 2 < line.size() && line[dash + 2] != ' ') {
    return false;
  }
  return line.size() > 2 && line.back() == '-' &&
         (is_lower(line[line.size() - 2]) || line[line.size() - 2] >= 'A') &&
         line[line.size() - 2] != ' ' && line[line.size() - 2] != '-';
}

std::string_view bullet_of(std::string_view line) {
  for (const std::string_view sign : {"\xE2\x80\xA2", "\xC2\xB7", "\xE2\x96\xA2", "*", "-"}) {
    if (line.starts_with(sign) && line.size() > sign.size() + 1 &&
        (line[sign.size()] == ' ' || line[sign.size()] == '\t')) {
      return sign;
    }
  }
  return {};
}

void join_narrow(std::vector<FoundLine>& lines) {
  std::vector<FoundLine> out;
  for (FoundLine& line : lines) {
    const bool goes_on = !out.empty() && !line.blank_before && !is_heading_like(line.raw) &&
                         !is_heading_like(out.back().raw);
    const bool broken = !out.empty() && ends_hyphened(out.back().raw) && !line.blank_before;
    if (broken) {
      out.back().raw.pop_back();
      out.back().raw += line.raw;
    } else if (goes_on) {
      out.back().raw += " " + line.raw;
    } else {
      out.push_back(std::move(line));
    }
  }
  lines = std::move(out);
}

void join_broken_off(std::vector<FoundLine>& lines) {
  constexpr std::size_t k_fewest = 4;
  constexpr std::size_t k_longest_rest = 40;
  constexpr double k_longer = 1.3;
  std::size_t signs = 0;
  for (const FoundLine& line : lines) {
    signs += bullet_of(line.raw).empty() ? 0U : 1U;
  }
  std::vector<FoundLine> out;
  for (FoundLine& line : lines) {
    const bool next = !out.empty() && !line.blank_before && bullet_of(line.raw).empty() &&
                      !line.raw.ends_with(':') && !is_digit(line.raw.front());
    const std::string_view last = next ? std::string_view(out.back().raw) : std::string_view();
    // "- 3" and under it "Cucharadas de leche"
    if (next && is_number_alone(last)) {
      out.back().raw += " " + line.raw;
      continue;
    }
    const bool small = next && is_lower(line.raw.front());
    // What a narrow page broke goes on in a line no longer than the first.
    const bool longer =
        line.raw.size() > k_longest_rest &&
        static_cast<double>(line.raw.size()) > k_longer * static_cast<double>(last.size());
    const bool goes_on = signs >= k_fewest && !bullet_of(last).empty() && small && !longer &&
                         !has_own_figure(line.raw);
    if (next && (goes_on || (small && last.size() < 100 && breaks_off(last)))) {
      out.back().seam = goes_on ? out.back().raw.size() : 0;
      out.back().raw += " " + line.raw;
    } else {
      out.push_back(std::move(line));
    }
  }
  lines = std::move(out);
}

void join_wrapped(std::vector<FoundLine>& lines) {
  constexpr std::size_t k_wrapped = 58;
  std::vector<FoundLine> out;
  std::size_t last_length = 0;
  for (FoundLine& line : lines) {
    const std::size_t length = line.raw.size();
    const bool goes_on =
        !out.empty() && !line.blank_before && last_length >= k_wrapped && last_length < 100 &&
        is_lower(line.raw.front()) && !out.back().raw.empty() &&
        // Where a paragraph itself begins small, a small letter tells nothing.
        !is_lower(out.back().raw.front()) &&
        std::string_view(".!?:;)").find(out.back().raw.back()) == std::string_view::npos;
    if (goes_on) {
      out.back().seam = out.back().raw.size();
      out.back().raw += " " + line.raw;
    } else {
      out.push_back(std::move(line));
    }
    last_length = length;
  }
  lines = std::move(out);
}

}  // namespace maslin::reading
