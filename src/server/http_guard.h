// What every request must pass before anybody looks at it, and what every answer
// carries so that a browser lets nothing found in a recipe run.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "server/http.h"

namespace maslin {

/// Knows the names this server answers to.
class HttpGuard {
 public:
  HttpGuard() = default;
  /// Loopback names and `further_names`, each with `port`.
  HttpGuard(std::uint16_t port, const std::vector<std::string>& further_names);

  /// The refusal, or nothing when the request may pass. 405 for other methods than
  /// GET, HEAD and POST; 400 for a missing or double Host; 421 for a Host that is
  /// not ours (another name was pointed at this machine); 403 for the Origin of
  /// another page; 411 for a body of unstated length.
  std::optional<HttpResponse> refusal(const HttpHead& head) const;

 private:
  bool is_ours(std::string_view host) const;
  std::vector<std::string> hosts_;  // lower case, with port
};

/// Headers of every answer: content security policy and its kin.
const std::vector<std::pair<std::string, std::string>>& guard_headers();

/// {"problem": sentence} with a status.
HttpResponse problem_response(int status, std::string_view sentence);

/// `text` as a JSON string with its quotation marks; bytes that are not UTF-8 are
/// replaced by a question mark.
std::string json_quoted(std::string_view text);

/// Whole megabytes of a size, for a sentence.
std::string megabytes(std::size_t bytes);

}  // namespace maslin
