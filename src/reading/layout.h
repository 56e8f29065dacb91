#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace maslin::reading {

/// A line of found text after wrapped lines were joined and what is not language
/// (time stamps, quoting, numbering of pictures) was taken off.
struct FoundLine {
  std::string raw;
  bool blank_before = false;
  bool quoted = false;   // of an earlier message: not this recipe
  std::size_t seam = 0;  // where the last wrapped line was joined on; 0: nowhere
};

struct FoundText {
  std::vector<FoundLine> lines;
  std::vector<std::string> asides;  // what was taken out whole: "[Music]", cue numbers
  bool captions = false;
};

/// Cuts valid UTF-8 text into lines. Captions (WebVTT, SRT, or a time before each line)
/// become one line whose cues are parted by newlines; lines a printer or a mailer
/// wrapped are joined again; bounds: 20 000 lines.
FoundText cut_lines(std::string_view text);

/// The sign that a line of a list begins with, empty if none.
std::string_view bullet_of(std::string_view line);

std::string_view trimmed(std::string_view text);

}  // namespace maslin::reading
