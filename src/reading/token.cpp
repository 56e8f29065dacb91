#include "reading/token.h"

#include <algorithm>

#include "quantity/number_text.h"

namespace maslin::reading {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Cuts one line; keeps what it has seen so far.
class Cutter {
 public:
  Cutter(std::string_view raw, const Lexicons& lexicons, const Lexicon& lexicon)
      : raw_(raw), letters_(lexicons.letters), manners_(lexicon.manners) {}

  std::vector<Token> run() {
    while (at_ < raw_.size()) {
      step();
    }
    Token end;
    end.begin = end.end = static_cast<std::uint32_t>(raw_.size());
    tokens_.push_back(end);
    return std::move(tokens_);
  }

 private:
  struct Seen {
    Letter letter;
    std::uint32_t bytes = 1;
  };
  Seen peek(std::size_t at) const {
    if (at >= raw_.size()) {
      return {{" ", LetterHow::space}, 1};
    }
    const Decoded one = decode(raw_, at);
    return {letters_.of(one.code), one.bytes};
  }
  /// The first meaningful character after `at`.
  Letter after(std::size_t at) const {
    Seen next = peek(at);
    while (next.letter.how == LetterHow::drop && at < raw_.size()) {
      at += next.bytes;
      next = peek(at);
    }
    return next.letter;
  }

  void step() {
    const Seen seen = peek(at_);
    switch (seen.letter.how) {
      case LetterHow::space:
        spaces_ += raw_[at_] == '\t' ? 2U : 1U;
        fresh_ = fresh_ || raw_[at_] == '\n';
        at_ += seen.bytes;
        return;
      case LetterHow::drop:
        at_ += seen.bytes;
        return;
      case LetterHow::letter:
      case LetterHow::other:
        misread_digit(at_).empty() ? word() : number();
        return;
      case LetterHow::digit:
        if (const std::size_t bytes = keycap_length(); bytes > 0) {
          push(TokenKind::number, bytes).value = number_from(seen.letter.plain).value_or(0.0);
          tokens_.back().circled = true;
          return;
        }
        number();
        return;
      case LetterHow::fraction:
        fraction(seen);
        return;
      case LetterHow::circled:
        push(TokenKind::number, seen.bytes).value = number_from(seen.letter.plain).value_or(0.0);
        tokens_.back().circled = true;
        return;
      case LetterHow::mark:
        mark(seen);
        return;
    }
  }

  /// Bytes of a digit drawn as a key (U+20E3, with or without U+FE0F before it); 0 if none.
  std::size_t keycap_length() const {
    const std::string_view rest = raw_.substr(at_ + 1);
    return rest.starts_with("\xEF\xB8\x8F\xE2\x83\xA3") ? 7
           : rest.starts_with("\xE2\x83\xA3")           ? 4
                                                        : 0;
  }

  Token& push(TokenKind kind, std::size_t bytes) {
    Token token;
    token.kind = kind;
    token.spaced = spaces_ > 0 || tokens_.empty();
    token.wide = spaces_ > 1 && !tokens_.empty();
    token.hyphen = hyphen_;
    token.fresh = fresh_;
    token.begin = static_cast<std::uint32_t>(at_);
    token.end = static_cast<std::uint32_t>(at_ + bytes);
    at_ += bytes;
    spaces_ = 0;
    hyphen_ = false;
    fresh_ = false;
    tokens_.push_back(std::move(token));
    return tokens_.back();
  }

  void fraction(const Seen& seen) {
    const std::size_t bar = seen.letter.plain.find('/');
    const double top = number_from(seen.letter.plain.substr(0, bar)).value_or(0.0);
    const double bottom = number_from(seen.letter.plain.substr(bar + 1)).value_or(1.0);
    push(TokenKind::fraction, seen.bytes).value = top / bottom;
  }

  /// Bytes of "#2011", the number of an article in a store's list; "#10" is the size of a can.
  std::size_t article_number_length() const {
    std::size_t end = at_ + 1;
    while (end < raw_.size() && is_digit(raw_[end])) {
      ++end;
    }
    return end >= at_ + 5 ? end - at_ : 0;
  }

  void mark(const Seen& seen) {
    const char c = seen.letter.plain.front();
    if (c == '#' && spaces_ > 0) {
      if (const std::size_t bytes = article_number_length(); bytes > 0) {
        at_ += bytes;
        return;
      }
    }
    const LetterHow next = after(at_ + seen.bytes).how;
    const bool before_word = spaces_ == 0 && !tokens_.empty() &&
                             (tokens_.back().kind == TokenKind::word || tokens_.back().is_number());
    // "eggs—whites": the long dash parts what the short one joins.
    const bool long_dash = raw_.substr(at_).starts_with("\xE2\x80\x94");
    // "self-raising", "14-oz": one thing.
    const bool misread = !tokens_.empty() && tokens_.back().is_number() &&
                         at_ + seen.bytes < raw_.size() && !misread_digit(at_ + seen.bytes).empty();
    if (c == '-' && before_word && next == LetterHow::letter && !long_dash && !misread) {
      hyphen_ = true;
      at_ += seen.bytes;
      return;
    }
    // ".5 cup"
    const bool opened = !tokens_.empty() && (tokens_.back().is('(') || tokens_.back().is('/') ||
                                             tokens_.back().is('-'));
    if (c == '.' && next == LetterHow::digit && (spaces_ > 0 || tokens_.empty() || opened)) {
      number();
      return;
    }
    const bool degree = c == '*' && is_typed_degree(seen.bytes);
    Token& token = push(TokenKind::mark, seen.bytes);
    token.mark = degree ? '^' : c;
    token.spaced = token.spaced || (long_dash && before_word && next == LetterHow::letter);
    if (seen.letter.plain.size() > 1) {  // the degree signs with their letter
      Token& letter = push(TokenKind::word, 0);
      letter.word = seen.letter.plain[1] == 'C' ? "c" : "f";
    }
  }

  /// "200*C": a star typed for the degree sign.
  bool is_typed_degree(std::size_t bytes) const {
    const bool number = spaces_ == 0 && !tokens_.empty() && tokens_.back().is_number();
    const std::string_view rest = raw_.substr(std::min(raw_.size(), at_ + bytes));
    return number && !rest.empty() && std::string_view("CFcf").find(rest.front()) < 4 &&
           after(at_ + bytes + 1).how != LetterHow::letter;
  }

  /// The digit a scan made a letter of: "l75", "lO", "45O", "3OO"; empty if it is none.
  std::string_view misread_digit(std::size_t at) const {
    const char c = raw_[at];
    const auto digit = [&](std::size_t i) { return i < raw_.size() && is_digit(raw_[i]); };
    const bool next = digit(at + 1) || after(at + 1).how == LetterHow::fraction;
    const bool next_round = at + 1 < raw_.size() && raw_[at + 1] == 'O';
    const bool next_bar = at + 1 < raw_.size() && raw_[at + 1] == '/' && digit(at + 2);
    const bool begins = spaces_ > 0 || tokens_.empty() || tokens_.back().kind == TokenKind::mark;
    const char before = at > at_ ? raw_[at - 1] : ' ';
    // "12OZ" is ounces in capitals.
    const bool ounce = c == 'O' && at + 1 < raw_.size() && (raw_[at + 1] | 0x20) == 'z' &&
                       after(at + 2).how != LetterHow::letter;
    if (c == 'O' && !ounce &&
        (is_digit(before) || before == 'O' || before == 'l' || before == 'I')) {
      return "0";
    }
    if ((c == 'l' || c == 'I') && (next || next_round || next_bar) && (at > at_ || begins)) {
      return "1";
    }
    return {};
  }

  /// Digits with a decimal part or grouped thousands.
  void number() {
    std::string digits;
    std::size_t at = at_;
    // "40z" is 4 oz.
    const auto is_ounce = [&](std::size_t i) {
      return i > at_ && raw_.substr(i).starts_with("0z") && after(i + 2).how != LetterHow::letter;
    };
    char group = '\0';
    bool point = false;
    for (Seen one = peek(at); at < raw_.size(); one = peek(at)) {
      if (is_ounce(at)) {
        break;
      }
      if (one.letter.how == LetterHow::digit) {
        digits += one.letter.plain;
      } else if (const std::string_view misread = misread_digit(at); !misread.empty()) {
        digits += misread;
      } else if (is_separator(one, at, digits, group, point)) {
        const char c = one.letter.plain.front();
        if (thousands(c, digits, at + one.bytes) && !point) {
          group = c;
        } else {
          digits += '.';
          point = true;
        }
      } else {
        break;
      }
      at += one.bytes;
    }
    // Seventeen digits are no quantity; the rest of a longer run is not worth keeping.
    const double value = number_from(digits.substr(0, 40)).value_or(0.0);
    Token& token = push(TokenKind::number, at - at_);
    token.value = value;
    token.word = digits.size() <= 6 ? digits : std::string();
    if (raw_.substr(at_).starts_with("0z")) {
      push_word("oz", 2, false, false);
    }
  }

  bool is_separator(const Seen& one, std::size_t at, const std::string& digits, char group,
                    bool point) const {
    const char c = one.letter.how == LetterHow::mark ? one.letter.plain.front() : '\0';
    const bool allowed = c == '.' || c == ',';
    return allowed && !point && (group == '\0' || c == group || c == '.') &&
           peek(at + one.bytes).letter.how == LetterHow::digit && (!digits.empty() || c == '.');
  }

  /// "1,000" and, where the comma is the decimal sign, "1.000".
  bool thousands(char c, const std::string& digits, std::size_t at) const {
    const char sign = manners_.decimal_comma ? '.' : ',';
    if (c != sign || digits.empty() || digits.size() > 3 || digits.front() == '0') {
      return false;
    }
    std::size_t count = 0;
    while (count < 4 && peek(at + count).letter.how == LetterHow::digit) {
      ++count;
    }
    return count == 3;
  }

  void word() {
    std::string plain;
    bool lower = false;
    bool capital = false;
    std::size_t at = at_;
    bool first = true;
    bool ending = false;
    for (Seen one = peek(at); at < raw_.size(); one = peek(at)) {
      const bool apostrophe = one.letter.how == LetterHow::mark && one.letter.plain.front() == '\'';
      if (one.letter.how == LetterHow::letter || one.letter.how == LetterHow::other) {
        const bool other = one.letter.how == LetterHow::other;
        const std::string_view text = other ? raw_.substr(at, one.bytes) : one.letter.plain;
        for (const char c : ending ? std::string_view() : text) {
          const bool big = c >= 'A' && c <= 'Z';
          // A scan's capital I between small letters is an l: "fIour".
          const bool misread = c == 'I' && lower;
          capital = capital || (first && big);
          lower = lower || !big;
          plain += misread ? 'l' : big ? static_cast<char>(c - 'A' + 'a') : c;
          first = false;
        }
      } else if (one.letter.how == LetterHow::digit && is_type_number(plain)) {
        plain += one.letter.plain;
      } else if (one.letter.how == LetterHow::digit && inside_word(at, plain, one)) {
        plain += one.letter.plain == "0" ? 'o' : 'l';
      } else if (apostrophe && after(at + one.bytes).how == LetterHow::letter) {
        const auto& longer = manners_.elided;
        if (manners_.article_elided &&
            (plain.size() <= 2 || std::find(longer.begin(), longer.end(), plain) != longer.end())) {
          push_word(plain, at - at_, capital, !lower);
          at_ += one.bytes;
          return;
        }
        ending = ending || manners_.ending_apart;
      } else if (!apostrophe && one.letter.how != LetterHow::drop) {
        break;
      }
      at += one.bytes;
    }
    push_word(plain, at - at_, capital, !lower);
    // "w/ butter": with.
    if (plain == "w" && spaces_ == 0 && at_ < raw_.size() && raw_[at_] == '/' &&
        after(at_ + 1).how != LetterHow::digit) {
      tokens_.back().word = "with";
      ++at_;
      ++tokens_.back().end;
    }
  }

  /// "T65", "W480": the letter of a flour type with its number.
  bool is_type_number(const std::string& plain) const {
    const bool after_number = spaces_ == 0 && !tokens_.empty() && tokens_.back().is_number();
    return !after_number && !plain.empty() && (plain.front() == 't' || plain.front() == 'w') &&
           std::all_of(plain.begin() + 1, plain.end(), is_digit);
  }

  /// "L0AF", "o1ive": a scan's digit between letters.
  bool inside_word(std::size_t at, const std::string& plain, const Seen& one) const {
    const bool mistakable = one.letter.plain == "0" || one.letter.plain == "1";
    return mistakable && plain != "x" && !plain.empty() &&
           peek(at + 1).letter.how == LetterHow::letter &&
           peek(at + 2).letter.how == LetterHow::letter;
  }

  void push_word(const std::string& plain, std::size_t bytes, bool capital, bool upper) {
    Token& token = push(TokenKind::word, bytes);
    token.word = folded_name(plain);
    token.capital = capital;
    token.upper = upper && plain.size() > 1;
  }

  std::string_view raw_;
  const Letters& letters_;
  const Manners& manners_;
  std::vector<Token> tokens_;
  std::size_t at_ = 0;
  std::size_t spaces_ = 0;
  bool hyphen_ = false;
  bool fresh_ = false;
};

}  // namespace

std::string_view Text::slice(std::size_t from, std::size_t to) const {
  if (from >= to || from >= size()) {
    return {};
  }
  const std::size_t begin = tokens[from].begin;
  const std::size_t end = tokens[std::min(to, size()) - 1].end;
  return std::string_view(raw).substr(begin, end - begin);
}

Text tokenise(std::string_view raw, const Lexicons& lexicons, const Lexicon& lexicon) {
  Text text;
  text.raw = raw;
  text.lexicons = &lexicons;
  text.lexicon = &lexicon;
  text.tokens = Cutter(text.raw, lexicons, lexicon).run();
  drop_bracketed_endings(text);
  for (std::size_t i = 0; i < text.size(); ++i) {
    bind(text, i);
    mend_unbound(text, i);
  }
  return text;
}

void bind(Text& text, std::size_t i) {
  Token& token = text.tokens[i];
  if (token.kind == TokenKind::number && !token.word.empty()) {
    token.name = text.lexicons->names.bucket(token.word);  // "00 flour", "2% milk"
  }
  if (token.kind == TokenKind::word) {
    token.own = text.lexicon->bucket(token.word);
    token.name = text.lexicons->names.bucket(token.word);
  }
}

}  // namespace maslin::reading
