#include "handon/captions.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "handon/household.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin::handon {
namespace {

/// How long a conversion stays: long enough to be read.
constexpr double k_shown_s = 6.0;
constexpr double k_least_s = 1.5;
/// Above this a setting is an oven's; below, water's or dough's.
constexpr double k_oven_from_celsius = 95.0;

/// A word that was said, and when.
struct Said {
  std::string word;
  double at_s = 0.0;
};

std::vector<std::string> words_in(const std::string& text) {
  std::vector<std::string> out;
  const std::string folded = folded_name(text);
  for (const std::string_view word : split(folded, ' ')) {
    if (!word.empty()) {
      out.emplace_back(word);
    }
  }
  return out;
}

/// All words in order; a rolling caption's repeated line is said once. Within a cue they are taken
/// to be spread evenly.
std::vector<Said> said_in(const std::vector<SpokenCue>& cues) {
  std::vector<Said> out;
  std::string last;
  for (const SpokenCue& cue : cues) {
    if (cue.words == last) {
      continue;
    }
    last = cue.words;
    const std::vector<std::string> words = words_in(cue.words);
    const double each = (cue.end_s - cue.start_s) / static_cast<double>(words.size() + 1);
    for (std::size_t i = 0; i < words.size(); ++i) {
      out.push_back({words[i], cue.start_s + each * static_cast<double>(i)});
    }
  }
  return out;
}

/// Where the words stand in what was said: the window that holds most of them, from `from` on and
/// then from the beginning. Nothing when it holds fewer than three in five.
std::optional<std::size_t> place_of(const std::vector<std::string>& words,
                                    const std::vector<Said>& said, std::size_t from) {
  constexpr double k_enough = 0.6;
  if (words.empty() || said.empty()) {
    return std::nullopt;
  }
  std::size_t best = 0;
  std::size_t best_at = 0;
  for (std::size_t step = 0; step < said.size(); ++step) {
    const std::size_t at = (from + step) % said.size();
    std::size_t hits = 0;
    for (std::size_t i = 0; i < words.size() && at + i < said.size(); ++i) {
      hits += said[at + i].word == words[i] ? 1U : 0U;
    }
    if (hits > best) {
      best = hits;
      best_at = at;
    }
  }
  const bool enough = static_cast<double>(best) >= k_enough * static_cast<double>(words.size());
  return enough ? std::optional(best_at) : std::nullopt;
}

/// The name alone, in any of its forms that is said first.
std::optional<std::size_t> place_of_name(const Line& line, const Pantry& pantry,
                                         const std::vector<Said>& said, std::size_t from) {
  std::vector<std::string> names{line.name};
  if (const Ingredient* food = pantry.find(line.ingredient_id)) {
    names.push_back(food->name);
    names.push_back(food->name_us);
  }
  for (const std::string& name : names) {
    const std::vector<std::string> words = words_in(name);
    const auto at = place_of(words, said, from);
    if (at) {
      return at;
    }
    // "flour" for "strong white flour".
    if (words.size() > 1) {
      if (const auto noun = place_of({words.back()}, said, from)) {
        return noun;
      }
    }
  }
  return std::nullopt;
}

/// The setting is spoken in the middle of its sentence: at its number, when that is said as one.
std::size_t place_of_heat(const Step& step, const std::vector<Said>& said, std::size_t sentence) {
  const std::set<std::string> numbers{
      number_text(step.celsius->low, 0), number_text(step.celsius->low * 1.8 + 32.0, 0),
      number_text(std::round((step.celsius->low * 1.8 + 32.0) / 5.0) * 5.0, 0)};
  const std::size_t words = words_in(step.text).size();
  for (std::size_t i = sentence; i < said.size() && i < sentence + words; ++i) {
    std::string digits;
    for (const char c : said[i].word) {
      digits += c >= '0' && c <= '9' ? std::string(1, c) : "";
    }
    if (numbers.count(digits) == 1) {
      return i;
    }
  }
  return sentence;
}

struct Shown {
  double at_s = 0.0;
  std::string text;
};

class Tracking {
 public:
  Tracking(const std::vector<SpokenCue>& cues, const Recipe& recipe, const Pantry& pantry,
           const CardWords& words)
      : cues_(cues), recipe_(recipe), pantry_(pantry), words_(words), said_(said_in(cues)) {}

  ScreenTrack track() {
    for (const Part& part : recipe_.parts) {
      place(part);
    }
    std::stable_sort(shown_.begin(), shown_.end(),
                     [](const Shown& a, const Shown& b) { return a.at_s < b.at_s; });
    for (const Shown& one : shown_) {
      // What is said within a breath is shown together.
      if (out_.cues.empty() || one.at_s >= out_.cues.back().start_s + k_least_s) {
        out_.cues.push_back({one.at_s, one.at_s + k_shown_s, {}});
      }
      std::vector<std::string>& lines = out_.cues.back().lines;
      if (std::find(lines.begin(), lines.end(), one.text) == lines.end()) {
        lines.push_back(one.text);
      }
    }
    for (std::size_t i = 0; i + 1 < out_.cues.size(); ++i) {
      out_.cues[i].end_s = std::min(out_.cues[i].end_s, out_.cues[i + 1].start_s);
    }
    return std::move(out_);
  }

 private:
  void place(const Part& part) {
    for (const Line& line : part.lines) {
      const std::string text = amount_on_screen(line, pantry_, words_);
      if (text.empty()) {
        continue;
      }
      std::optional<std::size_t> at = place_of(words_in(line.text), said_, next_);
      next_ = at ? *at + 1 : next_;
      show(at ? at : place_of_name(line, pantry_, said_, next_), text, line.text);
    }
    for (const Step& step : part.steps) {
      const std::string text = heat_on_screen(step, pantry_, words_);
      if (text.empty()) {
        continue;
      }
      const auto sentence = place_of(words_in(step.text), said_, 0);
      show(sentence ? std::optional(place_of_heat(step, said_, *sentence)) : std::nullopt, text,
           step.text);
    }
  }

  void show(const std::optional<std::size_t>& at, const std::string& text,
            const std::string& found) {
    if (at) {
      shown_.push_back({said_[*at].at_s, text});
    } else if (said_.empty() && turn_ < cues_.size()) {
      shown_.push_back({cues_[turn_++].start_s, text});
    } else {
      out_.not_found.push_back(found);
    }
  }

  const std::vector<SpokenCue>& cues_;
  const Recipe& recipe_;
  const Pantry& pantry_;
  const CardWords& words_;
  std::vector<Said> said_;
  std::size_t next_ = 0;  // lines are mostly spoken of in their order
  std::size_t turn_ = 0;
  std::vector<Shown> shown_;
  ScreenTrack out_;
};

/// In English the short forms of recipes: a track has little room.
std::string many(const std::string& unit, double count, const CardWords& words) {
  const bool symbol = unit == "tsp" || unit == "tbsp";
  return words.english() && symbol ? unit : words.measure(unit, count);
}

/// By American cups and spoons: what most who ask for cups have.
std::string in_cups(const Ingredient& food, const std::string& packing, double grams,
                    const Pantry& pantry, const CardWords& words) {
  Kitchen kitchen;
  kitchen.country = "us";
  const auto amount = measured(means_of(kitchen, pantry), pantry, food, packing, grams);
  if (!amount) {
    return "";
  }
  std::string out;
  for (const MeasureCount& one : amount->counts) {
    out += (out.empty() ? "" : " + ") + fraction_text(one.count) + " " +
           many(one.measure, one.count, words);
  }
  return out;
}

std::string degrees(double value, double step) {
  return number_text(std::round(value / step) * step, 0);
}

/// The mark whose temperature is nearest, within half a mark.
std::string gas_mark(double celsius, const Pantry& pantry) {
  constexpr double k_half_a_mark = 10.0;
  const OvenMark* nearest = nullptr;
  for (const OvenMark& mark : pantry.oven_marks()) {
    const bool nearer = nearest == nullptr ||
                        std::fabs(mark.celsius - celsius) < std::fabs(nearest->celsius - celsius);
    if (mark.scale == "gas" && nearer) {
      nearest = &mark;
    }
  }
  const bool near = nearest != nullptr && std::fabs(nearest->celsius - celsius) <= k_half_a_mark;
  return near ? nearest->mark : "";
}

}  // namespace

std::string amount_on_screen(const Line& line, const Pantry& pantry, const CardWords& words) {
  const Ingredient* food = pantry.find(line.ingredient_id);
  if (!line.weighed || food == nullptr) {
    return "";
  }
  constexpr double k_whole_from = 10.0;
  const double grams = line.grams.p50();
  const std::string weight = words.number(grams, grams >= k_whole_from ? 0 : 1) + " g";
  // Said in cups and spoons already: in the words it was said with.
  const FoundAmount& found = line.found;
  const bool spoken =
      found.number && (found.unit == "cup" || found.unit == "tbsp" || found.unit == "tsp");
  const bool counted = found.number && (found.unit.empty() || found.unit == "piece");
  std::string cups;
  if (spoken) {
    cups = fraction_text(found.number->low) + " " + many(found.unit, found.number->low, words);
  } else if (!counted) {
    cups = in_cups(*food, found.packing, grams, pantry, words);
  }
  return words.ingredient(*food, pantry, line.name) + ": " + weight +
         (cups.empty() ? "" : " = " + cups);
}

std::string heat_on_screen(const Step& step, const Pantry& pantry, const CardWords& words) {
  if (!step.celsius) {
    return "";
  }
  constexpr double k_fan_below = 20.0;
  const double celsius = step.celsius->low;
  const double fahrenheit = celsius * 1.8 + 32.0;
  const bool oven = celsius >= k_oven_from_celsius && step.kind != StepKind::fry;
  if (!oven) {
    return number_text(celsius, 0) + " °C = " + number_text(fahrenheit, 0) + " °F";
  }
  std::string out = words.say("screen_oven") + " " + degrees(celsius, 5.0) +
                    " °C = " + words.say("screen_fan") + " " + degrees(celsius - k_fan_below, 5.0) +
                    " °C = " + degrees(fahrenheit, 5.0) + " °F";
  const std::string gas = gas_mark(celsius, pantry);
  return out + (gas.empty() ? "" : " = " + words.say("screen_gas") + " " + gas);
}

ScreenTrack screen_track(const std::vector<SpokenCue>& cues, const Recipe& recipe,
                         const Pantry& pantry, const CardWords& words) {
  return Tracking(cues, recipe, pantry, words).track();
}

}  // namespace maslin::handon
