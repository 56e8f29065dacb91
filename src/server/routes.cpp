#include "server/routes.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "server/http_guard.h"
#include "server/page_files.h"

namespace maslin {
namespace {

using Json = nlohmann::json;

// Deeper nesting than any recipe has is refused before parsing.
constexpr int k_depth_limit = 32;
constexpr std::uint32_t k_draws_limit = 16384;
constexpr std::string_view k_api = "/api/v1/";

struct Route {
  std::string_view method;
  std::string_view name;  // below /api/v1/
  HttpResponse (*answer)(const ApiHandlers&, const HttpRequest&);
};

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

// The body as a JSON object whose keys are all among `known`, or the refusal.
struct Asked {
  Json document;
  std::optional<HttpResponse> refused;
};

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

// Gives the text of `key`, empty when it is missing; sets `refused` for another type.
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

// The same for an object, given as its JSON text.
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

HttpResponse answer_read(const ApiHandlers& handlers, const HttpRequest& request) {
  Asked asked = asked_with(request, {"text", "name", "locale"});
  if (asked.refused) {
    return *asked.refused;
  }
  const ReadQuestion question{text_of(asked, "text"), text_of(asked, "name"),
                              text_of(asked, "locale")};
  if (asked.refused) {
    return *asked.refused;
  }
  return handlers.read ? said(handlers.read(question)) : not_here();
}

HttpResponse answer_forecast(const ApiHandlers& handlers, const HttpRequest& request) {
  Asked asked = asked_with(request, {"recipe", "text", "kitchen", "seed", "draws"});
  if (asked.refused) {
    return *asked.refused;
  }
  ForecastQuestion question;
  question.recipe_json = object_of(asked, "recipe");
  question.text = text_of(asked, "text");
  question.kitchen_json = object_of(asked, "kitchen");
  // Whole numbers above 2^53 do not survive a browser.
  question.seed = whole_number_of(asked, "seed", 0, (1ULL << 53) - 1);
  const auto draws = whole_number_of(asked, "draws", 1, k_draws_limit);
  if (draws) {
    question.draws = static_cast<std::uint32_t>(*draws);
  }
  question.gone = request.gone;
  if (asked.refused) {
    return *asked.refused;
  }
  if (question.recipe_json.empty() == question.text.empty()) {
    return problem_response(400, "Give either 'recipe' (what read gave) or 'text'.");
  }
  return handlers.forecast ? said(handlers.forecast(question)) : not_here();
}

// The value of one key in a query, decoded (plus is a space, %41 is A).
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

HttpResponse answer_pantry(const ApiHandlers& handlers, const HttpRequest& request) {
  const std::string word = query_value(request.query, "word");
  if (word.empty() || word.size() > 200) {
    return problem_response(400, "Name an ingredient: /api/v1/pantry?word=rye");
  }
  return handlers.pantry ? said(handlers.pantry(word)) : not_here();
}

HttpResponse answer_kitchen(const ApiHandlers& handlers, const HttpRequest&) {
  return handlers.kitchen ? said(handlers.kitchen()) : not_here();
}

HttpResponse answer_about(const ApiHandlers& handlers, const HttpRequest&) {
  return handlers.about ? said(handlers.about()) : not_here();
}

HttpResponse answer_demo(const ApiHandlers& handlers, const HttpRequest&) {
  return handlers.demo ? said(handlers.demo()) : not_here();
}

constexpr std::array<Route, 6> k_routes = {{
    {"POST", "read", answer_read},
    {"POST", "forecast", answer_forecast},
    {"GET", "pantry", answer_pantry},
    {"GET", "kitchen", answer_kitchen},
    {"GET", "about", answer_about},
    {"GET", "demo", answer_demo},
}};

HttpResponse answer_page(const HttpRequest& request) {
  const PageFile* file = page_file(request.path);
  if (file == nullptr) {
    return problem_response(404, "There is nothing at this address.");
  }
  if (request.method == "POST") {
    return problem_response(405, "This address is only read: use GET.");
  }
  HttpResponse response;
  response.headers = {{"Cache-Control", "no-cache"}, {"ETag", file->tag}};
  response.content_type = std::string(file->content_type);
  if (request.if_none_match == file->tag) {
    response.status = 304;
  } else {
    response.body = file->body;
  }
  return response;
}

HttpResponse answer_api(const ApiHandlers& handlers, const HttpRequest& request) {
  // A browser says when another site's page asks; old ones are told by Origin.
  if (request.fetch_site == "cross-site" || request.fetch_site == "same-site") {
    return problem_response(403, "Requests from other pages are refused.");
  }
  const std::string_view name = std::string_view(request.path).substr(k_api.size());
  const std::string_view method =
      request.method == "HEAD" ? "GET" : std::string_view(request.method);
  for (const Route& route : k_routes) {
    if (route.name == name && route.method == method) {
      return route.answer(handlers, request);
    }
    if (route.name == name) {
      HttpResponse refused =
          problem_response(405, "This address takes " + std::string(route.method) + ".");
      refused.headers.emplace_back("Allow", std::string(route.method));
      return refused;
    }
  }
  return problem_response(404, "The interface has nothing at this address.");
}

}  // namespace

HttpHandler routes(ApiHandlers handlers) {
  return [held = std::move(handlers)](const HttpRequest& request) {
    const bool is_api = request.path.starts_with(k_api) && page_file(request.path) == nullptr;
    return is_api ? answer_api(held, request) : answer_page(request);
  };
}

std::vector<std::string> api_routes() {
  std::vector<std::string> out = {"GET /api/v1/openapi.json"};
  for (const Route& route : k_routes) {
    out.push_back(std::string(route.method) + " " + std::string(k_api) + std::string(route.name));
  }
  return out;
}

}  // namespace maslin
