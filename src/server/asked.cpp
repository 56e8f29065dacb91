#include "server/asked.h"

#include <algorithm>

#include "quantity/number_text.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

using Json = nlohmann::json;

// Deeper nesting than any recipe has is refused before parsing.
constexpr int k_depth_limit = 32;

bool nested_within(std::string_view text, int limit) {
  int depth = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      i += c == '\\' ? 1 : 0;
      quoted = c != '"';
    } else if (c == '"') {
      quoted = true;
    } else if (c == '{' || c == '[') {
      if (++depth > limit) {
        return false;
      }
    } else if (c == '}' || c == ']') {
      --depth;
    }
  }
  return true;
}

}  // namespace

HttpResponse said(const ApiAnswer& answer) {
  if (!answer.ok) {
    return problem_response(422, answer.problem);
  }
  HttpResponse response;
  response.body = answer.json;
  response.headers.emplace_back("Cache-Control", "no-store");
  return response;
}

HttpResponse not_here() {
  return problem_response(501, "This maslin was built without that.");
}

Asked asked_with(const HttpRequest& request, std::initializer_list<std::string_view> known) {
  if (!request.content_type.starts_with("application/json")) {
    return {{}, problem_response(415, "Send JSON, with Content-Type: application/json.")};
  }
  if (!nested_within(request.body, k_depth_limit)) {
    return {{},
            problem_response(400, "The JSON is nested deeper than " +
                                      std::to_string(k_depth_limit) + " levels.")};
  }
  Json document = Json::parse(request.body, nullptr, false);
  if (!document.is_object()) {
    return {{}, problem_response(400, "The body is not a JSON object: send {\"text\": …}.")};
  }
  for (const auto& [key, value] : document.items()) {
    if (std::find(known.begin(), known.end(), key) == known.end()) {
      std::string listed;
      for (const std::string_view name : known) {
        listed += (listed.empty() ? "" : ", ") + std::string(name);
      }
      return {{},
              problem_response(
                  400, "'" + key.substr(0, 80) + "' is not known here: use " + listed + ".")};
    }
  }
  return {std::move(document), std::nullopt};
}

std::string text_of(Asked& asked, const char* key) {
  const auto found = asked.document.find(key);
  if (found == asked.document.end() || found->is_null()) {
    return {};
  }
  if (!found->is_string()) {
    asked.refused = problem_response(400, "'" + std::string(key) + "' must be text.");
    return {};
  }
  return found->get<std::string>();
}

std::string object_of(Asked& asked, const char* key) {
  const auto found = asked.document.find(key);
  if (found == asked.document.end() || found->is_null()) {
    return {};
  }
  if (!found->is_object()) {
    asked.refused = problem_response(400, "'" + std::string(key) + "' must be an object.");
    return {};
  }
  return found->dump();
}

std::string list_of(Asked& asked, const char* key) {
  const auto found = asked.document.find(key);
  if (found == asked.document.end() || found->is_null()) {
    return {};
  }
  if (!found->is_array()) {
    asked.refused = problem_response(400, "'" + std::string(key) + "' must be a list.");
    return {};
  }
  return found->dump();
}

std::vector<std::string> texts_of(Asked& asked, const char* key, std::size_t most) {
  const auto found = asked.document.find(key);
  std::vector<std::string> out;
  if (found == asked.document.end() || found->is_null()) {
    return out;
  }
  const auto is_text = [](const Json& one) { return one.is_string(); };
  if (!found->is_array() || found->size() > most ||
      !std::all_of(found->begin(), found->end(), is_text)) {
    asked.refused = problem_response(400, "'" + std::string(key) + "' must be a list of at most " +
                                              std::to_string(most) + " texts.");
    return out;
  }
  for (const Json& one : *found) {
    out.push_back(one.get<std::string>());
  }
  return out;
}

bool flag_of(Asked& asked, const char* key, bool otherwise) {
  const auto found = asked.document.find(key);
  if (found == asked.document.end() || found->is_null()) {
    return otherwise;
  }
  if (!found->is_boolean()) {
    asked.refused = problem_response(400, "'" + std::string(key) + "' must be true or false.");
    return otherwise;
  }
  return found->get<bool>();
}

std::optional<double> number_of(Asked& asked, const char* key, double least, double most) {
  const auto found = asked.document.find(key);
  if (found == asked.document.end() || found->is_null()) {
    return std::nullopt;
  }
  if (!found->is_number() || !(found->get<double>() >= least) || !(found->get<double>() <= most)) {
    asked.refused =
        problem_response(400, "'" + std::string(key) + "' must be a number from " +
                                  number_text(least, 2) + " to " + number_text(most, 2) + ".");
    return std::nullopt;
  }
  return found->get<double>();
}

std::optional<std::uint64_t> whole_number_of(Asked& asked, const char* key, std::uint64_t least,
                                             std::uint64_t most) {
  const auto found = asked.document.find(key);
  if (found == asked.document.end() || found->is_null()) {
    return std::nullopt;
  }
  if (!found->is_number_unsigned() || found->get<std::uint64_t>() < least ||
      found->get<std::uint64_t>() > most) {
    asked.refused =
        problem_response(400, "'" + std::string(key) + "' must be a whole number from " +
                                  std::to_string(least) + " to " + std::to_string(most) + ".");
    return std::nullopt;
  }
  return found->get<std::uint64_t>();
}

std::string query_value(std::string_view query, std::string_view key) {
  const auto hex = [](char c) {
    return c >= '0' && c <= '9'   ? c - '0'
           : c >= 'a' && c <= 'f' ? c - 'a' + 10
           : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                  : -1;
  };
  while (!query.empty()) {
    const std::string_view pair = query.substr(0, query.find('&'));
    query.remove_prefix(std::min(query.size(), pair.size() + 1));
    if (!pair.starts_with(key) || pair.substr(key.size(), 1) != "=") {
      continue;
    }
    std::string out;
    for (std::size_t i = key.size() + 1; i < pair.size(); ++i) {
      if (pair[i] == '%' && i + 2 < pair.size() && hex(pair[i + 1]) >= 0 && hex(pair[i + 2]) >= 0) {
        out += static_cast<char>(hex(pair[i + 1]) * 16 + hex(pair[i + 2]));
        i += 2;
      } else {
        out += pair[i] == '+' ? ' ' : pair[i];
      }
    }
    return out;
  }
  return {};
}

HttpResponse not_one_recipe() {
  return problem_response(400, "Give either 'recipe' (what read gave) or 'text'.");
}

}  // namespace maslin
