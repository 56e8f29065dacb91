#include "app/hand_on.h"

#include "app/card_forms.h"
#include "handon/card_text.h"
#include "recipe/json.h"

namespace maslin {
namespace {

Result<std::string> as_text(const Tools& tools, const handon::Card& card, const HandOnRequest&) {
  return {handon::card_to_text(card, tools.pantry), ""};
}
Result<std::string> as_html(const Tools&, const handon::Card& card, const HandOnRequest&) {
  return {handon::card_to_html(card), ""};
}
Result<std::string> as_json(const Tools&, const handon::Card& card, const HandOnRequest&) {
  return {handon::card_to_json(card) + "\n", ""};
}

}  // namespace

const std::vector<CardFormat>& card_formats() {
  static const std::vector<CardFormat> k_formats{
      {"text", "text/plain; charset=utf-8", true, as_text},
      {"html", "text/html; charset=utf-8", true, as_html},
      {"json", "application/json", true, as_json},
      {"jsonld", "application/ld+json", true, card_as_jsonld},
      {"label", "text/plain; charset=utf-8", true, card_as_label},
      {"vtt", "text/vtt; charset=utf-8", true, card_as_vtt},
      {"srt", "application/x-subrip; charset=utf-8", true, card_as_srt},
      {"ics", "text/calendar; charset=utf-8", true, card_as_calendar},
      {"pdf", "application/pdf", false, card_as_pdf},
  };
  return k_formats;
}

std::string card_format_names() {
  std::string out;
  for (const CardFormat& format : card_formats()) {
    out += (out.empty() ? "" : ", ") + std::string(format.name);
  }
  return out;
}

Result<const CardFormat*> card_format_named(std::string_view name) {
  for (const CardFormat& format : card_formats()) {
    if (format.name == name) {
      return {&format, ""};
    }
  }
  return {std::nullopt, "A card cannot be given as \"" + std::string(name) + "\"; use one of " +
                            card_format_names() + "."};
}

Result<handon::Card> carry_recipe(const Tools& tools, const Recipe& recipe,
                                  const HandOnRequest& request) {
  handon::Card card = handon::carry(recipe, tools.pantry,
                                    {request.to, request.from, request.language, request.options});
  return card.problem.empty() ? Result<handon::Card>{std::move(card), ""}
                              : Result<handon::Card>{std::nullopt, card.problem};
}

Result<std::string> hand_on_document(const Tools& tools, const Recipe& recipe,
                                     const HandOnRequest& request, std::string_view format) {
  const Result<const CardFormat*> found = card_format_named(format.empty() ? "json" : format);
  if (!found.value) {
    return {std::nullopt, found.problem};
  }
  const CardFormat& form = **found.value;
  if (!form.text) {
    return {std::nullopt, "A card as " + std::string(form.name) +
                              " is a file: write it with maslin hand-on --as " +
                              std::string(form.name) + " --out FILE."};
  }
  const Result<handon::Card> card = carry_recipe(tools, recipe, request);
  if (!card.value) {
    return {std::nullopt, card.problem};
  }
  Json out{{"card", parse_json(handon::card_to_json(*card.value)).value_or(Json())}};
  if (!format.empty() && format != "json") {
    const Result<std::string> body = form.render(tools, *card.value, request);
    if (!body.value) {
      return {std::nullopt, body.problem};
    }
    out["as"] = std::string(form.name);
    out["content_type"] = std::string(form.content_type);
    out["body"] = *body.value;
  }
  return {json_text(out), ""};
}

Result<std::string> hand_on(const Tools& tools, const Recipe& recipe, const HandOnRequest& request,
                            std::string_view format) {
  const Result<const CardFormat*> found = card_format_named(format);
  if (!found.value) {
    return {std::nullopt, found.problem};
  }
  const Result<handon::Card> card = carry_recipe(tools, recipe, request);
  return card.value ? (*found.value)->render(tools, *card.value, request)
                    : Result<std::string>{std::nullopt, card.problem};
}

}  // namespace maslin
