#include "reading/layout.h"

#include <algorithm>
#include <optional>

#include "quantity/markup_text.h"
#include "quantity/table.h"
#include "reading/boxed_table.h"
#include "reading/cell_lines.h"
#include "reading/join_lines.h"
#include "reading/line_marks.h"
#include "reading/side_by_side.h"

namespace maslin::reading {
namespace {

constexpr std::size_t k_most_lines = 20'000;

struct Counts {
  std::size_t lines = 0;
  std::size_t stamped = 0;
  std::size_t cues = 0;
  std::size_t hyphened = 0;
  std::size_t quoted = 0;
  std::size_t chevrons = 0;
  std::size_t pictures = 0;  // "1/7 …"
  std::size_t chat = 0;
  std::size_t comma_rows = 0;
  std::string_view letter;  // that stands for a bullet
  std::size_t lettered = 0;
  std::size_t padded = 0;   // "01 - ", "02 - " in order
  std::size_t bullets = 0;  // alone on their line
};

/// Length of what follows the words of a link or a heading at `i`: "](https://…)", "[edit]", "[]".
std::size_t link_length(std::string_view line, std::size_t i) {
  const std::string_view rest = line.substr(i);
  for (const std::string_view mark : {"[]", "[edit]"}) {
    if (rest.starts_with(mark)) {
      return mark.size();
    }
  }
  const bool link = rest.starts_with("](http") || rest.starts_with("](/");
  const std::size_t close = link ? rest.find(')') : std::string_view::npos;
  return close == std::string_view::npos ? 0 : close + 1;
}

/// Without the signs of plain-text markup: "## Method", "**Mix**", "| Flour | 500 g |".
std::string without_signs(std::string_view line) {
  if (line.starts_with('#') && line.find_first_not_of('#') < line.size() &&
      line[line.find_first_not_of('#')] == ' ') {
    line = trimmed(line.substr(line.find_first_not_of('#')));
  }
  bool amount_first = false;
  const bool barred = std::count(line.begin(), line.end(), '|') > 1;
  if (barred && (line.front() == '|' || line.back() == '|')) {
    while (line.ends_with('|')) {  // cells with nothing in them
      line = trimmed(line.substr(0, line.size() - 1));
    }
    while (line.starts_with('|')) {
      line = trimmed(line.substr(1));
    }
    // "| 1 | cup | flour |": amount, unit and name, each in its cell.
    const std::size_t first = line.find('|');
    const std::string_view cell = trimmed(line.substr(0, first));
    amount_first = first != std::string_view::npos && cell.size() <= 6 && !cell.empty() &&
                   (is_digit(cell.front()) || static_cast<unsigned char>(cell.front()) >= 0x80) &&
                   std::none_of(cell.begin(), cell.end(), [](char c) {
                     return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
                   });
  }
  std::string out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (const std::size_t link = link_length(line, i); link > 0) {
      i += link - 1;
      continue;
    }
    const bool pair = i + 1 < line.size() && line[i] == line[i + 1];
    if (pair && (line[i] == '*' || line[i] == '_')) {
      ++i;
    } else if (amount_first && line[i] == '|') {
      out += ' ';
    } else {
      out += line[i];
    }
  }
  return out;
}

/// "flour,500,g": lines of a table saved with commas; with gaps it reads like any other.
bool is_comma_row(std::string_view line) {
  const std::size_t first = line.find(',');
  if (first == std::string_view::npos || first + 1 >= line.size() || line.size() > 80) {
    return false;
  }
  bool number = false;
  for (std::size_t i = first; i < line.size(); ++i) {
    const bool comma = line[i] == ',';
    if (comma && i + 1 < line.size() && line[i + 1] == ' ') {
      return false;
    }
    number = number || (comma && i + 1 < line.size() && is_digit(line[i + 1]));
  }
  return number && !is_digit(line[first - (first > 0 ? 1U : 0U)]);
}

Counts count(const std::vector<std::string_view>& lines) {
  Counts out;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string_view line = trimmed(lines[i]);
    out.lines += line.empty() ? 0U : 1U;
    out.stamped += stamp_length(line) > 0 && !is_cue_time(line) ? 1U : 0U;
    out.cues += is_cue_time(line) ? 1U : 0U;
    out.hyphened += ends_hyphened(line) && i + 1 < lines.size() ? 1U : 0U;
    if (const std::size_t bytes = letter_bullet_length(line);
        bytes > 0 && (out.letter.empty() || line.starts_with(out.letter))) {
      out.letter = line.substr(0, bytes);
      ++out.lettered;
    }
    out.bullets += is_bullet_line(line) ? 1U : 0U;
    out.padded += is_padded(line, out.padded + 1) ? 1U : 0U;
    out.chat += chat_length(line) > 0 ? 1U : 0U;
    out.comma_rows += is_comma_row(line) ? 1U : 0U;
    out.quoted += line.starts_with(">>") || line.starts_with("> >") ? 1U : 0U;
    out.chevrons += line.starts_with(">") && !line.starts_with(">>") ? 1U : 0U;
    out.pictures += is_picture(line, out.pictures + 1) ? 1U : 0U;
  }
  return out;
}

/// Takes "[Music]" and "(applause)" out of spoken text.
std::string without_asides(std::string_view line, std::vector<std::string>& asides) {
  std::string out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const std::size_t close = line[i] == '[' ? line.find(']', i) : std::string_view::npos;
    if (close != std::string_view::npos && close - i < 30) {
      asides.emplace_back(line.substr(i, close - i + 1));
      i = close;
    } else {
      out += line[i];
    }
  }
  return out;
}

FoundText captions(const std::vector<std::string_view>& lines) {
  FoundText out;
  out.captions = true;
  std::string spoken;
  std::string last;
  bool head = true;
  for (std::string_view line : lines) {
    line = trimmed(line);
    if (line.empty()) {
      continue;
    }
    const bool cue = is_cue_time(line);
    if (cue || is_number_line(line) || line.starts_with("WEBVTT") || line.starts_with("NOTE") ||
        line.starts_with("Kind:") || line.starts_with("Language:") || line.starts_with("STYLE")) {
      out.asides.emplace_back(line);
      head = head && !cue;
      continue;
    }
    const std::size_t stamp = stamp_length(line);
    if (stamp > 0) {
      out.asides.emplace_back(line.substr(0, stamp));
      line = trimmed(line.substr(stamp));
      head = false;
    }
    if (head && stamp == 0) {  // a title before the first cue
      out.lines.push_back({std::string(line), true, false});
      continue;
    }
    std::string words = without_asides(without_tags(line), out.asides);
    // Rolling captions say each line twice.
    if (!words.empty() && words != last) {
      spoken += (spoken.empty() ? "" : "\n") + words;
      last = words;
    }
  }
  if (!spoken.empty()) {
    out.lines.push_back({spoken, true, false});
  }
  return out;
}

std::string with_gaps(std::string_view line) {
  std::string out;
  for (const char c : line) {
    out += c == ',' ? std::string("  ") : std::string(1, c);
  }
  return out;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const auto space = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
  while (!text.empty() && space(text.front())) {
    text.remove_prefix(1);
  }
  while (!text.empty() && space(text.back())) {
    text.remove_suffix(1);
  }
  return text;
}

/// A telegram's full stops: "FLOUR TWO POUNDS STOP YEAST ONE OUNCE STOP". Each ends a line.
std::string without_stops(std::string_view text) {
  constexpr std::string_view k_stop = " STOP";
  constexpr std::size_t k_fewest = 3;
  const auto next = [&](std::size_t from) {
    for (std::size_t at = text.find(k_stop, from); at != std::string_view::npos;
         at = text.find(k_stop, at + 1)) {
      const std::size_t end = at + k_stop.size();
      if (end == text.size() || text[end] == ' ' || text[end] == '\n' || text[end] == '\r') {
        return at;
      }
    }
    return std::string_view::npos;
  };
  std::size_t stops = 0;
  for (std::size_t at = next(0); at != std::string_view::npos && stops < k_fewest;
       at = next(at + 1)) {
    ++stops;
  }
  if (stops < k_fewest) {
    return {};
  }
  std::string out;
  std::size_t from = 0;
  for (std::size_t at = next(0); at != std::string_view::npos; at = next(at + 1)) {
    out += text.substr(from, at - from);
    out += '\n';
    from = at + k_stop.size();
  }
  out += text.substr(from);
  return out;
}

FoundText cut_lines(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) {
    text.remove_prefix(3);
  }
  const std::string telegram = without_stops(text);
  text = telegram.empty() ? text : std::string_view(telegram);
  std::vector<std::string_view> lines = split(text, '\n');
  // One blank line says as much as a thousand.
  lines.erase(std::unique(lines.begin(), lines.end(),
                          [](std::string_view a, std::string_view b) {
                            return trimmed(a).empty() && trimmed(b).empty();
                          }),
              lines.end());
  lines.resize(std::min(lines.size(), k_most_lines));
  const Counts counts = count(lines);
  if (counts.cues >= 2 ||
      (counts.stamped >= 3 && counts.chat < 2 && counts.stamped * 2 > counts.lines)) {
    return captions(lines);
  }
  FoundText out;
  bool blank = true;
  std::size_t padded = 0;
  const std::vector<std::string> straight = joined_cells(unboxed(rows_apart(unfolded(lines))));
  for (std::string_view line : straight) {
    line = trimmed(line);
    if (line.empty()) {
      blank = true;
      continue;
    }
    FoundLine found;
    found.blank_before = blank;
    blank = false;
    found.quoted = line.starts_with(">>") || (counts.quoted > 0 && line.starts_with(">")) ||
                   (counts.chevrons > 0 && line.ends_with("wrote:"));
    if (counts.pictures >= 3) {
      line.remove_prefix(picture_length(line));
    }
    if (counts.chat >= 2) {
      line.remove_prefix(chat_length(line));
    }
    padded = counts.padded >= 3 && is_padded(line, padded + 1) ? padded + 1
             : counts.padded >= 3 && is_padded(line, 1)        ? 1
                                                               : padded;
    if (counts.padded >= 3 && is_padded(line, padded)) {
      line.remove_prefix(5);
    }
    if (counts.lettered >= 3 && line.starts_with(counts.letter) &&
        line.size() > counts.letter.size() && line[counts.letter.size()] == ' ') {
      line.remove_prefix(counts.letter.size() + 1);
    }
    // "1. Flour |" over "1/2 kg |": the bar only ends the cell.
    if (line.size() > 2 && line.find('|') + 1 == line.size()) {
      line = trimmed(line.substr(0, line.size() - 1));
    }
    found.raw = without_signs(trimmed(line));
    if (counts.comma_rows >= 3 && is_comma_row(line)) {
      found.raw = with_gaps(found.raw);
    }
    // A bullet on a line of its own belongs to the next.
    if (!found.raw.empty() && !(counts.bullets >= 3 && is_bullet_line(found.raw))) {
      out.lines.push_back(std::move(found));
    }
  }
  if (counts.hyphened >= 3) {
    join_narrow(out.lines);
  } else {
    join_broken_off(out.lines);
    join_wrapped(out.lines);
  }
  return out;
}

}  // namespace maslin::reading
