// Takes the place of card_pdf_form.cpp where there is no cairo and pango.
#include "app/card_forms.h"

namespace maslin {

Result<std::string> card_as_pdf(const Tools&, const handon::Card&, const HandOnRequest&) {
  return {std::nullopt, "This maslin was built without PDF; use --as html and print it."};
}

}  // namespace maslin
