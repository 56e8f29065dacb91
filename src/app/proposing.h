// proposing: what to change for the next bake of a recipe, and why.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "adjust/next_trial.h"
#include "app/comparing.h"
#include "app/diagnosing.h"

namespace maslin {

struct NextRequest {
  std::string recipe;  // the name it is kept under
  std::string sense;   // which score counts; empty: the mean of all that a bake was given
  std::vector<AmountLimit> limits;
  LiveOptions options;
};

/// One fault of the last bake, its likeliest cause with a mend, and the changed recipe.
struct ProposedMend {
  std::string fault;
  Cause cause;
  Recipe recipe;
  RecipeDifference difference;
};

struct ProposedNext {
  std::string recipe;
  std::string sense;
  int scored = 0;                      // bakes with such a score
  std::optional<NextTrial> next;       // with three or more
  std::string why_not;                 // why there is none
  std::vector<ComparedFigure> effect;  // of the proposal beside the best bake so far
  std::optional<std::int64_t> last;    // the trial whose faults the mends are for
  std::vector<ProposedMend> mends;
};
Result<ProposedNext> propose_next(const Tools& tools, Store& store, const NextRequest& request);

/// docs/schema/next.schema.json
std::string proposed_to_json(const ProposedNext& proposed);
std::string proposed_report(const ProposedNext& proposed);

}  // namespace maslin
