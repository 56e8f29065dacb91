// Talk about a list: a question that names a food and the answer with its amount, and an amount
// taken back in the next line.
#include "reading/gatherer.h"

namespace maslin::reading {
namespace {

constexpr std::size_t k_longest_line = 120;

/// Past "a:", "q.", "oh yes", to what is said.
std::size_t past_opening(const Text& text) {
  std::size_t i = 0;
  if (text[0].kind == TokenKind::word && text[0].word.size() == 1 && text[1].is(':')) {
    i = 2;
  }
  std::size_t at = i;
  // A word or two that is nothing else: "oh yes 40 g", "about 4 mugs" keeps its "about".
  for (std::size_t words = 0; words < 3 && text[at].kind == TokenKind::word; ++words, ++at) {
    if (any_measure(text, at) || match_name(text, at) || is_class(text, at, WordClass::correct)) {
      break;
    }
  }
  return text[at].is_number() || any_measure(text, at) ? at : i;
}

/// "q: how much flour do you use"
bool begins_question(std::string_view raw, const Lexicons& lexicons, const Lexicon& lexicon) {
  if (raw.size() > k_longest_line || raw.find_first_of("0123456789") != std::string_view::npos) {
    return false;
  }
  const Text text = tokenise(raw.substr(0, 24), lexicons, lexicon);
  const std::size_t first = text[0].word.size() == 1 && text[1].is(':') ? 2 : 0;
  return is_class(text, first, WordClass::asks);
}

/// The food that a question is about, empty when it names none or tells an amount itself.
std::string asked_food(const Text& text) {
  const std::size_t first = text[0].word.size() == 1 && text[1].is(':') ? 2 : 0;
  if (text.size() < 2 ||
      !(text[text.size() - 1].is('?') || is_class(text, first, WordClass::asks))) {
    return {};
  }
  std::string food;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i].is_number()) {
      return {};
    }
    const Match name = match_name(text, i);
    if (name && food.empty()) {
      food = std::string(text.slice(i, name.end));
    }
    i = name ? name.end : i + 1;
  }
  return food;
}

/// An amount with a unit, or a bare number, that no name follows at once.
bool answers(const Text& text, std::size_t at) {
  const auto measure = any_measure(text, at);
  if (!measure || measure->bare_article) {
    return false;
  }
  return !match_name(text, measure->to) && !is_class(text, measure->to, WordClass::of) &&
         !is_class(text, measure->to, WordClass::time);
}

/// "milk 280 ml" and under it "no wait 260 ml": the first line with the second's amount, the old
/// one said behind it; empty when it is no correction.
std::string corrected(const Text& before, const Text& text) {
  const std::size_t from = text[0].word.size() == 1 && text[1].is(':') ? 2 : 0;
  const Match correct = match(text, from, WordClass::correct);
  std::size_t at = correct ? correct.end : from;
  at += correct && text[at].is(',') ? 1U : 0U;
  const auto now = correct ? any_measure(text, at) : std::nullopt;
  if (!now || !now->number || !answers(text, at)) {
    return {};
  }
  for (std::size_t i = 0; i < before.size(); ++i) {
    const auto old = before[i].is_number() ? any_measure(before, i) : std::nullopt;
    if (old && old->number && (now->unit.empty() || old->unit == now->unit)) {
      const std::string unit = now->unit.empty() && !old->unit.empty()
                                   ? std::string(before.slice(old->to - 1, old->to))
                                   : std::string();
      return std::string(before.slice(0, i)) + " " + std::string(text.slice(at, now->to)) + " " +
             unit + " " + std::string(before.slice(old->to, before.size())) + " (not " +
             std::string(before.slice(i, old->to)) + ")";
    }
  }
  return {};
}

}  // namespace

std::vector<FoundLine> answered_lines(const std::vector<FoundLine>& lines, const Lexicons& lexicons,
                                      const Lexicon& lexicon) {
  std::vector<FoundLine> out;
  for (const FoundLine& line : lines) {
    // Cheap first: a question before, or a word of correction and a number.
    const bool asked = !out.empty() && (out.back().raw.ends_with('?') ||
                                        begins_question(out.back().raw, lexicons, lexicon));
    const bool number = line.raw.find_first_of("0123456789") != std::string::npos;
    const bool may = !out.empty() && !line.quoted && line.raw.size() <= k_longest_line &&
                     out.back().raw.size() <= k_longest_line;
    if (may && asked) {
      const std::string food = asked_food(tokenise(out.back().raw, lexicons, lexicon));
      const Text answer = food.empty() ? Text{} : tokenise(line.raw, lexicons, lexicon);
      const std::size_t at = food.empty() ? 0 : past_opening(answer);
      if (!food.empty() && answers(answer, at)) {
        FoundLine row = line;
        row.raw = food + ": " + std::string(answer.slice(at, answer.size()));
        row.seam = 0;
        out.push_back(std::move(row));
        continue;
      }
    }
    if (may && number && line.raw.size() <= 40) {
      if (const std::string mended = corrected(tokenise(out.back().raw, lexicons, lexicon),
                                               tokenise(line.raw, lexicons, lexicon));
          !mended.empty()) {
        out.back().raw = mended;
        continue;
      }
    }
    out.push_back(line);
  }
  return out;
}

}  // namespace maslin::reading
