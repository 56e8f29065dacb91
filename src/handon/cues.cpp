// Captions as cues, and a track of cues as WebVTT or SubRip.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <optional>

#include "handon/captions.h"
#include "quantity/markup_text.h"
#include "quantity/table.h"

namespace maslin::handon {
namespace {

constexpr std::size_t k_most_cues = 20'000;
/// How long a line of a list is shown when none follows.
constexpr double k_last_s = 6.0;

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

/// A time at the start of the text, which loses it: "1:02", "00:01:02.345", "00:01:02,345".
std::optional<double> take_time(std::string_view& text) {
  std::array<double, 3> fields{};
  std::size_t field = 0;
  std::size_t digits = 0;
  std::size_t i = 0;
  double fraction = 0.0;
  double place = 0.0;
  for (; i < text.size(); ++i) {
    const char c = text[i];
    if (c >= '0' && c <= '9') {
      if (place > 0.0) {
        fraction += place * (c - '0');
        place *= 0.1;
      } else {
        fields[field] = fields[field] * 10.0 + (c - '0');
      }
      ++digits;
    } else if (c == ':' && field < 2 && place == 0.0 && digits > 0) {
      ++field;
    } else if ((c == '.' || c == ',') && place == 0.0 && field > 0) {
      place = 0.1;
    } else {
      break;
    }
  }
  if (field == 0 || digits < 3 || digits > 12) {
    return std::nullopt;
  }
  text.remove_prefix(i);
  double seconds = 0.0;
  for (std::size_t f = 0; f <= field; ++f) {
    seconds = seconds * 60.0 + fields[f];
  }
  return seconds + fraction;
}

void add_words(SpokenCue& cue, std::string_view line) {
  const std::string words = without_tags(line);
  cue.words += (cue.words.empty() || words.empty() ? "" : " ") + words;
}

/// "00:00:01.000 --> 00:00:03.000 align:start"
std::optional<SpokenCue> timing_of(std::string_view line) {
  const std::size_t arrow = line.find("-->");
  if (arrow == std::string_view::npos) {
    return std::nullopt;
  }
  std::string_view from = trimmed(line.substr(0, arrow));
  std::string_view to = trimmed(line.substr(arrow + 3));
  const auto start = take_time(from);
  const auto end = take_time(to);
  return start && end && *end >= *start ? std::optional(SpokenCue{*start, *end, ""}) : std::nullopt;
}

std::vector<SpokenCue> timed_cues(const std::vector<std::string_view>& lines) {
  std::vector<SpokenCue> out;
  bool open = false;
  for (std::size_t i = 0; i < lines.size() && out.size() < k_most_cues; ++i) {
    const std::string_view line = trimmed(lines[i]);
    if (auto cue = timing_of(line)) {
      out.push_back(std::move(*cue));
      open = true;
    } else if (line.empty()) {
      open = false;
    } else if (open) {
      add_words(out.back(), line);
    }
  }
  return out;
}

std::vector<SpokenCue> listed_cues(const std::vector<std::string_view>& lines) {
  std::vector<SpokenCue> out;
  for (std::size_t i = 0; i < lines.size() && out.size() < k_most_cues; ++i) {
    std::string_view line = trimmed(lines[i]);
    const bool bracket = line.starts_with('[') || line.starts_with('(');
    line.remove_prefix(bracket ? 1 : 0);
    if (const auto start = take_time(line)) {
      line.remove_prefix(bracket && !line.empty() ? 1 : 0);
      out.push_back({*start, *start + k_last_s, ""});
      add_words(out.back(), trimmed(line));
    } else if (!out.empty() && !line.empty()) {
      add_words(out.back(), line);
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return a.start_s < b.start_s; });
  for (std::size_t i = 0; i + 1 < out.size(); ++i) {
    out[i].end_s = out[i + 1].start_s;
  }
  return out;
}

/// "00:01:02.345", with the mark before the thousandths that the format wants.
std::string clock_text(double seconds, char mark) {
  const long thousandths = std::lround(std::clamp(seconds, 0.0, 359'999.0) * 1000.0);
  std::array<char, 32> out{};
  std::snprintf(out.data(), out.size(), "%02ld:%02ld:%02ld%c%03ld", thousandths / 3'600'000,
                thousandths / 60'000 % 60, thousandths / 1000 % 60, mark, thousandths % 1000);
  return out.data();
}

/// Text of a WebVTT cue: "&", "<" and ">" are written as names.
std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
  }
  return out;
}

}  // namespace

std::vector<SpokenCue> spoken_cues(std::string_view captions) {
  if (captions.starts_with("\xEF\xBB\xBF")) {
    captions.remove_prefix(3);
  }
  const std::vector<std::string_view> lines = split(captions, '\n');
  const bool timed = std::any_of(lines.begin(), lines.end(),
                                 [](auto line) { return timing_of(line).has_value(); });
  return timed ? timed_cues(lines) : listed_cues(lines);
}

std::string track_to_vtt(const ScreenTrack& track) {
  std::string out = "WEBVTT\n";
  for (const ScreenCue& cue : track.cues) {
    // At the top: the bottom is for what is said.
    out += "\n" + clock_text(cue.start_s, '.') + " --> " + clock_text(cue.end_s, '.') +
           " line:0 align:center\n";
    for (const std::string& line : cue.lines) {
      out += escaped(line) + "\n";
    }
  }
  return out;
}

std::string track_to_srt(const ScreenTrack& track) {
  std::string out;
  int number = 1;
  for (const ScreenCue& cue : track.cues) {
    out += std::to_string(number++) + "\n" + clock_text(cue.start_s, ',') + " --> " +
           clock_text(cue.end_s, ',') + "\n";
    for (const std::string& line : cue.lines) {
      out += line + "\n";
    }
    out += "\n";
  }
  return out;
}

}  // namespace maslin::handon
