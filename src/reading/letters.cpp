#include "reading/letters.h"

#include <algorithm>

#include "quantity/table.h"

namespace maslin::reading {
namespace {

using std::literals::operator""sv;

constexpr std::string_view k_ascii =
    "\x00\x01\x02\x03\x04\x05\x06\x07\x08\x09\x0a\x0b\x0c\x0d\x0e\x0f"
    "\x10\x11\x12\x13\x14\x15\x16\x17\x18\x19\x1a\x1b\x1c\x1d\x1e\x1f"
    " !\"#$%&'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_'"
    "abcdefghijklmnopqrstuvwxyz{|}~\x7f"sv;

char32_t hex(std::string_view text) {
  char32_t value = 0;
  for (const char c : text) {
    value = value * 16 + static_cast<char32_t>(c >= 'A' ? c - 'A' + 10 : c - '0');
  }
  return value;
}

LetterHow how_from(std::string_view word) {
  if (word == "space") {
    return LetterHow::space;
  }
  if (word == "drop") {
    return LetterHow::drop;
  }
  if (word == "mark") {
    return LetterHow::mark;
  }
  if (word == "fraction") {
    return LetterHow::fraction;
  }
  if (word == "digit") {
    return LetterHow::digit;
  }
  return word == "circled" ? LetterHow::circled : LetterHow::letter;
}

Letter ascii(char32_t code) {
  const std::string_view plain = k_ascii.substr(static_cast<std::size_t>(code), 1);
  if (code <= ' ' || code == 0x7f) {
    return {" ", LetterHow::space};
  }
  const bool alphabetic = (code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z');
  if (alphabetic) {
    return {plain, LetterHow::letter};
  }
  return {plain, code >= '0' && code <= '9' ? LetterHow::digit : LetterHow::mark};
}

}  // namespace

Letters::Letters(std::string_view table) {
  for (const std::string_view line : split(table, '\n')) {
    const std::vector<std::string_view> cells = split(line, '\t');
    if (cells.size() != 4 || line.front() == '#' || cells[0] == "from") {
      continue;
    }
    rows_.push_back(
        {hex(cells[0]), hex(cells[1]), cells[2], how_from(cells[3]), cells[3] == "run"});
  }
}

Letter Letters::of(char32_t code) const {
  if (code < 128) {
    return ascii(code);
  }
  const auto after = std::upper_bound(rows_.begin(), rows_.end(), code,
                                      [](char32_t c, const Row& row) { return c < row.from; });
  if (after == rows_.begin()) {
    return {};
  }
  const Row& row = *(after - 1);
  if (code > row.to) {
    return {};
  }
  if (row.run) {
    return ascii(static_cast<char32_t>(row.plain.front()) + (code - row.from));
  }
  return {row.plain, row.how};
}

Decoded decode(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) -> char32_t {
    return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
  };
  const char32_t first = byte(0);
  if (first < 0x80) {
    return {first, 1};
  }
  const std::uint32_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4) {
    return {0xFFFD, 1};
  }
  char32_t code = first & (0xFFU >> (length + 1));
  for (std::uint32_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) {
      return {0xFFFD, 1};
    }
    code = code << 6U | (byte(i) & 0x3FU);
  }
  const bool longer_than_needed = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
  if (longer_than_needed || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) {
    return {0xFFFD, 1};
  }
  return {code, length};
}

std::string valid_utf8(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Decoded one = decode(text, at);
    if (one.code == 0xFFFD && one.bytes == 1) {
      out += "\xEF\xBF\xBD";
    } else if (one.code < 0x20 && one.code != '\n' && one.code != '\t') {
      out += one.code == '\r' && !(at + 1 < text.size() && text[at + 1] == '\n') ? '\n' : ' ';
    } else {
      out.append(text.substr(at, one.bytes));
    }
    at += one.bytes;
  }
  return out;
}

std::string plain_text(const Letters& letters, std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const Decoded one = decode(text, at);
    const Letter letter = letters.of(one.code);
    if (letter.how == LetterHow::other) {
      out.append(text.substr(at, one.bytes));
    }
    for (const char c : letter.how == LetterHow::other ? std::string_view() : letter.plain) {
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    at += one.bytes;
  }
  return out;
}

}  // namespace maslin::reading
