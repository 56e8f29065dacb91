// How names of ingredients are compared.
#include <string>
#include <string_view>

#include "pantry/pantry.h"

namespace maslin {
namespace {

bool ends_with(std::string_view word, std::string_view ending) {
  return word.size() >= ending.size() && word.substr(word.size() - ending.size()) == ending;
}

/// English plural to singular, the same way for the table and for found text, so a
/// wrong singular does no harm as long as it is the same wrong one.
std::string singular(std::string word) {
  if (word.size() <= 3 || ends_with(word, "ss") || ends_with(word, "us")) {
    return word;
  }
  if (ends_with(word, "ies") && word.size() > 4) {
    return word.substr(0, word.size() - 3) + "y";
  }
  for (const std::string_view ending : {"ches", "shes", "xes", "toes", "sses"}) {
    if (ends_with(word, ending)) {
      return word.substr(0, word.size() - 2);
    }
  }
  if (ends_with(word, "eaves")) {
    return word.substr(0, word.size() - 3) + "f";
  }
  if (word.back() == 's') {
    word.pop_back();
  }
  return word;
}

bool is_word_byte(unsigned char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c >= 0x80;
}

}  // namespace

std::string folded_name(std::string_view name) {
  std::string out;
  std::string word;
  const auto flush = [&] {
    if (!word.empty()) {
      out += out.empty() ? "" : " ";
      out += singular(std::move(word));
      word.clear();
    }
  };
  for (const char raw : name) {
    const char c = raw >= 'A' && raw <= 'Z' ? static_cast<char>(raw - 'A' + 'a') : raw;
    if (is_word_byte(static_cast<unsigned char>(c))) {
      word += c;
    } else if (c != '\'') {
      flush();
    }
  }
  flush();
  return out;
}

double grams_in(std::string_view unit) {
  // The pound and ounce avoirdupois are exact: 0.45359237 kg (NIST SP 811, Appendix B).
  if (unit == "g") {
    return 1.0;
  }
  if (unit == "kg") {
    return 1000.0;
  }
  if (unit == "dag") {
    return 10.0;
  }
  if (unit == "mg") {
    return 0.001;
  }
  if (unit == "oz") {
    return 28.349523125;
  }
  if (unit == "lb") {
    return 453.59237;
  }
  return 0.0;
}

}  // namespace maslin
