#include "finish/jobs.h"

#include <algorithm>
#include <optional>
#include <string>

#include "finish/coating.h"

namespace maslin {
namespace {

enum class Job { with_another, wash, strewn, coating, icing, syrup };

Job job_of(const Ingredient& one) {
  switch (one.kind) {
    case IngredientKind::egg:
      // White alone is as often the liquid of an icing.
      return one.composition[Component::fat] > 0.05 ? Job::wash : Job::with_another;
    case IngredientKind::nut:
    case IngredientKind::seed:
    case IngredientKind::topping:
      return Job::strewn;
    case IngredientKind::chocolate:
      return melts_to_a_coat(one) ? Job::coating : Job::with_another;
    case IngredientKind::sugar:
      // Icing sugar is milled with starch.
      return one.composition[Component::starch] > 0.0 ? Job::icing : Job::with_another;
    case IngredientKind::preserve:
    case IngredientKind::syrup:
      return Job::syrup;
    default:
      return Job::with_another;
  }
}

struct Group {
  Job job = Job::with_another;
  std::string lead;
  Portions portions;
};

/// Lines in order, each behind what leads it; the leaderless go to the first leader that is
/// not strewn.
std::vector<Group> grouped(const Portions& portions) {
  std::vector<Group> out;
  Portions leaderless;
  std::size_t at = 0;  // of the leader that the next thing joins
  for (const Portions::Item& item : portions.items) {
    const Job job = job_of(*item.ingredient);
    if (job == Job::with_another) {
      (out.empty() ? leaderless : out[at].portions).items.push_back(item);
      continue;
    }
    std::size_t place = 0;
    while (place < out.size() && out[place].job != job) {
      ++place;
    }
    if (place == out.size()) {
      out.push_back({job, item.ingredient->name, {}});
    }
    out[place].portions.items.push_back(item);
    if (job != Job::strewn || out.size() == 1) {
      at = place;
    }
  }
  const auto first = std::find_if(out.begin(), out.end(),
                                  [](const Group& group) { return group.job != Job::strewn; });
  if (first != out.end()) {
    first->portions.items.insert(first->portions.items.begin(), leaderless.items.begin(),
                                 leaderless.items.end());
  }
  return out;
}

const Group* find(const std::vector<Group>& groups, Job job) {
  const auto at = std::find_if(groups.begin(), groups.end(),
                               [job](const Group& group) { return group.job == job; });
  return at == groups.end() ? nullptr : &*at;
}

/// Chocolate beaten into an icing is one thing: two are told by an icing with a liquid of its own.
bool one_icing(const std::vector<Group>& groups) {
  const Group* icing = find(groups, Job::icing);
  if (icing == nullptr || find(groups, Job::coating) == nullptr) {
    return false;
  }
  return !std::any_of(icing->portions.items.begin(), icing->portions.items.end(),
                      [](const Portions::Item& item) {
                        return item.ingredient->composition[Component::water] > 0.5;
                      });
}

}  // namespace

std::vector<FinishPart> jobs_of(const FinishPart& part) {
  const bool may =
      part.kind == PartKind::glaze || part.kind == PartKind::wash || part.kind == PartKind::topping;
  const std::vector<Group> groups =
      may && !part.boiled ? grouped(part.portions) : std::vector<Group>();
  const auto led = std::count_if(groups.begin(), groups.end(),
                                 [](const Group& group) { return group.job != Job::strewn; });
  const bool strewn_apart =
      find(groups, Job::strewn) != nullptr &&
      (find(groups, Job::icing) != nullptr || find(groups, Job::coating) != nullptr ||
       find(groups, Job::wash) != nullptr);
  std::size_t kept = 0;
  for (const Group& group : groups) {
    kept += group.portions.items.size();
  }
  const Group* coat = find(groups, Job::coating);
  const bool melted = coat != nullptr && coat->portions.items.size() > 1;
  // Things that no leader takes in make one paste of it all.
  if ((led < 2 && !strewn_apart && !melted) || kept != part.portions.items.size() ||
      one_icing(groups)) {
    return {part};
  }
  std::vector<FinishPart> out;
  for (const Group& group : groups) {
    FinishPart job = part;
    job.portions = group.portions;
    if (led > 1 || group.job == Job::strewn) {
      job.name = part.name + ": " + group.lead;
    }
    switch (group.job) {
      case Job::wash:
        job.kind = PartKind::wash;
        job.baked = true;
        break;
      case Job::coating:
      case Job::icing:
        job.kind = PartKind::glaze;
        job.baked = false;
        break;
      case Job::syrup:
      case Job::strewn:
      case Job::with_another:
        break;
    }
    out.push_back(std::move(job));
  }
  return out;
}

}  // namespace maslin
