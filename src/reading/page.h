#pragma once

#include <string>
#include <string_view>

namespace maslin::reading {

/// Largest page that is parsed, bytes; scripts and styles do not count.
inline constexpr std::size_t k_longest_page = 4'000'000;

/// The recipe text of a saved page: its schema.org recipe as JSON-LD, microdata or RDFa
/// when it has one, else its headings, lists, tables and paragraphs around the longest
/// list of amounts. Nothing on the page is fetched or run; scripts other than JSON-LD
/// are dropped unread. Pages that nest deeper than 400 are read by their words alone.
std::string page_text(std::string_view page);

}  // namespace maslin::reading
