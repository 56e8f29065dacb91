#include "server/http_guard.h"

#include <algorithm>
#include <array>

namespace maslin {
namespace {

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') {
      c = static_cast<char>(c - 'A' + 'a');
    }
  }
  return out;
}

constexpr std::string_view k_scheme = "http://";

// Length of the UTF-8 sequence that starts `text`, 0 when there is none.
std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(0);
  const std::size_t length = first < 0x80                    ? 1
                             : first >= 0xC2 && first < 0xE0 ? 2
                             : first >= 0xE0 && first < 0xF0 ? 3
                             : first >= 0xF0 && first < 0xF5 ? 4
                                                             : 0;
  if (length == 0 || length > text.size()) {
    return 0;
  }
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) {
      return 0;
    }
  }
  const bool overlong = (first == 0xE0 && byte(1) < 0xA0) || (first == 0xF0 && byte(1) < 0x90);
  const bool outside = (first == 0xED && byte(1) > 0x9F) || (first == 0xF4 && byte(1) > 0x8F);
  return overlong || outside ? 0 : length;
}

}  // namespace

HttpGuard::HttpGuard(std::uint16_t port, const std::vector<std::string>& further_names) {
  std::vector<std::string> names = {"127.0.0.1", "localhost", "[::1]"};
  names.insert(names.end(), further_names.begin(), further_names.end());
  for (const std::string& name : names) {
    hosts_.push_back(lower(name) + ":" + std::to_string(port));
    if (port == 80) {
      hosts_.push_back(lower(name));
    }
  }
}

bool HttpGuard::is_ours(std::string_view host) const {
  return std::find(hosts_.begin(), hosts_.end(), lower(host)) != hosts_.end();
}

std::optional<HttpResponse> HttpGuard::refusal(const HttpHead& head) const {
  if (head.method != "GET" && head.method != "HEAD" && head.method != "POST") {
    HttpResponse refused = problem_response(405, "Only GET, HEAD and POST are answered here.");
    refused.headers.emplace_back("Allow", "GET, HEAD, POST");
    return refused;
  }
  if (head.hosts != 1) {
    return problem_response(400, "A request must name its host once.");
  }
  if (!is_ours(head.host)) {
    return problem_response(421,
                            "This server answers only to the address it printed: open that one.");
  }
  if (!head.origin.empty()) {
    const std::string_view origin = head.origin;
    if (!origin.starts_with(k_scheme) || !is_ours(origin.substr(k_scheme.size()))) {
      return problem_response(403, "Requests from other pages are refused.");
    }
  }
  if (head.chunked) {
    return problem_response(411, "State the length of what you send.");
  }
  return std::nullopt;
}

const std::vector<std::pair<std::string, std::string>>& guard_headers() {
  static const std::vector<std::pair<std::string, std::string>> headers = {
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; "
       "img-src 'self' data:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; "
       "base-uri 'none'; form-action 'none'; frame-ancestors 'none'; "
       "require-trusted-types-for 'script'; trusted-types worker"},
      {"X-Content-Type-Options", "nosniff"},
      {"X-Frame-Options", "DENY"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Permissions-Policy", "camera=(), microphone=(), geolocation=()"},
  };
  return headers;
}

std::string json_quoted(std::string_view text) {
  static constexpr std::array<char, 16> k_hex = {'0', '1', '2', '3', '4', '5', '6', '7',
                                                 '8', '9', 'a', 'b', 'c', 'd', 'e', 'f'};
  std::string out = "\"";
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = utf8_length(text.substr(i));
    const auto c = static_cast<unsigned char>(text[i]);
    if (length == 0) {
      out += '?';
      ++i;
    } else if (c < 0x20 || c == 0x7F) {
      out += "\\u00";
      out += k_hex[c >> 4];
      out += k_hex[c & 0xF];
      ++i;
    } else {
      if (c == '"' || c == '\\') {
        out += '\\';
      }
      out += text.substr(i, length);
      i += length;
    }
  }
  return out + '"';
}

HttpResponse problem_response(int status, std::string_view sentence) {
  HttpResponse response;
  response.status = status;
  response.body = "{\"problem\":" + json_quoted(sentence) + "}\n";
  response.headers.emplace_back("Cache-Control", "no-store");
  return response;
}

std::string megabytes(std::size_t bytes) {
  return std::to_string(bytes / (1024 * 1024));
}

}  // namespace maslin
