#pragma once

#include <string>
#include <string_view>

namespace maslin::reading {

/// Text without its tags and with character references made letters: what a reader sees
/// of "<p>2&frac12; cups <b>flour</b></p>". Block tags become newlines; script and style
/// are dropped with what is in them. One pass, no nesting kept.
std::string without_markup(std::string_view text);

/// Whether the text is a page: has a doctype, or tags of a page near its start.
bool looks_like_page(std::string_view text);

/// Deepest nesting of open tags and the most unclosed formatting tags at any point: what
/// a tree builder's cost grows with.
struct Nesting {
  std::size_t depth = 0;
  std::size_t formatting = 0;
};
Nesting nesting_of(std::string_view page);

}  // namespace maslin::reading
