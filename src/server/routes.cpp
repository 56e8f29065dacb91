#include "server/routes.h"

#include <optional>

#include "recipe/kitchen.h"
#include "server/asked.h"
#include "server/http_guard.h"
#include "server/page_files.h"

namespace maslin {
namespace {

constexpr std::string_view k_api = "/api/v1/";

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
  Asked asked = asked_with(request, {"recipe", "text", "kitchen", "observations", "begins_at",
                                     "seed", "draws", "worth_measuring", "what_if"});
  if (asked.refused) {
    return *asked.refused;
  }
  ForecastQuestion question;
  question.recipe_json = object_of(asked, "recipe");
  question.text = text_of(asked, "text");
  question.kitchen_json = object_of(asked, "kitchen");
  question.observations_json = list_of(asked, "observations");
  question.worth_measuring = flag_of(asked, "worth_measuring", true);
  question.what_if = flag_of(asked, "what_if", false);
  if (const std::string hour = text_of(asked, "begins_at"); !hour.empty()) {
    question.begins_at = hour_of_day_from(hour);
    if (!question.begins_at) {
      return problem_response(400, "'begins_at' must be an hour of a day: 21:00.");
    }
  }
  take_draws(asked, question);
  question.gone = request.gone;
  if (const auto refused = refusal_of(asked, question)) {
    return *refused;
  }
  return handlers.forecast ? said(handlers.forecast(question)) : not_here();
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

/// A route whose answer needs the functions handed in and nothing of its address.
Route plain_route(const char* method, const char* name, const ApiHandlers& handlers,
                  HttpResponse (*answer)(const ApiHandlers&, const HttpRequest&)) {
  return {method, name, [handlers, answer](const HttpRequest& request, const std::string&) {
            return answer(handlers, request);
          }};
}

std::vector<Route> all_routes(const ApiHandlers& handlers) {
  std::vector<Route> out = {
      plain_route("POST", "read", handlers, answer_read),
      plain_route("POST", "forecast", handlers, answer_forecast),
      plain_route("GET", "pantry", handlers, answer_pantry),
      plain_route("GET", "kitchen", handlers, answer_kitchen),
      plain_route("GET", "about", handlers, answer_about),
      plain_route("GET", "demo", handlers, answer_demo),
  };
  for (const std::vector<Route>& subject :
       {adjust_routes(handlers.adjust), picture_routes(handlers.picture),
        plan_routes(handlers.plan), handon_routes(handlers.hand_on), label_routes(handlers.labels),
        library_routes(handlers.library), living_routes(handlers.living),
        trial_routes(handlers.trials), compare_routes(handlers.compare),
        device_routes(handlers.devices)}) {
    out.insert(out.end(), subject.begin(), subject.end());
  }
  return out;
}

/// The word that stands where `name` has its braces ("" when it has none); nothing when
/// the path is another.
std::optional<std::string> word_of(std::string_view path, std::string_view name) {
  const std::size_t open = name.find('{');
  if (open == std::string_view::npos) {
    return path == name ? std::optional<std::string>("") : std::nullopt;
  }
  const std::string_view head = name.substr(0, open);
  const std::string_view tail = name.substr(name.find('}') + 1);
  if (path.size() <= head.size() + tail.size() || !path.starts_with(head) ||
      !path.ends_with(tail)) {
    return std::nullopt;
  }
  const std::string_view word = path.substr(head.size(), path.size() - head.size() - tail.size());
  return word.find('/') == std::string_view::npos ? std::optional(std::string(word)) : std::nullopt;
}

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

HttpResponse answer_api(const std::vector<Route>& routes, const HttpRequest& request) {
  // A browser says when another site's page asks; old ones are told by Origin.
  if (request.fetch_site == "cross-site" || request.fetch_site == "same-site") {
    return problem_response(403, "Requests from other pages are refused.");
  }
  const std::string_view name = std::string_view(request.path).substr(k_api.size());
  const std::string_view method =
      request.method == "HEAD" ? "GET" : std::string_view(request.method);
  std::string allowed;
  for (const Route& route : routes) {
    const std::optional<std::string> word = word_of(name, route.name);
    if (word && route.method == method) {
      return route.answer(request, *word);
    }
    if (word) {
      allowed += (allowed.empty() ? "" : ", ") + route.method;
    }
  }
  if (allowed.empty()) {
    return problem_response(404, "The interface has nothing at this address.");
  }
  HttpResponse refused = problem_response(405, "This address takes " + allowed + ".");
  refused.headers.emplace_back("Allow", allowed);
  return refused;
}

}  // namespace

HttpHandler routes(const ApiHandlers& handlers) {
  return [held = all_routes(handlers)](const HttpRequest& request) {
    const bool is_api = request.path.starts_with(k_api) && page_file(request.path) == nullptr;
    return is_api ? answer_api(held, request) : answer_page(request);
  };
}

std::vector<std::string> api_routes() {
  std::vector<std::string> out = {"GET /api/v1/openapi.json"};
  for (const Route& route : all_routes({})) {
    out.push_back(route.method + " " + std::string(k_api) + route.name);
  }
  return out;
}

}  // namespace maslin
