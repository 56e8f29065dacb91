#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

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

namespace {

/// A PDF of these objects, the first its catalogue; its table of references is left to be mended.
std::string pdf_of(const std::vector<std::string>& objects) {
  std::string out = "%PDF-1.4\n";
  for (std::size_t i = 0; i < objects.size(); ++i) {
    out += std::to_string(i + 1) + " 0 obj\n" + objects[i] + "\nendobj\n";
  }
  return out + "trailer << /Size " + std::to_string(objects.size() + 1) + " /Root 1 0 R >>\n%%EOF";
}

std::string stream_of(const std::string& head, const std::string& body) {
  return "<< " + head + " /Length " + std::to_string(body.size()) + " >>\nstream\n" + body +
         "\nendstream";
}

/// A page whose form draws ten of the next form, and so on: 10 to the power of `depth` in all.
std::string forms_within_forms(int depth) {
  std::vector<std::string> objects{
      "<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 600 800] /Contents 4 0 R /Resources << /Font << "
      "/F 5 0 R >> /XObject << /X 6 0 R >> >> >>",
      stream_of("", "BT /F 12 Tf 50 700 Td (500 g flour) Tj ET /X Do"),
      "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"};
  for (int k = 0; k < depth; ++k) {
    std::string body;
    for (int times = 0; times < 10; ++times) {
      body += "/X Do ";
    }
    objects.push_back(
        stream_of("/Type /XObject /Subtype /Form /BBox [0 0 9 9] /Resources << "
                  "/XObject << /X " +
                      std::to_string(7 + k) + " 0 R >> >>",
                  body));
  }
  return pdf_of(objects);
}

}  // namespace

TEST_CASE("a PDF made to keep its reader busy is ended in time, and the program lives on") {
  if (without_library()) {
    return;
  }
  ChildLimits short_limits;
  short_limits.cpu_seconds = 1;
  const auto busy = pdf_texts(forms_within_forms(14), short_limits);
  CHECK(!busy.value);
  CHECK(busy.problem.find("ten seconds") != std::string::npos);
  const auto plain = pdf_texts(forms_within_forms(0));
  REQUIRE(plain.value);
  CHECK(plain.value->front().find("500 g flour") != std::string::npos);
  const auto loop =
      pdf_texts(pdf_of({"<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [2 0 R] >>"}));
  CHECK(!loop.value);
  CHECK(!loop.problem.empty());
}

TEST_CASE("a child that dies, spins or never ends its answer leaves its parent with nothing") {
  ChildLimits limits;
  limits.cpu_seconds = 1;
  limits.wall_seconds = 20;
  CHECK(in_bounded_child([] { return std::string("done"); }, limits) == "done");
  CHECK(in_bounded_child([] { return std::string(); }, limits) == "");
  CHECK(!in_bounded_child([]() -> std::string { std::_Exit(3); }, limits));
  CHECK(!in_bounded_child(
      [] {
        volatile int spin = 1;
        while (spin == 1) {
        }
        return std::string("never");
      },
      limits));
  limits.output_bytes = 1000;
  CHECK(!in_bounded_child([] { return std::string(1'000'000, 'x'); }, limits));
}
