#pragma once

#include <string>
#include <vector>

#include "reading/draft.h"
#include "reading/words.h"

namespace maslin::reading {

/// How likely the recipe was written with the measures of a place.
struct PlaceShare {
  std::string locale;
  double probability = 0.0;
};

/// The likely places, most likely first, by the words, units, spellings and scales of
/// the text: sums of log-likelihood ratios from places.tsv over a prior. Shares below
/// 2 % are left out; the rest sum to 1.
std::vector<PlaceShare> infer_places(const Draft& draft, const Lexicons& lexicons,
                                     const Lexicon& lexicon);

}  // namespace maslin::reading
