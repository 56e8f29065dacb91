// What recipe and kitchen documents share: tins, prices, and the list of what is wrong.
// Private to the folder.
#pragma once

#include <string>
#include <vector>

#include "recipe/json.h"
#include "recipe/price_list.h"
#include "recipe/recipe_json.h"

namespace maslin {

constexpr std::size_t k_most_document_bytes = 4U << 20U;

/// Collects what is wrong while a document is read, up to 20 problems.
class Complaints {
 public:
  std::vector<Problem> problems;
  void complain(std::string where, std::string what, std::string mend);
};

Json tin_json(const Tin& tin);
/// A side that is not between 0 and 10 m is complained of and left out.
Tin tin_from(const Json& value, const std::string& where, Complaints& complaints);

Json prices_json(const PriceList& list);
PriceReading prices_from(const Json& document);

}  // namespace maslin
