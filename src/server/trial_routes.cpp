#include "server/trial_routes.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "server/asked.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

constexpr std::uint64_t k_most = (1ULL << 53) - 1;  // whole numbers a browser can hold

/// The number of a trial from its address; nothing when it is none.
std::optional<std::int64_t> trial_number(const std::string& word) {
  constexpr std::size_t k_longest = 15;
  if (word.empty() || word.size() > k_longest ||
      word.find_first_not_of("0123456789") != std::string::npos) {
    return std::nullopt;
  }
  std::int64_t out = 0;
  for (const char digit : word) {
    out = 10 * out + (digit - '0');
  }
  return out;
}

HttpResponse no_number() {
  return problem_response(404, "A trial has a number: /api/v1/trials/3");
}

HttpResponse answer_start(const TrialHandlers& handlers, const HttpRequest& request) {
  Asked asked =
      asked_with(request, {"recipe", "text", "version", "name", "kitchen", "kitchen_name"});
  if (asked.refused) {
    return *asked.refused;
  }
  const StartQuestion question{object_of(asked, "recipe"),  text_of(asked, "text"),
                               text_of(asked, "version"),   text_of(asked, "name"),
                               object_of(asked, "kitchen"), text_of(asked, "kitchen_name")};
  if (asked.refused) {
    return *asked.refused;
  }
  const int given = static_cast<int>(!question.recipe_json.empty()) +
                    static_cast<int>(!question.text.empty()) +
                    static_cast<int>(!question.version.empty());
  if (given != 1) {
    return problem_response(
        400, "Give one of 'recipe' (what read gave), 'text', or 'version' (a kept one's name).");
  }
  return handlers.start ? said(handlers.start(question)) : not_here();
}

constexpr std::size_t k_longest_key = 100;

HttpResponse long_key() {
  return problem_response(400, "'key' is longer than 100 bytes.");
}

HttpResponse answer_add_picture(const TrialHandlers& handlers, const HttpRequest& request,
                                std::int64_t trial) {
  constexpr std::array<std::string_view, 3> k_kinds{"image/jpeg", "image/png", "image/webp"};
  if (std::find(k_kinds.begin(), k_kinds.end(), request.content_type) == k_kinds.end()) {
    return problem_response(
        415, "Send a picture, with Content-Type: image/jpeg, image/png or image/webp.");
  }
  const PictureNote note{trial, request.body, query_value(request.query, "text"),
                         query_value(request.query, "key"), query_value(request.query, "at")};
  if (note.key.size() > k_longest_key) {
    return long_key();
  }
  return handlers.add_picture ? said(handlers.add_picture(note)) : not_here();
}

HttpResponse answer_picture(const TrialHandlers& handlers, const std::string& id) {
  constexpr std::size_t k_digits = 64;
  if (id.size() != k_digits || id.find_first_not_of("0123456789abcdef") != std::string::npos) {
    return problem_response(404, "A picture has an id of 64 digits, as its note names it.");
  }
  if (!handlers.picture) {
    return not_here();
  }
  PictureAnswer picture = handlers.picture(id);
  if (!picture.problem.empty()) {
    return problem_response(404, picture.problem);
  }
  HttpResponse response;
  response.content_type = std::move(picture.content_type);
  response.body = std::move(picture.bytes);
  // Named by what is in it, it never changes; it is for this device alone.
  response.headers.emplace_back("Cache-Control", "private, max-age=31536000, immutable");
  return response;
}

HttpResponse answer_note(const TrialHandlers& handlers, const HttpRequest& request,
                         std::int64_t trial) {
  Asked asked = asked_with(request, {"text", "key", "at", "instead_of", "certainty"});
  if (asked.refused) {
    return *asked.refused;
  }
  NoteQuestion question;
  question.trial = trial;
  question.text = text_of(asked, "text");
  question.key = text_of(asked, "key");
  question.at = text_of(asked, "at");
  question.certainty = text_of(asked, "certainty");
  if (const auto number = whole_number_of(asked, "instead_of", 1, k_most)) {
    question.instead_of = static_cast<std::int64_t>(*number);
  }
  question.gone = request.gone;
  if (asked.refused) {
    return *asked.refused;
  }
  if (question.key.size() > k_longest_key) {
    return long_key();
  }
  if (!question.certainty.empty() && question.certainty != "sure" && question.certainty != "ask") {
    return problem_response(400, "'certainty' is to be \"sure\" or \"ask\".");
  }
  return handlers.note ? said(handlers.note(question)) : not_here();
}

HttpResponse answer_mark(const TrialHandlers& handlers, const HttpRequest& request,
                         std::int64_t trial) {
  constexpr std::uint64_t k_most_steps = 10000;
  Asked asked = asked_with(request, {"step", "mark", "at"});
  if (asked.refused) {
    return *asked.refused;
  }
  MarkQuestion question;
  question.trial = trial;
  const auto step = whole_number_of(asked, "step", 1, k_most_steps);
  question.mark = text_of(asked, "mark");
  question.at = text_of(asked, "at");
  if (asked.refused) {
    return *asked.refused;
  }
  if (!step || (question.mark != "begun" && question.mark != "done" && question.mark != "undone")) {
    return problem_response(400, "Give 'step' (its number) and 'mark' (begun, done or undone).");
  }
  question.step = *step;
  return handlers.mark ? said(handlers.mark(question)) : not_here();
}

HttpResponse answer_learnt(const TrialHandlers& handlers, const HttpRequest& request) {
  const std::string name = query_value(request.query, "name");
  if (name.empty()) {
    return problem_response(400, "Name a kitchen that is kept: /api/v1/kitchen/learnt?name=flat");
  }
  return handlers.learnt ? said(handlers.learnt(name)) : not_here();
}

HttpResponse answer_next(const TrialHandlers& handlers, const HttpRequest& request) {
  const NextQuestion question{query_value(request.query, "name"),
                              query_value(request.query, "sense"), request.gone};
  if (question.recipe.empty()) {
    return problem_response(400, "Name a recipe that is kept: /api/v1/library/next?name=knots");
  }
  return handlers.next ? said(handlers.next(question)) : not_here();
}

HttpResponse answer_unlearn(const TrialHandlers& handlers, const HttpRequest& request) {
  Asked asked = asked_with(request, {"kitchen", "trial"});
  if (asked.refused) {
    return *asked.refused;
  }
  UnlearnQuestion question;
  question.kitchen = text_of(asked, "kitchen");
  const auto trial = whole_number_of(asked, "trial", 1, k_most);
  question.gone = request.gone;
  if (asked.refused) {
    return *asked.refused;
  }
  if (question.kitchen.empty() || !trial) {
    return problem_response(400, "Give 'kitchen' (its name) and 'trial' (its number).");
  }
  question.trial = static_cast<std::int64_t>(*trial);
  return handlers.unlearn ? said(handlers.unlearn(question)) : not_here();
}

using TrialHandler = std::function<ApiAnswer(const TrialQuestion&)>;

/// An address that needs no more than the trial's number.
Route about_trial(const char* method, const char* name, const TrialHandler& handler) {
  return {method, name, [handler](const HttpRequest& request, const std::string& word) {
            const auto number = trial_number(word);
            if (!number) {
              return no_number();
            }
            const bool forecast = query_value(request.query, "forecast") != "no";
            return handler ? said(handler({*number, forecast, request.gone})) : not_here();
          }};
}

/// One whose body says more.
Route told_trial(const char* name, const TrialHandlers& handlers,
                 HttpResponse (*answer)(const TrialHandlers&, const HttpRequest&, std::int64_t)) {
  return {"POST", name, [handlers, answer](const HttpRequest& request, const std::string& word) {
            const auto number = trial_number(word);
            return number ? answer(handlers, request, *number) : no_number();
          }};
}

}  // namespace

std::vector<Route> trial_routes(const TrialHandlers& handlers) {
  return {{"POST", "trials",
           [handlers](const HttpRequest& request, const std::string&) {
             return answer_start(handlers, request);
           }},
          {"GET", "trials",
           [handlers](const HttpRequest&, const std::string&) {
             return handlers.list ? said(handlers.list()) : not_here();
           }},
          told_trial("trials/{id}/notes", handlers, answer_note),
          told_trial("trials/{id}/pictures", handlers, answer_add_picture),
          {"GET", "pictures/{id}",
           [handlers](const HttpRequest&, const std::string& id) {
             return answer_picture(handlers, id);
           }},
          told_trial("trials/{id}/steps", handlers, answer_mark),
          about_trial("GET", "trials/{id}", handlers.show),
          about_trial("POST", "trials/{id}/close", handlers.close),
          about_trial("POST", "trials/{id}/reopen", handlers.reopen),
          about_trial("GET", "trials/{id}/diagnosis", handlers.diagnose),
          {"GET", "library/next",
           [handlers](const HttpRequest& request, const std::string&) {
             return answer_next(handlers, request);
           }},
          {"GET", "kitchen/learnt",
           [handlers](const HttpRequest& request, const std::string&) {
             return answer_learnt(handlers, request);
           }},
          {"POST", "kitchen/unlearn", [handlers](const HttpRequest& request, const std::string&) {
             return answer_unlearn(handlers, request);
           }}};
}

}  // namespace maslin
