#include "recipe/note_cut.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "quantity/colour.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

/// The note in plain letters, and from where to where in the note each byte came.
struct Folded {
  std::string text;
  std::vector<std::size_t> begin;
  std::vector<std::size_t> end;
};

constexpr std::array<std::pair<std::string_view, std::string_view>, 16> k_plain{{
    {"\u00d7", " x "},
    {"\u00b0", " "},
    {"\u00bd", " 1/2"},
    {"\u00bc", " 1/4"},
    {"\u00be", " 3/4"},
    {"\u2153", " 1/3"},
    {"\u2154", " 2/3"},
    {"\u2013", "-"},
    {"\u2014", ";"},
    {"\u2019", "'"},
    {"\u2032", "'"},
    {"\u2103", " c "},
    {"\u2109", " f "},
    {"\u00a0", " "},
    {"\u202f", " "},
    {"%", " percent "},
}};

Folded folded(std::string_view note) {
  Folded out;
  const auto add = [&out](char c, std::size_t from, std::size_t length) {
    out.text += c;
    out.begin.push_back(from);
    out.end.push_back(from + length);
  };
  for (std::size_t i = 0; i < note.size();) {
    const auto plain = std::find_if(k_plain.begin(), k_plain.end(), [&](const auto& row) {
      return note.substr(i, row.first.size()) == row.first;
    });
    if (plain != k_plain.end()) {
      for (const char c : plain->second) {
        add(c, i, plain->first.size());
      }
      i += plain->first.size();
      continue;
    }
    const char c = note[i];
    add(c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c, i, 1);
    ++i;
  }
  return out;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80;
}

/// Cuts folded text into words, numbers and breaks.
class Cutter {
 public:
  explicit Cutter(const Folded& folded) : folded_(folded), text_(folded.text) {}

  std::vector<NoteItem> cut() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (is_digit(c) || (c == '.' && is_digit(next(1)))) {
        number();
      } else if (c == '#' && hex_colour()) {
        continue;
      } else if (is_letter(c)) {
        word();
      } else {
        mark(c);
      }
    }
    return std::move(items_);
  }

 private:
  char next(std::size_t by) const { return at_ + by < text_.size() ? text_[at_ + by] : '\0'; }

  NoteItem& add(NoteRole role, std::size_t from) {
    NoteItem item;
    item.role = role;
    item.begin = folded_.begin[from];
    item.end = folded_.end[at_ - 1];
    items_.push_back(std::move(item));
    return items_.back();
  }

  void word() {
    const std::size_t from = at_;
    std::string letters;
    for (; is_letter(next(0)) || (next(0) == '\'' && is_letter(next(1))); ++at_) {
      if (next(0) != '\'') {
        letters += next(0);
      }
    }
    const std::size_t bracket = text_.find_first_not_of(' ', at_);
    if ((letters == "rgb" || letters == "lab") && bracket < text_.size() && text_[bracket] == '(') {
      at_ = bracket;
      channels(from, letters == "lab");
    } else {
      add(NoteRole::word, from).word = letters;
    }
  }

  /// What was picked is noted to a tenth, the same wherever it is read.
  void add_lightness(std::size_t from, double lightness) {
    NoteItem& item = add(NoteRole::quantity, from);
    item.value = std::round(10.0 * lightness) / 10.0;
    item.dimension = NoteDimension::lightness;
  }

  /// "#a0622d"; false when it is no colour, and nothing is taken.
  bool hex_colour() {
    std::size_t length = 0;
    while (is_digit(next(length + 1)) || is_letter(next(length + 1))) {
      ++length;
    }
    const auto colour = srgb_from_hex(std::string_view(text_).substr(at_ + 1, length));
    if (colour) {
      const std::size_t from = at_;
      at_ += length + 1;
      add_lightness(from, cielab_lightness(relative_luminance(*colour)));
    }
    return colour.has_value();
  }

  /// "rgb(160, 98, 45)" to 255 each, "lab(55 20 30)"; the brackets and what is in them.
  void channels(std::size_t from, bool lab) {
    constexpr double k_most = 255.0;
    std::array<double, 3> values{};
    std::size_t count = 0;
    for (++at_; at_ < text_.size() && next(0) != ')';) {
      if (is_digit(next(0)) && count < values.size()) {
        values[count++] = decimal();
      } else {
        ++at_;
      }
    }
    at_ += at_ < text_.size() ? 1U : 0U;
    const Srgb colour{values[0] / k_most, values[1] / k_most, values[2] / k_most};
    const double most = std::max({values[0], values[1], values[2]});
    if (lab ? count > 0 && values[0] <= 100.0 : count == 3 && most <= k_most) {
      add_lightness(from, lab ? values[0] : cielab_lightness(relative_luminance(colour)));
    }
  }

  std::string digits() {
    std::string out;
    for (; is_digit(next(0)); ++at_) {
      out += next(0);
    }
    return out;
  }

  /// Digits with a decimal point or comma; "1,000" is a thousand.
  double decimal() {
    std::string out = digits();
    while (next(0) == ',' && is_digit(next(1)) && is_digit(next(2)) && is_digit(next(3)) &&
           !is_digit(next(4))) {
      ++at_;
      out += digits();
    }
    if ((next(0) == '.' || next(0) == ',') && is_digit(next(1))) {
      ++at_;
      out += "." + digits();
    }
    return number_from(out).value_or(0.0);
  }

  void number() {
    const std::size_t from = at_;
    const double value = decimal();
    if (next(0) == ':' && is_digit(next(1)) && is_digit(next(2))) {
      ++at_;
      NoteItem& item = add(NoteRole::quantity, from);
      item.value = 60.0 * value + decimal();
      item.dimension = NoteDimension::clock;
      item.end = folded_.end[at_ - 1];
      return;
    }
    if (next(0) == '/' && is_digit(next(1))) {
      ++at_;
      fraction(from, value, decimal());
      return;
    }
    NoteItem& item = add(NoteRole::quantity, from);
    item.value = value;
    if (next(0) == '-' && is_digit(next(1))) {
      ++at_;
      item.value = 0.5 * (value + decimal());
      item.end = folded_.end[at_ - 1];
    } else if (next(0) == '\'') {
      ++at_;
      item.dimension = NoteDimension::minutes;
    }
  }

  /// "1/2" is a half, with a whole number before it one more; "7/9" is a score.
  void fraction(std::size_t from, double top, double bottom) {
    const bool part = top < bottom && (bottom == 2 || bottom == 3 || bottom == 4 || bottom == 8);
    NoteItem* before = items_.empty() ? nullptr : &items_.back();
    if (part && before != nullptr && before->role == NoteRole::quantity &&
        before->dimension == NoteDimension::bare) {
      before->value += top / bottom;
      before->end = folded_.end[at_ - 1];
      return;
    }
    NoteItem& item = add(NoteRole::quantity, from);
    item.dimension = part ? NoteDimension::bare : NoteDimension::pair;
    item.value = part ? top / bottom : top;
    item.second = bottom;
  }

  void mark(char c) {
    const std::size_t from = at_++;
    const bool dash = c == '-' && from > 0 && text_[from - 1] == ' ' && next(0) == ' ';
    if (c == '.' || c == '!' || c == '?' || c == '\n') {
      add(NoteRole::sentence_end, from);
    } else if (dash || c == ',' || c == ';' || c == '(' || c == ')') {
      add(NoteRole::clause_end, from);
    }
  }

  const Folded& folded_;
  const std::string& text_;
  std::size_t at_ = 0;
  std::vector<NoteItem> items_;
};

}  // namespace

std::vector<NoteItem> cut_note(std::string_view note) {
  const Folded plain = folded(note);
  return Cutter(plain).cut();
}

}  // namespace maslin
