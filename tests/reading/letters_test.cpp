// The table of letters against utf8proc, a reference implementation of Unicode's
// normalization: a letter's plain form is its compatibility decomposition without marks.
#include "reading/letters.h"

#include <doctest/doctest.h>
#include <utf8proc.h>

#include <cstdlib>
#include <string>

#include "reading/tables.h"

using namespace maslin::reading;

namespace {

std::string utf8(char32_t code) {
  utf8proc_uint8_t bytes[4];
  const auto length = utf8proc_encode_char(static_cast<utf8proc_int32_t>(code), bytes);
  return {reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(length)};
}

/// Decomposed, marks and ignorable characters off.
std::string stripped(char32_t code) {
  const std::string text = utf8(code);
  utf8proc_uint8_t* out = nullptr;
  const auto length =
      utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                   static_cast<utf8proc_ssize_t>(text.size()), &out,
                   static_cast<utf8proc_option_t>(UTF8PROC_DECOMPOSE | UTF8PROC_COMPAT |
                                                  UTF8PROC_STRIPMARK | UTF8PROC_IGNORE));
  std::string result(reinterpret_cast<const char*>(out), static_cast<std::size_t>(length));
  std::free(out);
  return result;
}

bool is_latin_letters(const std::string& text) {
  for (const char c : text) {
    if (!((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'))) {
      return false;
    }
  }
  return !text.empty();
}

}  // namespace

TEST_CASE("every Latin letter with a mark becomes the letter that Unicode decomposes it to") {
  const Letters letters(embedded_table("letters.tsv"));
  int checked = 0;
  for (char32_t code = 0xC0; code < 0x1F00; ++code) {
    if (code == 0x250) {
      code = 0x1E00;
    }
    const std::string plain = stripped(code);
    if (!is_latin_letters(plain) || plain == utf8(code)) {
      continue;
    }
    CAPTURE(static_cast<unsigned>(code));
    CHECK(letters.of(code).plain == plain);
    ++checked;
  }
  CHECK(checked > 500);
}

TEST_CASE("vulgar fractions have the value that Unicode decomposes them to") {
  const Letters letters(embedded_table("letters.tsv"));
  for (const char32_t code : {0xBCU, 0xBDU, 0xBEU, 0x2150U, 0x2153U, 0x2154U, 0x215BU, 0x215EU}) {
    std::string plain = stripped(code);
    const std::size_t bar = plain.find("\xE2\x81\x84");
    REQUIRE(bar != std::string::npos);
    plain.replace(bar, 3, "/");
    CHECK(letters.of(code).plain == plain);
    CHECK(letters.of(code).how == LetterHow::fraction);
  }
}

TEST_CASE("broken UTF-8 is replaced as Unicode recommends, whole characters are kept") {
  CHECK(valid_utf8("caf\xc3\xa9") == "caf\xc3\xa9");
  CHECK(valid_utf8("a\xff\xfe"
                   "b") ==
        "a\xEF\xBF\xBD\xEF\xBF\xBD"
        "b");
  CHECK(valid_utf8("\xc3") == "\xEF\xBF\xBD");
  // Overlong and surrogate forms are no characters.
  CHECK(valid_utf8("\xc0\xaf") == "\xEF\xBF\xBD\xEF\xBF\xBD");
  CHECK(valid_utf8("\xed\xa0\x80") == "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
}
