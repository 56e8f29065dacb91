#include "server/picture_routes.h"

#include "server/asked.h"
#include "server/http_guard.h"

namespace maslin {
namespace {

HttpResponse answer_picture(const PictureHandler& picture, const HttpRequest& request) {
  Asked asked = asked_with(request, {"recipe", "text", "kitchen"});
  if (asked.refused) {
    return *asked.refused;
  }
  PictureQuestion question;
  question.recipe_json = object_of(asked, "recipe");
  question.text = text_of(asked, "text");
  question.kitchen_json = object_of(asked, "kitchen");
  if (const auto refused = refusal_of(asked, question)) {
    return *refused;
  }
  return picture ? said(picture(question)) : not_here();
}

}  // namespace

std::vector<Route> picture_routes(const PictureHandler& picture) {
  return {{"POST", "bake-picture", [picture](const HttpRequest& request, const std::string&) {
             return answer_picture(picture, request);
           }}};
}

}  // namespace maslin
