#include "quantity/markup_text.h"

namespace maslin {
namespace {

bool is_control(char c) {
  return (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t') || c == 0x7f;
}

}  // namespace

std::string markup_escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        if (!is_control(c)) {
          out += c;
        }
    }
  }
  return out;
}

std::string without_tags(std::string_view line) {
  std::string out;
  char close = '\0';
  for (const char c : line) {
    if (close != '\0') {
      close = c == close ? '\0' : close;
    } else if (c == '<' || c == '{') {
      close = c == '<' ? '>' : '}';
    } else {
      out += c;
    }
  }
  return out;
}

}  // namespace maslin
