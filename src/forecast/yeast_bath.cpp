#include "forecast/yeast_bath.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "forecast/embedded_table.h"
#include "forecast/step_words.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "rise/yeast.h"

namespace maslin {
namespace {

constexpr double k_zero_k = 273.15;
/// From there on a bath is worth a word.
constexpr double k_harmful_celsius = 50.0;
/// Stirred in, and left to froth: common practice, no source.
constexpr double k_bath_minutes = 10.0;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// "60 c", "60°c", "140f", "60 degrees": the first such figure in the words, C.
std::optional<double> degrees_in(const std::string& text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!is_digit(text[i]) || (i > 0 && (is_digit(text[i - 1]) || text[i - 1] == '.'))) {
      continue;
    }
    const std::size_t end = std::min(text.find_first_not_of("0123456789.", i), text.size());
    std::size_t at = end;
    while (at < text.size() && (text[at] == ' ' || static_cast<unsigned char>(text[at]) >= 0x80U)) {
      ++at;  // blanks, and the bytes of a degree sign
    }
    const char unit = at < text.size() ? text[at] : ' ';
    const char next = at + 1 < text.size() ? text[at + 1] : ' ';
    const bool alone = !(next >= 'a' && next <= 'z');
    const auto figure = number_from(std::string_view(text).substr(i, end - i));
    if (figure && alone && (unit == 'c' || unit == 'f')) {
      const double celsius = unit == 'f' ? (*figure - 32.0) / 1.8 : *figure;
      // "2 c milk" are cups.
      constexpr double k_least = 25.0;
      if (celsius >= k_least && celsius <= 100.0) {
        return celsius;
      }
    }
  }
  return std::nullopt;
}

/// What the words of a line or a step say of heat, yeast and flour.
struct Said {
  std::optional<double> celsius;
  bool stated = false;  // by a figure
  bool cools = false;
  bool yeast = false;
  bool flour = false;
};

Said said_in(std::string_view words) {
  const Table table(forecast_data::embedded_table("bath_words.tsv"));
  const std::string text = lower(words);
  Said out;
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (text.find(table.cell(row, "word")) == std::string::npos) {
      continue;
    }
    const std::string_view means = table.cell(row, "means");
    out.cools = out.cools || means == "cool";
    out.yeast = out.yeast || means == "yeast";
    out.flour = out.flour || means == "flour";
    if (means == "heat" && !out.celsius) {
      out.celsius = table.number(row, "celsius");
    }
  }
  const auto figure = degrees_in(text);
  out.stated = figure.has_value();
  out.celsius = figure ? figure : out.cools ? std::nullopt : out.celsius;
  return out;
}

/// A point before a blank ends a sentence.
std::vector<std::string> sentences_of(const std::string& text) {
  std::vector<std::string> out(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool ends =
        (text[i] == '.' || text[i] == ';') && i + 1 < text.size() && text[i + 1] == ' ';
    if (ends) {
      out.emplace_back();
    } else {
      out.back() += text[i];
    }
  }
  return out;
}

bool before_the_dough_stands(StepKind kind) {
  return kind == StepKind::mix || kind == StepKind::rest || kind == StepKind::prove ||
         kind == StepKind::boil || kind == StepKind::soak || kind == StepKind::cool;
}

}  // namespace

std::optional<double> stated_celsius(std::string_view words) {
  return degrees_in(lower(words));
}

std::optional<double> liquid_celsius(std::string_view words) {
  return said_in(words).celsius;
}

std::optional<YeastBath> yeast_bath(const Recipe& recipe) {
  YeastBath bath{0.0, k_bath_minutes, "", false};
  for (const Part& part : recipe.parts) {
    const bool beside = part.kind != PartKind::dough && part.kind != PartKind::preferment;
    for (const Line& line : part.lines) {
      const Said said = beside ? Said{} : said_in(line.text);
      if (said.celsius.value_or(0.0) > bath.celsius) {
        bath.celsius = *said.celsius;
        bath.stated = said.stated;
      }
    }
  }
  for (const Part& part : recipe.parts) {
    if (part.kind != PartKind::dough && part.kind != PartKind::preferment) {
      continue;
    }
    for (const Step& step : part.steps) {
      if (!before_the_dough_stands(step.kind)) {
        break;  // kneaded, or in the oven
      }
      for (const std::string& sentence : sentences_of(step.text)) {
        const Said said = said_in(sentence);
        // "Heat the milk to 60 C, add the yeast"; "let it cool, then add the yeast".
        if (said.celsius && step.kind != StepKind::prove) {
          bath.celsius = *said.celsius;
          bath.stated = said.stated;
        } else if (said.cools) {
          bath.celsius = 0.0;
        }
        if (said.flour) {
          return std::nullopt;  // from here on the flour cools it
        }
        if (said.yeast && bath.celsius >= k_harmful_celsius) {
          bath.minutes = step.minutes ? step.minutes->middle() : k_bath_minutes;
          bath.words = sentence;
          return bath;
        }
      }
    }
  }
  return std::nullopt;
}

Doubt bath_doubt(const YeastBath& bath) {
  if (!bath.stated) {
    return {"the yeast goes into a hot liquid",
            "how hot is not said: below 43 °C it is safe, from 55 °C on it dies within minutes"};
  }
  const double alive = 100.0 * yeast_surviving(Lanes(bath.celsius + k_zero_k), bath.minutes)[0];
  const std::string lives = alive < 1.0 ? "hardly a cell of the yeast lives"
                                        : number_text(alive, 0) + " % of the yeast live";
  return {"the yeast goes into a liquid at " + number_text(bath.celsius, 0) + " °C for " +
              number_text(bath.minutes, 0) + " minutes: " + lives,
          "let it cool below 43 °C first, or put the yeast in with the flour"};
}

}  // namespace maslin
