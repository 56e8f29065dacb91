// Text on its way into markup, and out of it.
#pragma once

#include <string>
#include <string_view>

namespace maslin {

/// For text and attribute values of HTML, XML and SVG: the five markup characters as references,
/// so that nothing found can begin or end anything. Control characters are dropped, but for
/// line ends and tabs.
std::string markup_escaped(std::string_view text);

/// A caption without the tags of its format: "<i>so</i>", "{\an8}", "<00:00:01.000>".
std::string without_tags(std::string_view line);

}  // namespace maslin
