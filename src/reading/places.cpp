#include "reading/places.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "numerics/lanes.h"
#include "quantity/number_text.h"
#include "reading/setting.h"

namespace maslin::reading {
namespace {

using Scores = std::map<std::string_view, double>;

void add_hints(const Lexicons& lexicons, const std::string& phrase, std::set<std::string>& seen,
               Scores& scores) {
  const auto at = lexicons.places.find(phrase);
  if (at == lexicons.places.end() || !seen.insert(phrase).second) {
    return;
  }
  for (const PlaceHint& hint : at->second) {
    scores[hint.locale] += hint.weight;
  }
}

/// Clues that are no words: units, scales, the decimal comma, as phrases of their own.
std::vector<std::string> clues_at(const Text& text, std::size_t i) {
  std::vector<std::string> out;
  if (text[i].is_number()) {
    const Match unit = match(text, i + 1, WordClass::unit);
    if (unit) {
      const std::string means(unit.phrase->means);
      out.push_back("unit " + means);
      if (text[i].value < 1.0 && (means == "l" || means == "kg")) {
        out.emplace_back("fraction metric");
      }
      // "250 ml cups", "1 cup = 240 ml": whose cup it is.
      const Match behind = match(text, unit.end, WordClass::unit);
      const Match before =
          i > 1 && text[i - 1].is('=') ? match(text, i - 2, WordClass::unit) : Match{};
      if (means == "ml" && ((behind && behind.phrase->means == "cup") ||
                            (before && before.phrase->means == "cup"))) {
        out.push_back("cup " + number_text(text[i].value, 0));
      }
    }
    if (text.slice(i, i + 1).find(',') != std::string_view::npos &&
        text[i].value != std::floor(text[i].value)) {
      out.emplace_back("decimal comma");
    }
  }
  if (const auto heat = any_heat(text, i)) {
    switch (heat->scale) {
      case HeatScale::celsius:
        out.emplace_back("scale celsius");
        break;
      case HeatScale::fahrenheit:
        out.emplace_back("scale fahrenheit");
        break;
      case HeatScale::gas:
        out.emplace_back("scale gas");
        break;
      case HeatScale::thermostat:
      case HeatScale::stufe:
        out.emplace_back("scale thermostat");
        break;
      case HeatScale::unknown:
        out.emplace_back(heat->value.low >= 300.0 ? "scale fahrenheit" : "scale unknown");
        break;
    }
  }
  return out;
}

}  // namespace

std::vector<PlaceShare> infer_places(const Draft& draft, const Lexicons& lexicons,
                                     const Lexicon& lexicon) {
  Scores scores;
  std::set<std::string> seen;
  add_hints(lexicons, "prior " + lexicon.language, seen, scores);
  // Other languages have their own country; the hints are words and habits of English.
  const bool english = &lexicon == &lexicons.languages.front();
  for (const Text& text : english ? draft.texts : std::deque<Text>()) {
    for (std::size_t i = 0; i < text.size(); ++i) {
      std::string phrase;
      for (std::size_t n = 0; n < 3 && text[i + n].kind == TokenKind::word; ++n) {
        phrase += (n > 0 ? " " : "") + text[i + n].word;
        add_hints(lexicons, phrase, seen, scores);
      }
      for (const std::string& clue : clues_at(text, i)) {
        add_hints(lexicons, clue, seen, scores);
      }
    }
  }
  std::vector<PlaceShare> out;
  double most = -1e9;
  for (const auto& [locale, score] : scores) {
    most = std::max(most, score);
  }
  double total = 0.0;
  for (const auto& [locale, score] : scores) {
    const double share = exp_same(score - most);
    total += share;
    out.push_back({std::string(locale), share});
  }
  double kept = 0.0;
  for (PlaceShare& one : out) {
    one.probability /= total;
    kept += one.probability >= 0.02 ? one.probability : 0.0;
  }
  std::erase_if(out, [](const PlaceShare& one) { return one.probability < 0.02; });
  for (PlaceShare& one : out) {
    one.probability /= kept;
  }
  std::sort(out.begin(), out.end(), [](const PlaceShare& a, const PlaceShare& b) {
    return a.probability != b.probability ? a.probability > b.probability : a.locale < b.locale;
  });
  return out;
}

}  // namespace maslin::reading
