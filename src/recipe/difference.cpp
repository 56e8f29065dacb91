#include "recipe/difference.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "quantity/number_text.h"

namespace maslin {
namespace {

const Ingredient* ingredient_of(const Line& line, const Pantry& pantry) {
  return line.ingredient_id.empty() ? nullptr : pantry.find(line.ingredient_id);
}

double flour_grams(const Recipe& recipe, const Pantry& pantry) {
  double out = 0.0;
  for (const Part& part : recipe.parts) {
    const bool rises = part.kind == PartKind::dough || part.kind == PartKind::preferment ||
                       part.kind == PartKind::soaker;
    for (const Line& line : part.lines) {
      const Ingredient* one = ingredient_of(line, pantry);
      out += rises && one != nullptr && one->kind == IngredientKind::flour ? line.grams.p50() : 0.0;
    }
  }
  return out;
}

std::string name_of(const Line& line, const Pantry& pantry) {
  const Ingredient* one = ingredient_of(line, pantry);
  return !line.part.empty()   ? line.part
         : one != nullptr     ? one->name
         : !line.name.empty() ? line.name
                              : line.text;
}

struct Summed {
  std::string name;
  std::string ingredient_id;
  double grams = 0.0;
};

/// The lines of a part by name, in their order.
std::vector<Summed> summed(const Recipe& recipe, const std::string& part, const Pantry& pantry) {
  std::vector<Summed> out;
  for (const Part& one : recipe.parts) {
    for (const Line& line : one.name == part ? one.lines : std::vector<Line>()) {
      const std::string name = name_of(line, pantry);
      const auto same = std::find_if(out.begin(), out.end(),
                                     [&](const Summed& known) { return known.name == name; });
      if (same == out.end()) {
        out.push_back({name, line.ingredient_id, line.grams.p50()});
      } else {
        same->grams += line.grams.p50();
      }
    }
  }
  return out;
}

const Summed* named(const std::vector<Summed>& lines, const std::string& name) {
  for (const Summed& one : lines) {
    if (one.name == name) {
      return &one;
    }
  }
  return nullptr;
}

std::optional<LineAmountNow> amount_of(const Summed* line, double flour) {
  if (line == nullptr) {
    return std::nullopt;
  }
  LineAmountNow out{line->grams, std::nullopt};
  if (flour > 0.0) {
    out.pct_flour = 100.0 * line->grams / flour;
  }
  return out;
}

bool alike(const std::optional<LineAmountNow>& before, const std::optional<LineAmountNow>& after) {
  constexpr double k_large_g = 20.0;
  if (!before || !after) {
    return false;
  }
  const double division = std::max(before->grams, after->grams) >= k_large_g ? 0.5 : 0.05;
  return std::fabs(before->grams - after->grams) < division;
}

std::string range_text(const std::optional<Range>& range) {
  if (!range) {
    return "";
  }
  const std::string low = number_text(range->low, 1);
  return range->high > range->low ? low + " to " + number_text(range->high, 1) : low;
}

/// Steps of a part under names of their own: "prove", or "prove 1" and "prove 2".
std::vector<std::pair<std::string, const Step*>> named_steps(const Recipe& recipe,
                                                             const std::string& part) {
  std::vector<std::pair<std::string, const Step*>> out;
  std::map<StepKind, int> count;
  for (const Part& one : recipe.parts) {
    for (const Step& step : one.name == part ? one.steps : std::vector<Step>()) {
      ++count[step.kind];
    }
  }
  std::map<StepKind, int> seen;
  for (const Part& one : recipe.parts) {
    if (one.name != part) {
      continue;
    }
    for (const Step& step : one.steps) {
      const std::string number =
          count[step.kind] > 1 ? " " + std::to_string(++seen[step.kind]) : "";
      out.emplace_back(std::string(step_kind_name(step.kind)) + number, &step);
    }
  }
  return out;
}

void compare_steps(const std::string& part, const std::string& name, const Step* before,
                   const Step* after, std::vector<StepDifference>& out) {
  if (before == nullptr || after == nullptr) {
    const auto said = [](const Step* step) {
      return step == nullptr ? "" : step->text.empty() ? "there" : step->text;
    };
    out.push_back({part, name, "step", said(before), said(after)});
    return;
  }
  const auto add = [&](const char* what, std::string was, std::string is) {
    if (was != is) {
      out.push_back({part, name, what, std::move(was), std::move(is)});
    }
  };
  add("minutes", range_text(before->minutes), range_text(after->minutes));
  add("°C", range_text(before->celsius), range_text(after->celsius));
  add("until", before->until, after->until);
  add("pieces", range_text(before->pieces), range_text(after->pieces));
  add("place", before->place, after->place);
}

std::vector<std::string> part_names(const Recipe& before, const Recipe& after) {
  std::vector<std::string> out;
  for (const Recipe* recipe : {&before, &after}) {
    for (const Part& part : recipe->parts) {
      if (std::find(out.begin(), out.end(), part.name) == out.end()) {
        out.push_back(part.name);
      }
    }
  }
  return out;
}

void compare_steps(const std::string& part, const Recipe& before, const Recipe& after,
                   std::vector<StepDifference>& out) {
  const auto was = named_steps(before, part);
  const auto is = named_steps(after, part);
  const auto find = [](const auto& steps, const std::string& name) -> const Step* {
    for (const auto& [known, step] : steps) {
      if (known == name) {
        return step;
      }
    }
    return nullptr;
  };
  for (const auto& [name, step] : was) {
    compare_steps(part, name, step, find(is, name), out);
  }
  for (const auto& [name, step] : is) {
    if (find(was, name) == nullptr) {
      compare_steps(part, name, nullptr, step, out);
    }
  }
}

}  // namespace

RecipeDifference difference_of(const Recipe& before, const Recipe& after, const Pantry& pantry) {
  RecipeDifference out;
  const double flour_before = flour_grams(before, pantry);
  const double flour_after = flour_grams(after, pantry);
  for (const std::string& part : part_names(before, after)) {
    const std::vector<Summed> was = summed(before, part, pantry);
    std::vector<Summed> names = was;
    const std::vector<Summed> is = summed(after, part, pantry);
    for (const Summed& one : is) {
      if (named(was, one.name) == nullptr) {
        names.push_back(one);
      }
    }
    for (const Summed& one : names) {
      LineDifference line{part, one.name, one.ingredient_id,
                          amount_of(named(was, one.name), flour_before),
                          amount_of(named(is, one.name), flour_after)};
      if (!alike(line.before, line.after)) {
        out.lines.push_back(std::move(line));
      }
    }
    compare_steps(part, before, after, out.steps);
  }
  return out;
}

}  // namespace maslin
