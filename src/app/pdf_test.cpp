#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "app/app.h"
#include "app/pdf_text.h"

using namespace maslin;

namespace {

std::string file(const std::string& name) {
  std::ifstream in(std::string(MASLIN_SOURCE_DIR) + "/tests/reading/pdf/" + name, std::ios::binary);
  std::stringstream out;
  out << in.rdbuf();
  return out.str();
}

const Tools& tools() {
  static const Tools k_tools;
  return k_tools;
}

bool without_library() {
  const auto texts = pdf_texts(file("table.pdf"));
  return texts.problem.find("without a PDF library") != std::string::npos;
}

}  // namespace

TEST_CASE("a recipe is read from a PDF, in one column, two, or a table") {
  if (without_library()) {
    MESSAGE("built without a PDF library");
    return;
  }
  const auto one = read_recipe(tools(), {file("one-column.pdf"), "one-column.pdf", ""});
  REQUIRE(one.value);
  CHECK(one.value->title == "Oat and honey rolls");
  REQUIRE(one.value->parts.size() == 1);
  CHECK(one.value->parts[0].lines.size() == 7);
  CHECK(one.value->parts[0].steps.size() >= 4);
  CHECK(one.value->pieces == Range{12, 12});

  const auto two = read_recipe(tools(), {file("two-columns.pdf"), "two-columns.pdf", ""});
  REQUIRE(two.value);
  REQUIRE(two.value->parts.size() == 2);
  CHECK(two.value->parts[0].lines.size() == 7);
  CHECK(two.value->parts[1].kind == PartKind::filling);
  CHECK(two.value->parts[1].lines.size() == 2);
  CHECK(two.value->parts[0].steps.back().kind == StepKind::bake);

  const auto table = read_recipe(tools(), {file("table.pdf"), "table.pdf", ""});
  REQUIRE(table.value);
  const std::vector<Line>& lines = table.value->parts[0].lines;
  REQUIRE(lines.size() == 6);
  CHECK(lines[1].ingredient_id == "rye_flour_medium");
  CHECK(lines[1].grams.p50() == doctest::Approx(2000.0));
}

TEST_CASE("a PDF that cannot be read gets one sentence, and no bytes do harm") {
  if (without_library()) {
    return;
  }
  CHECK(read_recipe(tools(), {file("picture.pdf"), "", ""}).problem.find("pictures") !=
        std::string::npos);
  const std::string whole = file("one-column.pdf");
  for (std::size_t n = 6; n < whole.size(); n += 601) {
    const auto cut = read_recipe(tools(), {whole.substr(0, n), "", ""});
    CHECK((cut.value || !cut.problem.empty()));
    std::string flipped = whole;
    flipped[n] = static_cast<char>(flipped[n] ^ 0x55);
    const auto other = read_recipe(tools(), {flipped, "", ""});
    CHECK((other.value || !other.problem.empty()));
  }
}
