// page_files: the page as built into the program.
#pragma once

#include <string>
#include <string_view>

namespace maslin {

/// One file of the page. `tag` changes when the body does.
struct PageFile {
  std::string body;
  std::string_view content_type;
  std::string tag;
};

/// The file at a path such as "/" or "/maslin.js"; null when there is none. When
/// the page was not built, "/" says so in a sentence.
const PageFile* page_file(std::string_view path);

/// The bytes of standard base64 text (RFC 4648 §4); characters outside its
/// alphabet are skipped.
std::string from_base64(std::string_view text);

}  // namespace maslin
