#include "server/page_files.h"

#include <array>
#include <cstdint>
#include <map>

#include "server/embedded_page.h"

namespace maslin {
namespace {

struct Listed {
  std::string_view path;
  std::string_view name;  // among the embedded files
  std::string_view content_type;
};

// Files that are not text are embedded as base64.
constexpr std::string_view k_base64 = ".base64";
constexpr std::array<Listed, 10> k_listed = {{
    {"/", "index.html", "text/html; charset=utf-8"},
    {"/maslin.js", "maslin.js", "text/javascript; charset=utf-8"},
    {"/worker.js", "worker.js", "text/javascript; charset=utf-8"},
    {"/maslin.css", "maslin.css", "text/css; charset=utf-8"},
    {"/favicon.svg", "favicon.svg", "image/svg+xml"},
    {"/vollkorn.woff2", "vollkorn.woff2.base64", "font/woff2"},
    {"/alegreya-sans-400.woff2", "alegreya-sans-400.woff2.base64", "font/woff2"},
    {"/alegreya-sans-700.woff2", "alegreya-sans-700.woff2.base64", "font/woff2"},
    {"/licences.txt", "licences.txt", "text/plain; charset=utf-8"},
    {"/api/v1/openapi.json", "openapi.json", "application/json"},
}};

constexpr std::string_view k_not_built =
    "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>maslin</title>"
    "<p>The page was not built: run ./run</p></html>\n";

// FNV-1a, 64 bit: names a body, guards nothing.
std::string tag_of(std::string_view body) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : body) {
    hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  }
  return "\"" + std::to_string(hash) + "\"";
}

std::map<std::string_view, PageFile> all_files() {
  std::map<std::string_view, PageFile> files;
  for (const Listed& listed : k_listed) {
    const std::string_view text = page::embedded_table(listed.name);
    if (!text.empty()) {
      std::string body = listed.name.ends_with(k_base64) ? from_base64(text) : std::string(text);
      std::string tag = tag_of(body);
      files[listed.path] = {std::move(body), listed.content_type, std::move(tag)};
    }
  }
  if (!files.contains("/")) {
    files["/"] = {std::string(k_not_built), k_listed[0].content_type, tag_of(k_not_built)};
  }
  return files;
}

}  // namespace

const PageFile* page_file(std::string_view path) {
  static const std::map<std::string_view, PageFile> files = all_files();
  const auto found = files.find(path);
  return found == files.end() ? nullptr : &found->second;
}

std::string from_base64(std::string_view text) {
  static constexpr std::string_view k_alphabet =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve(text.size() * 3 / 4);
  std::uint32_t held = 0;
  int bits = 0;
  for (const char c : text) {
    const std::size_t value = k_alphabet.find(c);
    if (value == std::string_view::npos) {
      continue;
    }
    held = (held << 6 | static_cast<std::uint32_t>(value)) & 0xFFFFFF;
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      out += static_cast<char>(held >> bits & 0xFF);
    }
  }
  return out;
}

}  // namespace maslin
