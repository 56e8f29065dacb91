#include "app/card_forms.h"
#include "print/card_pdf.h"

namespace maslin {

Result<std::string> card_as_pdf(const Tools&, const handon::Card& card, const HandOnRequest&) {
  std::string pdf = print::card_to_pdf(card, print::paper_of(card.kitchen.country));
  return pdf.empty() ? Result<std::string>{std::nullopt,
                                           "The pages cannot be made; use --as html and print it."}
                     : Result<std::string>{std::move(pdf), ""};
}

}  // namespace maslin
