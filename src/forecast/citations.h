// Which model and which published checks stand behind a figure of a forecast.
#pragma once

#include <string>
#include <vector>

namespace maslin {

/// How many published figures a subject of docs/checks.md holds, and how many were met.
struct ChecksHeld {
  std::string subject;
  int figures = 0;
  int met = 0;
};

struct Citation {
  std::string figure;    // its place in the forecast document: "dough.feel"
  std::string model;     // what the model is, in a few words
  std::string document;  // where it is stated
  std::vector<ChecksHeld> checks;
};

/// From data/citations.tsv and data/checks.tsv.
std::vector<Citation> citations();

}  // namespace maslin
