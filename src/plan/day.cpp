// The dough's own way through the day: bowl, rises, the bench.
#include <algorithm>
#include <cmath>

#include "plan/day_builder.h"

namespace maslin {
namespace {

bool says(const Step& step, std::string_view word) {
  return step.text.find(word) != std::string::npos;
}

bool is_heat(StepKind kind) {
  return kind == StepKind::bake || kind == StepKind::steam || kind == StepKind::fry;
}

}  // namespace

void Handling::add(std::string_view verb, double more) {
  if (std::find(verbs.begin(), verbs.end(), verb) == verbs.end()) {
    verbs.emplace_back(verb);
    minutes += more;
  }
}

std::string Handling::name() const {
  std::string out;
  for (std::size_t i = 0; i < verbs.size(); ++i) {
    out += (i == 0 ? "" : i + 1 == verbs.size() ? " and " : ", ") + verbs[i];
  }
  return out;
}

DayBuilder::DayBuilder(const ForecastSetup& setup, const Ensemble& ensemble)
    : setup_(setup),
      recipe_(*setup.recipe),
      ensemble_(ensemble),
      work_(setup.options.seed, ensemble.draws(), setup.schedule.bake.pieces),
      steps_(owned_steps(recipe_, setup.bowls.dough)) {
  const Column* grams = ensemble.column("total_grams");
  const double dough = grams != nullptr ? ensemble.band(*grams).p50 : 500.0;
  oven_ = oven_room_of(setup, dough / std::max(setup.schedule.bake.pieces, 1.0));
}

Day DayBuilder::build() {
  out_.weight = ensemble_.weight;
  look_ahead();
  made_.resize(recipe_.parts.size());
  const auto order = parts_in_order(recipe_).value_or(std::vector<std::size_t>());
  for (const std::size_t part : order) {
    if (part != setup_.bowls.dough) {
      make_part(part);
    }
  }
  walk_dough();
  keep_together();
  return std::move(out_);
}

void DayBuilder::look_ahead() {
  bool heated = false;
  for (const OwnedStep& one : steps_) {
    heated = heated || is_heat(one.step->kind);
    tops_before_ = tops_before_ || (!heated && one.step->kind == StepKind::finish);
    finishes_after_ =
        finishes_after_ ||
        (heated && (one.step->kind == StepKind::finish || one.step->kind == StepKind::fill));
    fills_before_ = fills_before_ || (!heated && one.step->kind == StepKind::fill);
  }
}

void DayBuilder::keep_together() {
  // A rest beyond an hour is one to go away from: common practice, no source.
  constexpr double k_short_rest_minutes = 60.0;
  const auto stays_by = [&](const DayTask& task) {
    const bool handled =
        task.kind == TaskKind::mix || task.kind == TaskKind::knead || task.kind == TaskKind::work;
    return (handled && task.hands) ||
           (task.kind == TaskKind::stand &&
            quantile_of(task.minutes, out_.weight, 0.5) <= k_short_rest_minutes);
  };
  for (std::size_t i = 0; i < out_.tasks.size(); ++i) {
    if (out_.tasks[i].beside || out_.tasks[i].follows || !stays_by(out_.tasks[i])) {
      continue;
    }
    for (const std::size_t before : out_.tasks[i].after) {
      if (!out_.tasks[before].beside && stays_by(out_.tasks[before])) {
        out_.tasks[before].straight_on = i;
      }
    }
  }
}

std::vector<std::size_t> DayBuilder::next(std::vector<std::size_t> parts) const {
  parts.insert(parts.end(), last_.begin(), last_.end());
  return parts;
}

void DayBuilder::walk_dough() {
  for (const OwnedStep& one : steps_) {
    if (one.part == setup_.bowls.dough) {
      baked_ ? take_after(*one.step) : take_before(*one.step);
    }
  }
  if (!baked_) {
    bake();
  }
  finish();
}

void DayBuilder::take_before(const Step& step) {
  switch (step.kind) {
    case StepKind::mix:
    case StepKind::strain:
      if (!mixed_) {
        extra_mixing_ += stated_minutes(step);
      } else {
        works_in_ = true;
      }
      break;
    case StepKind::knead:
      knead(step);
      break;
    case StepKind::fold:
      handling_.add("fold", work_.median("fold"));
      break;
    case StepKind::rest:
    case StepKind::soak:
      stand(step);
      break;
    case StepKind::prove:
      mix();
      prove_if_any();
      break;
    case StepKind::divide:
    case StepKind::shape:
      begin_assumed_prove();
      handling_.add("shape", work_.median("shape"));
      break;
    case StepKind::fill:
      begin_assumed_prove();
      handling_.add("fill", work_.median("fill"));
      handling_.fills = true;
      break;
    case StepKind::boil:
      handling_.add("boil", work_.median("top") + stated_minutes(step));
      break;
    case StepKind::finish:
      topping_ = true;
      break;
    case StepKind::bake:
    case StepKind::steam:
    case StepKind::fry:
      bake();
      break;
    case StepKind::cool:
      break;
  }
}

void DayBuilder::take_after(const Step& step) {
  if (step.kind == StepKind::cool || step.kind == StepKind::rest) {
    cool_stated_ = std::max(cool_stated_, stated_minutes(step));
  } else if (step.kind == StepKind::finish || step.kind == StepKind::fill) {
    const bool hot = says(step, "hot") || says(step, "straight away") || says(step, "come out") ||
                     says(step, "warm");
    finish_hot_ = finish_hot_ || hot;
    finishing_.add(step.kind == StepKind::fill ? "fill" : "finish", work_.median("finish"));
  }
}

void DayBuilder::mix() {
  if (mixed_) {
    return;
  }
  mixed_ = true;
  last_ = {add_hands("weigh and mix the dough", TaskKind::mix, "mix",
                     work_.median("mix") + extra_mixing_, next(take_parts(Joins::bowl)))};
}

void DayBuilder::knead(const Step& step) {
  mix();
  if (kneaded_ || proves_ > 0) {
    handling_.add("knead again", step.minutes ? stated_minutes(step) : work_.median("handle"));
    return;
  }
  kneaded_ = true;
  last_ = {add_hands("knead", TaskKind::knead, "knead", setup_.schedule.knead_minutes, next())};
}

void DayBuilder::stand(const Step& step) {
  if (!step.minutes) {
    return;
  }
  mix();
  handle();
  apart_.clear();
  const std::string name = step.kind == StepKind::soak ? "soak" : "rest";
  last_ = {add_wait(name, TaskKind::stand, work_.by_itself("stated", stated_minutes(step), name),
                    next())};
}

void DayBuilder::handle() {
  // Folding and turning over are part of shaping; by themselves they are work too.
  if (works_in_ && handling_.empty()) {
    handling_.add("work in what is added", work_.median("handle"));
  }
  works_in_ = false;
  if (handling_.empty()) {
    return;
  }
  const auto parts = handling_.fills ? take_parts(Joins::filling) : std::vector<std::size_t>();
  handle_pieces(handling_.name(), "shape", handling_.minutes, parts);
  handling_ = {};
}

void DayBuilder::begin_assumed_prove() {
  const bool told = std::any_of(steps_.begin(), steps_.end(), [](const OwnedStep& one) {
    return one.step->kind == StepKind::prove;
  });
  if (!told && proves_ == 0) {
    mix();
    prove_if_any();
  }
}

DayBuilder::ProveTimes DayBuilder::prove_times(std::size_t index) const {
  const PlannedProve& planned = setup_.schedule.proves[index];
  const std::string key = "prove/" + std::to_string(index);
  ProveTimes out;
  out.minutes = column(key + "/minutes");
  const Column* reached = ensemble_.column(key + "/reached");
  if (planned.for_minutes || reached == nullptr) {
    return out;
  }
  const double share = ensemble_.mean(*reached);
  const double told = planned.stated_minutes ? planned.stated_minutes->middle() : 0.0;
  if (told > 0.0 && share < 0.5) {
    out.minutes = work_.by_itself("stated", told, planned.name);
    out.assumed = "in most draws it does not rise so far; the stated time was taken";
  } else if (share < 0.02) {
    out.minutes.clear();
    out.assumed = "nothing in this dough makes it rise: left out";
  } else {
    out.until = "until " + planned.target;
    for (std::size_t i = 0; i < out.minutes.size(); ++i) {
      out.minutes[i] = reached->values[i] > 0.5 ? out.minutes[i] : k_never;
    }
  }
  return out;
}

void DayBuilder::prove_if_any() {
  const auto& proves = setup_.schedule.proves;
  if (proves_ >= proves.size()) {
    return;
  }
  const std::size_t index = proves_++;
  const ProveTimes times = prove_times(index);
  if (!times.assumed.empty()) {
    out_.assumed.push_back({proves[index].name, times.assumed});
  }
  const bool last = index + 1 == proves.size();
  if (last && loads() > 1 && proves[index].in_pieces && !times.minutes.empty() &&
      !handling_.empty()) {
    prove_in_loads(index, times);
    return;
  }
  handle();
  if (times.minutes.empty()) {
    return;
  }
  take_out(index);
  last_ = {add_prove(index, times, "", next())};
  last_prove_ = last_.front();
}

void DayBuilder::take_out(std::size_t index) {
  if (index == 0 || last_.empty()) {
    return;
  }
  const PlannedProve& before = setup_.schedule.proves[index - 1];
  const bool thawed_cold = before.frost == Frost::thaws && before.place == ProvePlace::cold;
  if (before.frost == Frost::freezes || thawed_cold) {
    last_ = {add_hands(thawed_cold ? "take out of the fridge" : "take out of the freezer",
                       TaskKind::work, "take_out", work_.median("take_out"), next())};
  }
}

std::size_t DayBuilder::add_prove(std::size_t index, const ProveTimes& times,
                                  const std::string& of_load, std::vector<std::size_t> after) {
  const PlannedProve& planned = setup_.schedule.proves[index];
  const std::size_t at =
      add_wait(planned.name + of_load, TaskKind::prove, times.minutes, std::move(after));
  DayTask& task = out_.tasks[at];
  task.prove = index;
  task.note = times.until;
  task.wanted_ratio = planned.volume_ratio;
  if (!planned.rises()) {
    return at;  // frozen or thawing it may wait
  }
  const std::string name = "prove/" + std::to_string(index) + "/volume_ratio";
  if (growth_.size() <= index) {
    growth_.resize(index + 1);
  }
  for (const Trace& trace : ensemble_.traces) {
    if (trace.name == name && !growth_[index]) {
      growth_[index] = std::make_shared<const Trace>(trace);
    }
  }
  task.growth = growth_[index];
  return at;
}

void DayBuilder::prove_in_loads(std::size_t index, const ProveTimes& times) {
  const std::vector<double>& heat = heat_minutes();
  const double between = quantile_of(heat, ensemble_.weight, 0.5) + oven_.reload_minutes;
  const auto parts = handling_.fills ? take_parts(Joins::filling) : std::vector<std::size_t>();
  const std::vector<std::size_t> from = next(parts);
  const double minutes = handling_.minutes / loads();
  std::size_t first = 0;
  for (int load = 0; load < loads(); ++load) {
    std::vector<std::size_t> after = from;
    if (load > 0) {
      after.push_back(first);
    }
    const std::size_t shaped = add_hands(handling_.name() + of_load(load), TaskKind::work, "shape",
                                         minutes, std::move(after));
    if (load == 0) {
      first = shaped;
    } else {
      out_.tasks[shaped].follows = first;
      out_.tasks[shaped].follows_minutes = load * between;
      out_.tasks[shaped].note =
          "so much later that they come to the oven when it is free; until then the dough is "
          "left covered in a cool place";
    }
    proved_loads_.push_back(add_prove(index, times, of_load(load), {shaped}));
  }
  handling_ = {};
  works_in_ = false;
  apart_ = proved_loads_;
  last_ = apart_;
  last_prove_ = proved_loads_.front();
}

}  // namespace maslin
