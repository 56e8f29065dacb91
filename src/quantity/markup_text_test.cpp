#include "quantity/markup_text.h"

#include <doctest/doctest.h>

using namespace maslin;

TEST_CASE("nothing in a text can begin or end markup") {
  // XML 1.0, section 4.6: the predefined entities; the apostrophe by number, as HTML 4 has no name.
  CHECK(markup_escaped(R"(<a href="x" o='y'>&</a>)") ==
        "&lt;a href=&quot;x&quot; o=&#39;y&#39;&gt;&amp;&lt;/a&gt;");
  CHECK(markup_escaped("two\nlines\tand a bell\a, a delete\x7f") ==
        "two\nlines\tand a bell, a delete");
  CHECK(markup_escaped("½ tasse à café — 1 °C") == "½ tasse à café — 1 °C");
}

TEST_CASE("tags of captions are left out, also one that never ends") {
  CHECK(without_tags("<i>so</i> {\\an8}it <00:00:01.000>goes") == "so it goes");
  CHECK(without_tags("a pinch <b") == "a pinch ");
  CHECK(without_tags("") == "");
}
