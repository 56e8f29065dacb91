#include "reading/markup.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "quantity/table.h"
#include "reading/tables.h"

namespace maslin::reading {
namespace {

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
bool is_letter(char c) {
  return lower(c) >= 'a' && lower(c) <= 'z';
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

void append_utf8(std::string& out, std::uint32_t code) {
  if (code == 0 || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) {
    code = 0xFFFD;
  }
  const auto byte = [&](std::uint32_t v) {
    out += static_cast<char>(static_cast<unsigned char>(v));
  };
  if (code < 0x80) {
    byte(code);
  } else if (code < 0x800) {
    byte(0xC0U | code >> 6U);
    byte(0x80U | (code & 0x3FU));
  } else if (code < 0x10000) {
    byte(0xE0U | code >> 12U);
    byte(0x80U | (code >> 6U & 0x3FU));
    byte(0x80U | (code & 0x3FU));
  } else {
    byte(0xF0U | code >> 18U);
    byte(0x80U | (code >> 12U & 0x3FU));
    byte(0x80U | (code >> 6U & 0x3FU));
    byte(0x80U | (code & 0x3FU));
  }
}

/// Reads "#189;" or "frac12;" after the ampersand; how many characters it took, 0 if it
/// is no reference.
std::size_t reference(std::string_view text, std::string& out) {
  const std::size_t end = text.substr(0, 12).find(';');
  if (end == std::string_view::npos || end == 0) {
    return 0;
  }
  const std::string_view name = text.substr(0, end);
  if (name.front() != '#') {
    static constexpr std::string_view k_none;
    const Table table(embedded_table("entities.tsv"));
    for (std::size_t row = 0; row < table.size(); ++row) {
      if (table.cell(row, "name") == name) {
        out += table.cell(row, "text") == k_none ? " " : table.cell(row, "text");
        return end + 1;
      }
    }
    return 0;
  }
  const bool hex = name.size() > 2 && lower(name[1]) == 'x';
  std::uint32_t code = 0;
  for (const char c : name.substr(hex ? 2 : 1)) {
    const char l = lower(c);
    const bool hex_digit = hex && l >= 'a' && l <= 'f';
    if (!is_digit(c) && !hex_digit) {
      return 0;
    }
    code =
        code * (hex ? 16U : 10U) + static_cast<std::uint32_t>(hex_digit ? l - 'a' + 10 : c - '0');
    code = std::min<std::uint32_t>(code, 0x110000);
  }
  append_utf8(out, code);
  return end + 1;
}

struct Tag {
  std::string name;
  bool closes = false;
  bool self_closed = false;
  std::size_t end = 0;  // after its '>'
};

/// The tag at '<', with an empty name when it is a comment or no tag at all.
Tag tag_at(std::string_view text, std::size_t at) {
  Tag tag;
  if (text.substr(at).starts_with("<!--")) {
    const std::size_t end = text.find("-->", at + 4);
    tag.end = end == std::string_view::npos ? text.size() : end + 3;
    return tag;
  }
  std::size_t i = at + 1;
  tag.closes = i < text.size() && text[i] == '/';
  i += tag.closes ? 1U : 0U;
  if (i >= text.size() || (!is_letter(text[i]) && text[i] != '!' && text[i] != '?')) {
    tag.end = at;
    return tag;
  }
  while (i < text.size() && (is_letter(text[i]) || is_digit(text[i]))) {
    tag.name += lower(text[i++]);
  }
  char quote = '\0';
  for (; i < text.size(); ++i) {
    const char c = text[i];
    if (quote != '\0') {
      quote = c == quote ? '\0' : quote;
    } else if (c == '"' || c == '\'') {
      quote = c;
    } else if (c == '>') {
      break;
    }
  }
  tag.self_closed = i > 0 && i < text.size() && text[i - 1] == '/';
  tag.end = std::min(i + 1, text.size());
  return tag;
}

template <std::size_t N>
bool is_one_of(std::string_view name, const std::array<std::string_view, N>& names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

constexpr std::array<std::string_view, 14> k_blocks{"p",  "div", "li", "ul", "ol", "br",      "tr",
                                                    "h1", "h2",  "h3", "h4", "h5", "section", "dd"};
constexpr std::array<std::string_view, 14> k_void{"area",  "base",   "br",    "col",  "embed",
                                                  "hr",    "img",    "input", "link", "meta",
                                                  "param", "source", "track", "wbr"};
constexpr std::array<std::string_view, 14> k_formatting{"a",      "b",      "big",  "code", "em",
                                                        "font",   "i",      "nobr", "s",    "small",
                                                        "strike", "strong", "tt",   "u"};

std::size_t past_raw(std::string_view text, std::size_t from, std::string_view name) {
  std::size_t at = from;
  while (at < text.size()) {
    at = text.find("</", at);
    if (at == std::string_view::npos) {
      return text.size();
    }
    const Tag tag = tag_at(text, at);
    if (tag.name == name) {
      return tag.end;
    }
    at += 2;
  }
  return text.size();
}

}  // namespace

std::string without_markup(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '&') {
      const std::size_t took = reference(text.substr(i + 1), out);
      if (took == 0) {
        out += '&';
      }
      i += 1 + took;
      continue;
    }
    if (text[i] != '<') {
      out += text[i++];
      continue;
    }
    const Tag tag = tag_at(text, i);
    if (tag.end <= i) {
      out += text[i++];
      continue;
    }
    if (is_one_of(tag.name, k_blocks)) {
      out += '\n';
    }
    const bool raw = !tag.closes && (tag.name == "script" || tag.name == "style");
    i = raw ? past_raw(text, tag.end, tag.name) : tag.end;
  }
  return out;
}

bool looks_like_page(std::string_view text) {
  std::string head;
  for (const char c : text.substr(0, 4000)) {
    head += lower(c);
  }
  for (const std::string_view sign :
       {"<!doctype", "<html", "<head", "<body", "<script", "<div", "<article", "<section", "<table",
        "<ul", "<ol", "<h1", "<p>", "<li"}) {
    if (head.find(sign) != std::string::npos) {
      return true;
    }
  }
  return false;
}

Nesting nesting_of(std::string_view page) {
  Nesting most;
  std::size_t depth = 0;
  std::size_t formatting = 0;
  for (std::size_t i = page.find('<'); i < page.size(); i = page.find('<', i)) {
    const Tag tag = tag_at(page, i);
    if (tag.end <= i) {
      ++i;
      continue;
    }
    i = tag.end;
    if (tag.name.empty() || is_one_of(tag.name, k_void)) {
      continue;
    }
    const bool is_formatting = is_one_of(tag.name, k_formatting);
    if (tag.closes) {
      depth -= depth > 0 ? 1U : 0U;
      formatting -= is_formatting && formatting > 0 ? 1U : 0U;
      continue;
    }
    if (tag.name == "script" || tag.name == "style") {
      i = past_raw(page, tag.end, tag.name);
      continue;
    }
    ++depth;
    formatting += is_formatting ? 1U : 0U;
    most.depth = std::max(most.depth, depth);
    most.formatting = std::max(most.formatting, formatting);
  }
  return most;
}

}  // namespace maslin::reading
