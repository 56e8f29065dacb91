// hand_on: a recipe as a card for another kitchen, in the form asked for.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/app.h"
#include "handon/handon.h"

namespace maslin {

struct HandOnRequest {
  Kitchen to;
  Kitchen from;          // where the recipe works
  std::string language;  // empty: by the kitchen's country
  ForecastOptions options{1, 256};
  std::string captions;  // of the clip, for the forms that are about one
  std::string ready_at;  // local time, for the forms that are about a day
};

/// One form a card can be given in. The table of them is the one place that knows them all.
struct CardFormat {
  std::string_view name;  // as after --as
  std::string_view content_type;
  bool text = true;  // else bytes, and only to a file
  Result<std::string> (*render)(const Tools&, const handon::Card&, const HandOnRequest&) = nullptr;
};
const std::vector<CardFormat>& card_formats();
/// "text, html, ..."
std::string card_format_names();
/// The format of that name; or the sentence that lists those there are.
Result<const CardFormat*> card_format_named(std::string_view name);

Result<handon::Card> carry_recipe(const Tools& tools, const Recipe& recipe,
                                  const HandOnRequest& request);

/// The card as {"card": document} and, when a form of text is asked for, {"as", "content_type",
/// "body"} beside it. Forms that are no text are a file of the terminal's.
Result<std::string> hand_on_document(const Tools& tools, const Recipe& recipe,
                                     const HandOnRequest& request, std::string_view format);

/// The recipe carried, and the card in that form.
Result<std::string> hand_on(const Tools& tools, const Recipe& recipe, const HandOnRequest& request,
                            std::string_view format);

}  // namespace maslin
