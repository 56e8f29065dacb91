// asked: what the addresses of the interface share: reading a request as JSON of known
// keys, and saying an answer. Included by the files that hold addresses alone.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <initializer_list>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "server/answer.h"
#include "server/http.h"

namespace maslin {

/// One address below /api/v1/. A segment in braces, "trials/{id}/notes", stands for any
/// one word, which `answer` is given; without braces it is given nothing.
struct Route {
  std::string method;
  std::string name;
  std::function<HttpResponse(const HttpRequest&, const std::string& word)> answer;
};

/// 200 with the document, or 422 with the sentence.
HttpResponse said(const ApiAnswer& answer);
/// 501: the function behind the address is not there.
HttpResponse not_here();

/// The body as a JSON object whose keys are all among `known`, or the refusal. The
/// functions below read one key of it; of a wrong type they set `refused`.
struct Asked {
  nlohmann::json document;
  std::optional<HttpResponse> refused;
};
Asked asked_with(const HttpRequest& request, std::initializer_list<std::string_view> known);

/// The text of `key`, empty when it is missing.
std::string text_of(Asked& asked, const char* key);
/// An object as its JSON text, empty when it is missing.
std::string object_of(Asked& asked, const char* key);
/// A list as its JSON text, empty when it is missing.
std::string list_of(Asked& asked, const char* key);
/// A list of texts, empty when it is missing.
std::vector<std::string> texts_of(Asked& asked, const char* key, std::size_t most);
std::optional<std::uint64_t> whole_number_of(Asked& asked, const char* key, std::uint64_t least,
                                             std::uint64_t most);

/// Seed and draws of a forecast, where the question has them.
template <typename Question>
void take_draws(Asked& asked, Question& question);

/// The refusal so far, or that of a question without a recipe, or with two.
template <typename Question>
std::optional<HttpResponse> refusal_of(const Asked& asked, const Question& question);

/// True or false; `otherwise` when it is missing.
bool flag_of(Asked& asked, const char* key, bool otherwise);

std::optional<double> number_of(Asked& asked, const char* key, double least, double most);

/// The most draws one request may ask for, and the largest seed: whole numbers above 2^53 do
/// not survive a browser.
inline constexpr std::uint32_t k_draws_limit = 16384;
inline constexpr std::uint64_t k_seed_limit = (1ULL << 53) - 1;

/// The value of one key in a query, decoded (plus is a space, %41 is A).
std::string query_value(std::string_view query, std::string_view key);

/// 400: neither a recipe nor a text, or both.
HttpResponse not_one_recipe();

template <typename Question>
void take_draws(Asked& asked, Question& question) {
  question.seed = whole_number_of(asked, "seed", 0, k_seed_limit);
  if (const auto draws = whole_number_of(asked, "draws", 1, k_draws_limit)) {
    question.draws = static_cast<std::uint32_t>(*draws);
  }
}

template <typename Question>
std::optional<HttpResponse> refusal_of(const Asked& asked, const Question& question) {
  if (asked.refused || question.recipe_json.empty() != question.text.empty()) {
    return asked.refused;
  }
  return not_one_recipe();
}

}  // namespace maslin
