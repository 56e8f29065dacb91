#include "app/pdf_text.h"

#include <memory>

#include "app/bounded_child.h"
#include "quantity/table.h"

#ifdef MASLIN_WITH_POPPLER
#include <poppler-document.h>
#include <poppler-global.h>
#include <poppler-page.h>
#endif

namespace maslin {

bool is_pdf(std::string_view bytes) {
  return bytes.substr(0, 1024).find("%PDF-") != std::string_view::npos &&
         bytes.substr(0, 1024).find('<') > bytes.substr(0, 1024).find("%PDF-");
}

#ifdef MASLIN_WITH_POPPLER
namespace {

constexpr std::size_t k_most_bytes = 32U << 20U;
constexpr int k_most_pages = 40;
constexpr std::size_t k_most_text = 1'900'000;  // reading takes 2 MB
constexpr char k_next_layout = '\x1e';          // between the layouts a child hands over
constexpr std::string_view k_refused = "\x15";  // before its sentence

Result<std::vector<std::string>> no_text(const char* sentence) {
  return {std::nullopt, sentence};
}

std::string text_of_pages(const poppler::document& document, int pages,
                          poppler::page::text_layout_enum layout) {
  std::string out;
  for (int i = 0; i < pages && out.size() < k_most_text; ++i) {
    const std::unique_ptr<poppler::page> page(document.create_page(i));
    if (page == nullptr) {
      continue;
    }
    const poppler::byte_array bytes = page->text(poppler::rectf(), layout).to_utf8();
    out.append(bytes.begin(), bytes.end());
    out += '\n';
  }
  for (char& c : out) {
    // A form feed ends each page; other control characters are no text.
    c = c == '\f' ? '\n' : c == k_next_layout || c == k_refused.front() ? ' ' : c;
  }
  out.resize(std::min(out.size(), k_most_text));
  return out;
}

}  // namespace

Result<std::vector<std::string>> pdf_texts_here(std::string_view bytes) {
  // What the library thinks of the file is said in our own sentence.
  poppler::set_debug_error_function([](const std::string&, void*) {}, nullptr);
  const std::unique_ptr<poppler::document> document(
      poppler::document::load_from_raw_data(bytes.data(), static_cast<int>(bytes.size())));
  if (document == nullptr) {
    return no_text("The PDF is damaged and cannot be opened: save it again, or copy its text.");
  }
  if (document->is_locked()) {
    return no_text("The PDF is locked with a password: save it without one, or copy its text.");
  }
  if (document->pages() > k_most_pages) {
    return no_text("The PDF has more than 40 pages: give the pages of one recipe.");
  }
  std::vector<std::string> out;
  for (const auto layout :
       {poppler::page::non_raw_non_physical_layout, poppler::page::physical_layout}) {
    out.push_back(text_of_pages(*document, document->pages(), layout));
  }
  if (out.front().find_first_not_of(" \n\r\t") == std::string::npos) {
    return no_text("The PDF holds pictures and no text: read it from the text of the pictures.");
  }
  return {std::move(out), ""};
}

Result<std::vector<std::string>> pdf_texts(std::string_view bytes, const ChildLimits& limits) {
  if (bytes.size() > k_most_bytes) {
    return no_text("The PDF is longer than 32 MB: give the pages of one recipe.");
  }
  // Poppler knows no bound: a kilobyte of forms within forms, or of a stream that unpacks to a
  // gigabyte, keeps it for hours.
  const auto answer = in_bounded_child(
      [bytes] {
        const auto texts = pdf_texts_here(bytes);
        std::string out = texts.value ? std::string() : std::string(k_refused) + texts.problem;
        for (std::size_t i = 0; texts.value && i < texts.value->size(); ++i) {
          out += (i > 0 ? std::string(1, k_next_layout) : std::string()) + texts.value->at(i);
        }
        return out;
      },
      limits);
  if (!answer) {
    return no_text(
        "The PDF takes more than ten seconds or a gigabyte to read: save it anew from a viewer, or "
        "copy its text.");
  }
  if (answer->starts_with(k_refused)) {
    return {std::nullopt, answer->substr(k_refused.size())};
  }
  std::vector<std::string> out;
  for (const std::string_view text : split(*answer, k_next_layout)) {
    out.emplace_back(text);
  }
  return {std::move(out), ""};
}
#else
Result<std::vector<std::string>> pdf_texts_here(std::string_view bytes) {
  return pdf_texts(bytes, {});
}
Result<std::vector<std::string>> pdf_texts(std::string_view, const ChildLimits&) {
  return {std::nullopt, "This program was built without a PDF library: copy the PDF's text."};
}
#endif

}  // namespace maslin
