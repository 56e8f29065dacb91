#include "reading/line_marks.h"

#include <algorithm>
#include <string>

namespace maslin::reading {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::size_t stamp_length(std::string_view line) {
  std::size_t i = 0;
  const bool bracket = !line.empty() && (line[0] == '[' || line[0] == '(');
  i += bracket ? 1U : 0U;
  std::size_t colons = 0;
  std::size_t digits = 0;
  while (i < line.size() && (is_digit(line[i]) || (line[i] == ':' && digits > 0) ||
                             ((line[i] == '.' || line[i] == ',') && colons > 0 &&
                              i + 1 < line.size() && is_digit(line[i + 1])))) {
    colons += line[i] == ':' ? 1U : 0U;
    digits += is_digit(line[i]) ? 1U : 0U;
    ++i;
  }
  if (colons == 0 || digits < 3) {
    return 0;
  }
  // "8:30 pm" is an hour of the day; a stamp's seconds have two digits.
  const std::size_t last = line.rfind(':', i - 1);
  if (i - last < 3) {
    return 0;
  }
  if (bracket) {
    return i < line.size() && (line[i] == ']' || line[i] == ')') ? i + 1 : 0;
  }
  return i == line.size() || line[i] == ' ' || line[i] == '\t' ? i : 0;
}

bool is_cue_time(std::string_view line) {
  return line.find("-->") != std::string_view::npos && stamp_length(line) > 0;
}

bool is_number_line(std::string_view line) {
  return !line.empty() && line.size() < 7 && std::all_of(line.begin(), line.end(), is_digit);
}

std::size_t letter_bullet_length(std::string_view line) {
  const bool wide = line.size() > 3 && (line[0] == '\xC2' || line[0] == '\xC3');
  const std::size_t bytes = wide ? 2 : 1;
  if (line.size() < bytes + 2 || line[bytes] != ' ' || !is_digit(line[bytes + 1])) {
    return 0;
  }
  // Vulgar fractions and the signs of bullets and degrees are no letters.
  const bool letter = wide ? line[0] == '\xC3' : std::string_view("ovnqw").find(line[0]) < 5;
  return letter ? bytes : 0;
}

bool is_padded(std::string_view line, std::size_t number) {
  return line.size() > 6 && number < 100 && is_digit(line[0]) && is_digit(line[1]) &&
         line.substr(2, 3) == " - " &&
         number ==
             10 * static_cast<std::size_t>(line[0] - '0') + static_cast<std::size_t>(line[1] - '0');
}

bool is_bullet_line(std::string_view line) {
  return line == "-" || line == "*" || line == "\xE2\x80\xA2" || line == "\xE2\x96\xA2" ||
         line == "\xC2\xB7" || line == "\xE2\x80\x93" || line == "o";
}

std::size_t picture_length(std::string_view line) {
  std::size_t i = 0;
  while (i < line.size() && is_digit(line[i])) {
    ++i;
  }
  if (i == 0 || i > 2 || i >= line.size() || line[i] != '/') {
    return 0;
  }
  std::size_t j = i + 1;
  while (j < line.size() && is_digit(line[j])) {
    ++j;
  }
  return j > i + 1 && j - i < 4 && j < line.size() && line[j] == ' ' ? j + 1 : 0;
}

bool is_picture(std::string_view line, std::size_t number) {
  return picture_length(line) > 0 && line.starts_with(std::to_string(number) + "/");
}

std::size_t chat_length(std::string_view line) {
  const bool bracket = line.starts_with('[');
  std::size_t i = bracket ? 1 : 0;
  std::size_t digits = 0;
  std::size_t colons = 0;
  while (i < line.size() && (is_digit(line[i]) || std::string_view("/.,:- APMapm").find(line[i]) !=
                                                      std::string_view::npos)) {
    digits += is_digit(line[i]) ? 1U : 0U;
    colons += line[i] == ':' ? 1U : 0U;
    ++i;
  }
  if (digits < 3 || colons == 0 || (bracket && (i >= line.size() || line[i] != ']'))) {
    return 0;
  }
  const std::size_t name = line.find(": ", i);
  return name == std::string_view::npos || name - i > 30 ? 0 : name + 2;
}

}  // namespace maslin::reading
