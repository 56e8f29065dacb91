// card_forms: the forms of a card that are for other programs, a clip, a calendar or paper.
#pragma once

#include <string>

#include "app/hand_on.h"

namespace maslin {

/// schema.org/Recipe, with the times of that kitchen and the nutrition of a piece.
Result<std::string> card_as_jsonld(const Tools& tools, const handon::Card& card,
                                   const HandOnRequest& request);
/// The label of the carried recipe by the rules of that country.
Result<std::string> card_as_label(const Tools& tools, const handon::Card& card,
                                  const HandOnRequest& request);
/// What a clip whose captions are in the request shows on screen.
Result<std::string> card_as_vtt(const Tools& tools, const handon::Card& card,
                                const HandOnRequest& request);
Result<std::string> card_as_srt(const Tools& tools, const handon::Card& card,
                                const HandOnRequest& request);
/// The day in that kitchen, ready at the hour in the request.
Result<std::string> card_as_calendar(const Tools& tools, const handon::Card& card,
                                     const HandOnRequest& request);
/// Pages on the paper of that country; a sentence where the program was built without.
Result<std::string> card_as_pdf(const Tools& tools, const handon::Card& card,
                                const HandOnRequest& request);

}  // namespace maslin
