#include "forecast/lasting.h"

#include <algorithm>
#include <cmath>

namespace maslin {
namespace {

bool is_log(const Distribution& prior) {
  return prior.shape == Shape::lognormal;
}

double natural_middle(const Distribution& prior) {
  return is_log(prior) ? log_same(prior.a) : prior.a;
}

/// The distribution of that shape about a natural mean and variance.
Distribution natural(Shape shape, double mean, double variance) {
  return {shape, shape == Shape::lognormal ? exp_same(mean) : mean, std::sqrt(variance), 0.0};
}

/// The ingredient of this kind that the dough holds most of; empty when there is none.
std::string main_ingredient(const Bowls& bowls, IngredientKind kind) {
  std::string out;
  double most = 0.0;
  for (const Bowls::Bowl& bowl : bowls.bowls) {
    for (const LineAmount& line : bowl.lines) {
      const bool fits = line.ingredient != nullptr && line.ingredient->kind == kind;
      const double grams = fits ? std::max(line.grams.p50(), line.solved ? 1.0 : 0.0) : 0.0;
      if (grams > most) {
        most = grams;
        out = line.ingredient->id;
      }
    }
  }
  return out;
}

/// "flour_absorption@plain_flour": what belongs to a bag is kept by what is in the bag, what
/// belongs to a recipe by its title.
std::string lasting_name(const ForecastSetup& setup, const Unknown& unknown) {
  if (unknown.belongs == "recipe") {
    const bool named = setup.recipe != nullptr && !setup.recipe->title.empty();
    return unknown.name + "@" + (named ? setup.recipe->title : "recipe");
  }
  const Bowls& bowls = setup.bowls;
  const auto kind = unknown.belongs == "flour"   ? std::optional(IngredientKind::flour)
                    : unknown.belongs == "yeast" ? std::optional(IngredientKind::yeast)
                                                 : std::nullopt;
  const std::string of = kind ? main_ingredient(bowls, *kind) : "";
  return of.empty() ? unknown.name : unknown.name + "@" + of;
}

/// The place of a name among what the kitchen has learnt under the same description. A recipe
/// that was changed a little is still that recipe.
std::optional<std::size_t> learnt_place(const KitchenLessons& lessons, const std::string& name,
                                        const Distribution& described) {
  for (std::size_t i = 0; i < lessons.unknowns.size(); ++i) {
    const LearntUnknown& one = lessons.unknowns[i];
    if (one.name == name) {
      const double near = name.starts_with("bake_pace@") ? 0.15 : 1e-9;
      const bool same = std::fabs(one.described_a - described.a) < near &&
                        std::fabs(one.described_b - described.b) < 1e-9;
      return same ? std::optional(i) : std::nullopt;
    }
  }
  return std::nullopt;
}

SquareMatrix sum_with_diagonal(SquareMatrix matrix, const std::vector<double>& diagonal) {
  for (std::size_t i = 0; i < matrix.size; ++i) {
    matrix.at(i, i) += diagonal[i];
  }
  return matrix;
}

/// How the natural values of the lasting unknowns on that day moved: mean and covariance,
/// less what they were before.
struct Moved {
  std::vector<double> mean;
  SquareMatrix covariance;
};

Moved moved(const Lasting& lasting, const Scores& scores, const Inkling& inkling) {
  const std::size_t count = lasting.size();
  Moved out{std::vector<double>(count, 0.0), SquareMatrix(count)};
  std::vector<std::vector<double>> along;  // each direction on the natural scale
  for (const std::vector<double>& direction : inkling.directions) {
    std::vector<double>& natural_direction = along.emplace_back(count, 0.0);
    for (std::size_t i = 0; i < count; ++i) {
      for (std::size_t j = 0; j < count; ++j) {
        natural_direction[i] +=
            scores.factor.at(lasting.score[i], lasting.score[j]) * direction[lasting.score[j]];
      }
    }
  }
  for (std::size_t a = 0; a < along.size(); ++a) {
    for (std::size_t i = 0; i < count; ++i) {
      out.mean[i] += inkling.mean[a] * along[a][i];
      for (std::size_t b = 0; b < along.size(); ++b) {
        const double change = inkling.covariance.at(a, b) - (a == b ? 1.0 : 0.0);
        for (std::size_t j = 0; j < count; ++j) {
          out.covariance.at(i, j) += change * along[a][i] * along[b][j];
        }
      }
    }
  }
  return out;
}

}  // namespace

Lasting lasting_of(const ForecastSetup& setup) {
  Lasting out;
  const KitchenLessons& lessons = setup.kitchen.learnt;
  std::vector<std::optional<std::size_t>> places;
  for (std::size_t s = 0; s < setup.scores.size(); ++s) {
    const Unknown& unknown = setup.unknowns[setup.scores.unknown[s]];
    if (!unknown.lasts) {
      continue;
    }
    const Distribution& described = unknown.described.value_or(unknown.prior);
    out.score.push_back(s);
    out.name.push_back(lasting_name(setup, unknown));
    out.described.push_back(described);
    places.push_back(learnt_place(lessons, out.name.back(), described));
    out.mean.push_back(places.back() ? lessons.unknowns[*places.back()].mean
                                     : natural_middle(described));
    out.day_variance.push_back(unknown.day * described.b * described.b);
  }
  out.covariance = SquareMatrix(out.size());
  for (std::size_t i = 0; i < out.size(); ++i) {
    out.covariance.at(i, i) = out.described[i].b * out.described[i].b - out.day_variance[i];
    for (std::size_t j = 0; places[i] && j < out.size(); ++j) {
      if (places[j]) {
        out.covariance.at(i, j) =
            lessons.covariance[*places[i] * lessons.unknowns.size() + *places[j]];
      }
    }
  }
  return out;
}

void take_lessons(ForecastSetup& setup) {
  const KitchenLessons& lessons = setup.kitchen.learnt;
  if (lessons.unknowns.empty() ||
      lessons.covariance.size() != lessons.unknowns.size() * lessons.unknowns.size()) {
    return;
  }
  const Lasting lasting = lasting_of(setup);
  const SquareMatrix total = sum_with_diagonal(lasting.covariance, lasting.day_variance);
  const SquareMatrix factor = lower_factor(total);
  for (std::size_t i = 0; i < lasting.size(); ++i) {
    Unknown& unknown = setup.unknowns[setup.scores.unknown[lasting.score[i]]];
    unknown.described = lasting.described[i];
    unknown.prior = natural(unknown.prior.shape, lasting.mean[i], total.at(i, i));
    setup.scores.mean[lasting.score[i]] = lasting.mean[i];
    for (std::size_t j = 0; j <= i; ++j) {
      setup.scores.factor.at(lasting.score[i], lasting.score[j]) = factor.at(i, j);
    }
  }
  setup.scores.joint = true;
}

namespace {

/// All that the kitchen has learnt of, with what this bake has to do with; `place` of each
/// of the bake's own.
struct Joined {
  KitchenLessons lessons;
  SquareMatrix covariance;
  std::vector<std::size_t> place;
};

Joined joined(const KitchenLessons& before, const Lasting& lasting) {
  Joined out{before, {}, {}};
  const std::size_t old = before.unknowns.size();
  std::vector<bool> afresh(old, false);
  for (std::size_t i = 0; i < lasting.size(); ++i) {
    const auto same =
        std::find_if(before.unknowns.begin(), before.unknowns.end(),
                     [&](const LearntUnknown& one) { return one.name == lasting.name[i]; });
    const bool known = same != before.unknowns.end();
    out.place.push_back(known ? static_cast<std::size_t>(same - before.unknowns.begin())
                              : out.lessons.unknowns.size());
    const LearntUnknown now{lasting.name[i], lasting.described[i].a, lasting.described[i].b,
                            lasting.mean[i]};
    if (known) {
      afresh[out.place[i]] = !learnt_place(before, lasting.name[i], lasting.described[i]);
      out.lessons.unknowns[out.place[i]] = now;
    } else {
      out.lessons.unknowns.push_back(now);
    }
  }
  out.covariance = SquareMatrix(out.lessons.unknowns.size());
  for (std::size_t i = 0; i < old; ++i) {
    for (std::size_t j = 0; j < old && before.covariance.size() == old * old; ++j) {
      out.covariance.at(i, j) = afresh[i] || afresh[j] ? 0.0 : before.covariance[i * old + j];
    }
  }
  for (std::size_t i = 0; i < lasting.size(); ++i) {
    for (std::size_t j = 0; j < lasting.size(); ++j) {
      out.covariance.at(out.place[i], out.place[j]) = lasting.covariance.at(i, j);
    }
  }
  return out;
}

}  // namespace

KitchenLessons lessons_after(const ForecastSetup& setup, const Weighing& weighing) {
  const Lasting lasting = lasting_of(setup);
  Joined all = joined(setup.kitchen.learnt, lasting);
  // The day's values are the lasting ones and the day's own: what moved the sum moves each
  // in the proportion of their spreads, and what hangs together with it too.
  const SquareMatrix total =
      lower_factor(sum_with_diagonal(lasting.covariance, lasting.day_variance));
  const Moved by = moved(lasting, setup.scores, weighing.inkling);
  const std::size_t count = all.lessons.unknowns.size();
  std::vector<std::vector<double>> gain(count, std::vector<double>(lasting.size()));
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = 0; j < lasting.size(); ++j) {
      gain[i][j] = all.covariance.at(i, all.place[j]);
    }
    gain[i] = solve_factored(total, std::move(gain[i]));
    all.lessons.unknowns[i].mean += dot(gain[i], by.mean);
  }
  all.lessons.covariance.assign(count * count, 0.0);
  for (std::size_t i = 0; i < count; ++i) {
    const std::vector<double> row = times(by.covariance, gain[i]);
    for (std::size_t j = 0; j < count; ++j) {
      all.lessons.covariance[i * count + j] = all.covariance.at(i, j) + dot(row, gain[j]);
    }
  }
  ++all.lessons.trials;
  return all.lessons;
}

std::vector<LearntThing> learnt_things(const KitchenLessons& lessons, const Kitchen& kitchen) {
  const std::size_t count = lessons.unknowns.size();
  const Models models;
  const std::vector<Unknown> known = model_unknowns(kitchen, models);
  std::vector<std::pair<double, LearntThing>> found;
  for (std::size_t i = 0; i < count && lessons.covariance.size() == count * count; ++i) {
    const LearntUnknown& one = lessons.unknowns[i];
    const std::string plain = one.name.substr(0, one.name.find('@'));
    LearntThing thing{one.name, plain, "", "", {}, {}};
    thing.of = plain.size() < one.name.size() ? one.name.substr(plain.size() + 1) : "";
    Shape shape = Shape::normal;
    double day = 0.2;
    for (const Unknown& unknown : known) {
      if (unknown.name == plain) {
        thing.words = unknown.words;
        thing.unit = unknown.unit;
        shape = unknown.prior.shape;
        day = unknown.day;
      }
    }
    if (plain.rfind("fill/", 0) == 0) {
      thing.words = "how full your cups of " + plain.substr(5) + " are";
      thing.unit = "sd";
    }
    const double variance = one.described_b * one.described_b * (1.0 - day);
    const Distribution before = natural(
        shape, shape == Shape::lognormal ? log_same(one.described_a) : one.described_a, variance);
    const Distribution now =
        natural(shape, one.mean, std::max(lessons.covariance[i * count + i], 1e-12));
    thing.before = {before.p10(), before.p50(), before.p90()};
    thing.now = {now.p10(), now.p50(), now.p90()};
    const double narrowed = now.b / before.b;
    const double moved_by = std::fabs(one.mean - natural_middle(before)) / before.b;
    if (narrowed < 0.9 || moved_by > 0.2) {
      found.emplace_back(narrowed, std::move(thing));
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<LearntThing> out;
  for (auto& [narrowed, thing] : found) {
    out.push_back(std::move(thing));
  }
  return out;
}

}  // namespace maslin
