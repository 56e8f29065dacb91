#include "plan/step_owner.h"

#include <algorithm>
#include <string>

namespace maslin {
namespace {

/// Words of four letters and more, in lower case; letters beyond ASCII are taken as they are.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> out;
  std::string word;
  const auto end = [&] {
    if (word.size() >= 4) {
      out.push_back(word);
    }
    word.clear();
  };
  for (const char c : text) {
    const bool upper = c >= 'A' && c <= 'Z';
    const bool letter = upper || (c >= 'a' && c <= 'z') || (static_cast<unsigned char>(c) >= 128);
    if (letter) {
      word += upper ? static_cast<char>(c - 'A' + 'a') : c;
    } else {
      end();
    }
  }
  end();
  return out;
}

bool holds(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

std::vector<std::string> names_in(const Part& part) {
  std::vector<std::string> out;
  for (const Line& line : part.lines) {
    for (std::string& word : words_of(line.name.empty() ? line.text : line.name)) {
      out.push_back(std::move(word));
    }
  }
  return out;
}

/// Work that makes a part, as against putting it where it goes.
bool makes_something(StepKind kind) {
  return kind == StepKind::mix || kind == StepKind::boil || kind == StepKind::soak ||
         kind == StepKind::strain || kind == StepKind::cool || kind == StepKind::rest;
}

bool only_waits(StepKind kind) {
  return kind == StepKind::cool || kind == StepKind::rest || kind == StepKind::strain ||
         kind == StepKind::boil;
}

class Owners {
 public:
  Owners(const Recipe& recipe, std::size_t dough) : dough_(dough) {
    for (const Part& part : recipe.parts) {
      names_.push_back(names_in(part));
    }
  }

  std::size_t owner(const Step& step, std::size_t before) const {
    if (!makes_something(step.kind)) {
      return dough_;
    }
    const std::vector<std::string> words = words_of(step.text);
    std::size_t best = dough_;
    std::size_t most = 0;
    for (std::size_t p = 0; p < names_.size(); ++p) {
      const std::size_t score = p == dough_ ? 0 : own_words(words, p, dough_);
      if (score > most) {
        most = score;
        best = p;
      }
    }
    if (best != dough_ && most > own_words(words, dough_, best)) {
      return best;
    }
    const bool says_nothing = most == 0 && own_words(words, dough_, before) == 0;
    return says_nothing && only_waits(step.kind) ? before : dough_;
  }

 private:
  /// How many of the words are names in part `p` and not in part `other`.
  std::size_t own_words(const std::vector<std::string>& words, std::size_t p,
                        std::size_t other) const {
    std::vector<std::string> seen;
    for (const std::string& word : words) {
      const bool own = holds(names_[p], word) && (p == other || !holds(names_[other], word));
      if (own && !holds(seen, word)) {
        seen.push_back(word);
      }
    }
    return seen.size();
  }

  std::size_t dough_;
  std::vector<std::vector<std::string>> names_;
};

}  // namespace

std::vector<OwnedStep> owned_steps(const Recipe& recipe, std::size_t dough) {
  const Owners owners(recipe, dough);
  std::vector<OwnedStep> out;
  for (std::size_t p = 0; p < recipe.parts.size(); ++p) {
    std::size_t before = p;
    bool baked = false;
    for (const Step& step : recipe.parts[p].steps) {
      const bool heat =
          step.kind == StepKind::bake || step.kind == StepKind::steam || step.kind == StepKind::fry;
      baked = baked || heat;
      // Once the pieces are baked, what cools is the pieces.
      const bool pieces = baked && only_waits(step.kind);
      before = p != dough ? p : pieces ? dough : owners.owner(step, before);
      out.push_back({&step, before});
    }
  }
  return out;
}

}  // namespace maslin
