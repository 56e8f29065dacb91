#include "server/library_routes.h"

#include "server/asked.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

constexpr std::size_t k_name_limit = 200;

/// What a key of the query names, handed to a function.
HttpResponse answer_named(const HttpRequest& request, const char* key, const char* example,
                          const std::function<ApiAnswer(const std::string&)>& answer) {
  const std::string name = query_value(request.query, key);
  if (name.empty() || name.size() > k_name_limit) {
    return problem_response(400, std::string("Name it: /api/v1/library/") + example);
  }
  return answer ? said(answer(name)) : not_here();
}

HttpResponse answer_keep(const LibraryHandlers& library, const HttpRequest& request) {
  Asked asked = asked_with(request, {"recipe", "name", "why", "from"});
  if (asked.refused) {
    return *asked.refused;
  }
  const KeepQuestion question{object_of(asked, "recipe"), text_of(asked, "name"),
                              text_of(asked, "why"), text_of(asked, "from")};
  if (asked.refused) {
    return *asked.refused;
  }
  if (question.recipe_json.empty()) {
    return problem_response(400, "Give 'recipe', what read gave.");
  }
  return library.keep ? said(library.keep(question)) : not_here();
}

HttpResponse answer_tag(const LibraryHandlers& library, const HttpRequest& request) {
  constexpr std::size_t k_most_words = 32;
  Asked asked = asked_with(request, {"name", "words", "remove"});
  if (asked.refused) {
    return *asked.refused;
  }
  const TagQuestion question{text_of(asked, "name"), texts_of(asked, "words", k_most_words),
                             flag_of(asked, "remove", false)};
  if (asked.refused) {
    return *asked.refused;
  }
  if (question.name.empty() || question.words.empty()) {
    return problem_response(400, "Give 'name', a kept recipe, and 'words' to find it by.");
  }
  return library.tag ? said(library.tag(question)) : not_here();
}

}  // namespace

std::vector<Route> library_routes(const LibraryHandlers& library) {
  return {{"GET", "library",
           [library](const HttpRequest&, const std::string&) {
             return library.list ? said(library.list()) : not_here();
           }},
          {"POST", "library",
           [library](const HttpRequest& request, const std::string&) {
             return answer_keep(library, request);
           }},
          {"GET", "library/history",
           [library](const HttpRequest& request, const std::string&) {
             return answer_named(request, "name", "history?name=knots", library.history);
           }},
          {"GET", "library/search",
           [library](const HttpRequest& request, const std::string&) {
             return answer_named(request, "words", "search?words=cardamom", library.search);
           }},
          {"POST", "library/tags",
           [library](const HttpRequest& request, const std::string&) {
             return answer_tag(library, request);
           }},
          {"GET", "library/version", [library](const HttpRequest& request, const std::string&) {
             return answer_named(request, "of", "version?of=knots@2", library.version);
           }}};
}

}  // namespace maslin
