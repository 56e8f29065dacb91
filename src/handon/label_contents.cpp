#include "handon/label_contents.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace maslin::handon {
namespace {

bool is_boiled(const Part& part) {
  return std::any_of(part.steps.begin(), part.steps.end(),
                     [](const Step& step) { return step.kind == StepKind::boil; });
}

/// Goes into the oven with the dough; glazes and toppings come after.
bool is_baked(PartKind kind) {
  return kind != PartKind::glaze && kind != PartKind::topping;
}

/// A part that keeps its name in the list; the others are the dough's own ingredients.
bool is_compound(PartKind kind) {
  return kind == PartKind::filling || kind == PartKind::glaze || kind == PartKind::topping;
}

const Ingredient* named_in(const Pantry& pantry, const Ingredient& ingredient) {
  const Ingredient* found =
      pantry.find(std::string_view(ingredient.id).substr(0, ingredient.id.find(':')));
  return found != nullptr ? found : &ingredient;
}

class Gathering {
 public:
  Gathering(const Recipe& recipe, const Pantry& pantry, const LabelRequest& request)
      : recipe_(recipe), pantry_(pantry), request_(request) {}

  LabelContents gather() {
    auto setup = std::make_shared<ForecastSetup>(
        set_up_forecast(recipe_, request_.kitchen, pantry_, request_.draws));
    out_.problem = setup->problem;
    out_.setup = setup;
    if (!out_.problem.empty()) {
      return std::move(out_);
    }
    find_roots();
    for (std::size_t batch = 0; batch < batch_count(*setup); ++batch) {
      take(batch);
    }
    lose_water();
    note_left_out();
    const PlannedBake& bake = setup->schedule.bake;
    out_.pieces = request_.pieces > 0.0 ? request_.pieces : bake.pieces;
    out_.pieces_assumed = request_.pieces <= 0.0 && !recipe_.pieces;
    out_.fried = bake.way == PlannedBake::Way::fry;
    return std::move(out_);
  }

 private:
  const Bowls& bowls() const { return out_.setup->bowls; }

  void find_roots() {
    root_.assign(bowls().bowls.size(), true);
    for (const Bowls::Bowl& bowl : bowls().bowls) {
      for (const LineAmount& line : bowl.lines) {
        if (line.ingredient == nullptr) {
          root_[line.part] = false;
        }
      }
    }
    for (std::size_t i = 0; i < root_.size(); ++i) {
      group_of_.push_back(out_.groups.size());
      if (!root_[i] || bowls().bowls[i].lines.empty()) {
        root_[i] = false;
        continue;
      }
      FoodGroup group;
      group.compound = is_compound(bowls().bowls[i].kind) ? bowls().bowls[i].name : "";
      group.baked = is_baked(bowls().bowls[i].kind);
      // A wash and a dough are one list.
      const auto same = std::find_if(out_.groups.begin(), out_.groups.end(), [&](const auto& g) {
        return g.compound.empty() && group.compound.empty() && g.baked == group.baked;
      });
      if (same != out_.groups.end()) {
        group_of_[i] = static_cast<std::size_t>(same - out_.groups.begin());
      } else {
        out_.groups.push_back(std::move(group));
      }
    }
  }

  void take(std::size_t batch) {
    const std::size_t first = batch * k_lane_count;
    const BatchDraws draws =
        draw_batch(out_.setup->unknowns, out_.setup->options.seed, draws_in(*out_.setup, batch));
    const std::vector<FilledBowl> filled = fill_bowls(bowls(), draws);
    for (FoodGroup& group : out_.groups) {
      group.water_lost.resize(group.water_lost.size() + k_lane_count, 0.0);
    }
    for (std::size_t i = 0; i < filled.size(); ++i) {
      if (!root_[i]) {
        continue;
      }
      const Bowls::Bowl& bowl = bowls().bowls[i];
      const Lanes yield =
          bowl.yield_unknown != 0 ? draws[bowl.yield_unknown] : Lanes(bowl.yield.p50());
      const bool boiled = is_boiled(recipe_.parts[i]);
      FoodGroup& group = out_.groups[group_of_[i]];
      for (const Portions::Item& item : filled[i].portions.items) {
        add(group, *item.ingredient, boiled ? item.grams : item.grams * yield);
      }
      const Lanes gone = boiled ? filled[i].portions.total_grams() * (1.0 - yield) : Lanes(0.0);
      for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
        group.water_lost[first + lane] += gone[lane];
      }
    }
    for (FoodGroup& group : out_.groups) {
      for (FoodAmount& food : group.foods) {
        food.grams.resize(first + k_lane_count, 0.0);
      }
    }
    first_draw_ = first + k_lane_count;
  }

  void add(FoodGroup& group, const Ingredient& ingredient, const Lanes& grams) {
    auto at = std::find_if(group.foods.begin(), group.foods.end(), [&](const FoodAmount& food) {
      return food.ingredient->id == ingredient.id;
    });
    if (at == group.foods.end()) {
      group.foods.push_back({&ingredient, named_in(pantry_, ingredient), {}});
      at = group.foods.end() - 1;
    }
    at->grams.resize(first_draw_ + k_lane_count, 0.0);
    for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
      at->grams[first_draw_ + lane] += grams[lane];
    }
  }

  double loss_share(std::size_t draw) const {
    const std::vector<double>& pct = request_.bake_loss_pct;
    const double here = pct.empty() ? 0.0 : pct[pct.size() == 1 ? 0 : draw % pct.size()];
    return std::isfinite(here) ? here / 100.0 : 0.0;
  }

  void lose_water() {
    const std::size_t draws = first_draw_;
    out_.mixed_grams.assign(draws, 0.0);
    out_.finished_grams.assign(draws, 0.0);
    for (FoodGroup& group : out_.groups) {
      for (std::size_t d = 0; d < draws; ++d) {
        double mixed = 0.0;
        double water = 0.0;
        for (const FoodAmount& food : group.foods) {
          mixed += food.grams[d];
          water += food.grams[d] * food.ingredient->composition[Component::water];
        }
        const double baked_out = group.baked ? loss_share(d) * (mixed - group.water_lost[d]) : 0.0;
        group.water_lost[d] = std::clamp(group.water_lost[d] + baked_out, 0.0, water);
        out_.mixed_grams[d] += mixed;
        out_.finished_grams[d] += mixed - group.water_lost[d];
      }
    }
  }

  void note_left_out() {
    for (const Part& part : recipe_.parts) {
      for (const Line& line : part.lines) {
        const bool known = !line.part.empty() || pantry_.find(line.ingredient_id) != nullptr;
        if (!known || (!line.weighed && line.part.empty())) {
          out_.left_out.push_back(line.text.empty() ? line.name : line.text);
        }
      }
    }
  }

  const Recipe& recipe_;
  const Pantry& pantry_;
  const LabelRequest& request_;
  LabelContents out_;
  std::vector<bool> root_;
  std::vector<std::size_t> group_of_;  // by part
  std::size_t first_draw_ = 0;
};

}  // namespace

LabelContents contents_of(const Recipe& recipe, const Pantry& pantry, const LabelRequest& request) {
  return Gathering(recipe, pantry, request).gather();
}

double mean_of(const std::vector<double>& values) {
  const double sum = std::accumulate(values.begin(), values.end(), 0.0);
  return values.empty() ? 0.0 : sum / static_cast<double>(values.size());
}

}  // namespace maslin::handon
