// What the functions behind the interface share: answers, and what a question carries.
#pragma once

#include <string>
#include <utility>

#include "app/app.h"
#include "app/library.h"
#include "server/answer.h"

namespace maslin {

inline ApiAnswer answer_of(std::string json) {
  return {true, std::move(json), ""};
}
inline ApiAnswer problem_of(std::string sentence) {
  return {false, "", std::move(sentence)};
}

/// A recipe's document, else found text.
inline Result<Recipe> recipe_asked(const Tools& tools, const std::string& json,
                                   const std::string& text) {
  return read_recipe(tools, {json.empty() ? text : json, "", ""});
}
/// A kitchen's document; without one a kitchen of which nothing is known.
inline Result<Kitchen> kitchen_asked(const std::string& json) {
  return json.empty() ? Result<Kitchen>{Kitchen(), ""} : read_kitchen(json);
}

/// What `use` answers of the question's recipe and kitchen, or why one cannot be read.
template <typename Question, typename Use>
ApiAnswer of_recipe(const Tools& tools, const Question& question, const Use& use) {
  const Result<Recipe> recipe = recipe_asked(tools, question.recipe_json, question.text);
  Result<Kitchen> kitchen = kitchen_asked(question.kitchen_json);
  if (!recipe.value || !kitchen.value) {
    return problem_of(recipe.value ? kitchen.problem : recipe.problem);
  }
  return use(*recipe.value, std::move(*kitchen.value));
}

/// What `ask` answers of the store, as a document.
template <typename Ask, typename Write>
ApiAnswer of_store(const std::string& file, const Ask& ask, const Write& write) {
  Result<Store> store = open_store(file);
  if (!store.value) {
    return problem_of(store.problem);
  }
  const auto answer = ask(*store.value);
  return answer.value ? answer_of(write(*answer.value)) : problem_of(answer.problem);
}

}  // namespace maslin
