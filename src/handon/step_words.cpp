#include "handon/step_words.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <vector>

#include "forecast/schedule.h"
#include "quantity/number_text.h"
#include "recipe/recipe_text.h"

namespace maslin::handon {
namespace {

struct Piece {
  std::string word;  // lower case, without punctuation at its ends
  std::size_t begin = 0;
  std::size_t end = 0;
};

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Numbers, words and dashes of the text; "375F" is a number and a word.
std::vector<Piece> pieces_of(const std::string& text) {
  const auto kind = [](unsigned char c) {
    return is_digit(static_cast<char>(c)) || c == '.' || c == '/'          ? 1
           : (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c >= 0x80 ? 2
           : c == '-'                                                      ? 3
                                                                           : 0;
  };
  std::vector<Piece> out;
  for (std::size_t i = 0; i < text.size();) {
    const int now = kind(static_cast<unsigned char>(text[i]));
    std::size_t end = i + 1;
    while (now != 0 && end < text.size() && kind(static_cast<unsigned char>(text[end])) == now) {
      ++end;
    }
    if (now != 0) {
      Piece piece{text.substr(i, end - i), i, end};
      std::transform(piece.word.begin(), piece.word.end(), piece.word.begin(), lower);
      while (now == 1 && piece.word.size() > 1 && piece.word.back() == '.') {
        piece.word.pop_back();
        --piece.end;
      }
      out.push_back(std::move(piece));
    }
    i = end;
  }
  return out;
}

bool one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_number(const Piece& piece) {
  return is_digit(piece.word.front()) || one_of(piece.word, {"½", "¼", "¾", "⅓", "⅔"});
}
bool is_joint(const Piece& piece) {
  return one_of(piece.word, {"to", "-", "–", "—", "or"});
}
bool is_time_unit(const Piece& piece) {
  return one_of(piece.word, {"minutes", "minute", "mins", "min", "hours", "hour", "hrs", "hr", "h",
                             "half", "days", "day"});
}
bool is_degree(const Piece& piece) {
  return one_of(piece.word, {"f", "c", "°f", "°c", "ºf", "ºc", "°", "º", "degrees", "degree",
                             "fahrenheit", "celsius", "centigrade", "fan", "˚f", "˚c"});
}

struct Span {
  std::size_t begin = 0;
  std::size_t end = 0;
};

/// Where numbers stand before a unit of the kind, each with the run of what belongs to it.
template <typename IsUnit>
std::vector<Span> spans_of(const std::vector<Piece>& pieces, const IsUnit& is_unit) {
  std::vector<Span> out;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const bool an = one_of(pieces[i].word, {"an", "a", "half"});
    if (!is_number(pieces[i]) && !an) {
      continue;
    }
    std::size_t at = i;
    std::size_t last = i;
    bool unit = false;
    while (at < pieces.size() &&
           (is_number(pieces[at]) || is_joint(pieces[at]) || is_unit(pieces[at]) ||
            (an && at == i) || (unit && one_of(pieces[at].word, {"and", "a"})))) {
      if (is_unit(pieces[at]) && !(an && at == i)) {
        unit = true;
        last = at;
      }
      ++at;
    }
    if (unit) {
      out.push_back({pieces[i].begin, pieces[last].end});
      i = last;
    }
  }
  return out;
}

/// "for about" before a time goes with it: what follows is no guess.
std::size_t begin_with_about(const std::vector<Piece>& pieces, std::size_t begin) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (pieces[i].begin == begin && i > 0 &&
        one_of(pieces[i - 1].word, {"about", "around", "approximately", "approx", "roughly"})) {
      return pieces[i - 1].begin;
    }
  }
  return begin;
}

std::string minutes_words(const Range& minutes) {
  return range_text(minutes) + " minutes";
}

}  // namespace

std::optional<std::string> restated(const std::string& words, const std::optional<Range>& minutes,
                                    const std::optional<std::string>& heat) {
  const std::vector<Piece> pieces = pieces_of(words);
  const auto said = [&pieces](std::initializer_list<std::string_view> any) {
    return std::any_of(pieces.begin(), pieces.end(),
                       [any](const Piece& piece) { return one_of(piece.word, any); });
  };
  if (words.empty() || said({"gas", "mark", "overnight", "then", "thermostat"})) {
    return std::nullopt;
  }
  const std::vector<Span> times = spans_of(pieces, is_time_unit);
  const std::vector<Span> heats = spans_of(pieces, is_degree);
  if ((minutes && times.size() > 1) || (heat && heats.size() != 1)) {
    return std::nullopt;
  }
  std::vector<std::pair<Span, std::string>> changes;
  if (minutes && !times.empty()) {
    const Span span{begin_with_about(pieces, times.front().begin), times.front().end};
    changes.emplace_back(span, minutes_words(*minutes));
  }
  if (heat) {
    changes.emplace_back(heats.front(), *heat);
  }
  std::sort(changes.begin(), changes.end(),
            [](const auto& a, const auto& b) { return a.first.begin > b.first.begin; });
  std::string out = words;
  for (const auto& [span, text] : changes) {
    out.replace(span.begin, span.end - span.begin, text);
  }
  if (minutes && times.empty()) {
    const bool stop = !out.empty() && out.back() == '.';
    out = (stop ? out.substr(0, out.size() - 1) : out) + ", " + minutes_words(*minutes) + ".";
  }
  return out;
}

std::string sentence_of(const Step& step, const CardWords& words) {
  if (step.kind == StepKind::steam && !step.minutes && !step.pieces && step.until.empty()) {
    return words.say("steam_water");
  }
  const Frost frost = frost_of(step);
  std::string out =
      words.say(frost == Frost::freezes ? "step_freeze"
                : frost == Frost::thaws ? "step_thaw"
                                        : "step_" + std::string(step_kind_name(step.kind)));
  const auto add = [&out](const std::string& text) { out += text.empty() ? "" : " " + text; };
  if (step.pieces) {
    add(step.pieces->high == 1.0
            ? words.say("into_piece")
            : words.say("into_pieces", {words.range(step.pieces->low, step.pieces->high, 0)}));
  }
  if (!step.place.empty() && frost != Frost::freezes) {
    add(words.say("place_" + step.place));
  }
  if (step.celsius) {
    const double low = step.celsius->low;
    const double high = step.celsius->high;
    // American readers take °F; the figure in °C would be read as a second setting.
    add(words.language() == "en-US"
            ? words.filled("at {1} °F", {words.range(low * 1.8 + 32.0, high * 1.8 + 32.0, 1)})
            : words.say("at_heat", {words.range(low, high, 1)}));
  }
  if (step.minutes) {
    add(words.say("for_minutes", {words.range(step.minutes->low, step.minutes->high, 1)}));
  }
  if (const std::string until = words.until_text(step.until); !until.empty()) {
    add(words.say("until", {until}));
  }
  return out + ".";
}

}  // namespace maslin::handon
