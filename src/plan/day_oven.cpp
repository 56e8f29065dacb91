// The oven and what comes after it: loads, cooling, icing.
#include <algorithm>
#include <cmath>

#include "plan/day_builder.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr double k_most_batches = 24.0;
/// A room as warm as what is waited for: one stops waiting.
constexpr double k_longest_cooling_minutes = 240.0;
constexpr double k_longest_setting_minutes = 60.0;

std::vector<double> at_most(std::vector<double> minutes, double limit) {
  for (double& one : minutes) {
    one = std::min(one, limit);
  }
  return minutes;
}

}  // namespace

double DayBuilder::stated_heat() const {
  double out = 0.0;
  for (const PlannedHeat& heat : setup_.schedule.bake.heats) {
    out += heat.minutes ? heat.minutes->middle() : 0.0;
  }
  return out;
}

std::string DayBuilder::oven_verb() const {
  switch (setup_.schedule.bake.way) {
    case PlannedBake::Way::steam:
      return "steam";
    case PlannedBake::Way::fry:
      return "fry";
    case PlannedBake::Way::griddle:
      return "cook on the griddle";
    default:
      return "bake";
  }
}

int DayBuilder::loads() const {
  const double loads = std::ceil(setup_.schedule.bake.pieces / std::max(oven_.pieces_at_once, 1.0));
  return static_cast<int>(std::clamp(loads, 1.0, k_most_batches));
}

std::string DayBuilder::of_load(int load) const {
  return loads() == 1 ? ""
                      : ", load " + std::to_string(load + 1) + " of " + std::to_string(loads());
}

const std::vector<double>& DayBuilder::heat_minutes() {
  if (!heat_.empty()) {
    return heat_;
  }
  heat_ = column("bake/minutes");
  if (heat_.size() == work_.draws()) {
    return heat_;
  }
  // Steaming, frying, or a bake the model has nothing to say of.
  double middle = stated_heat();
  if (middle <= 0.0) {
    middle = setup_.schedule.bake.way == PlannedBake::Way::oven ? 25.0 : 15.0;
    out_.assumed.push_back(
        {oven_verb(), "no time is given; taken as " + number_text(middle, 0) + " minutes"});
  }
  heat_ = work_.spread(0.12, "heat");
  for (double& one : heat_) {
    one *= middle;
  }
  return heat_;
}

void DayBuilder::heat_oven(const std::string& verb) {
  DayTask oven;
  oven.name = verb == "bake" ? "heat the oven" : "heat the pan";
  oven.kind = TaskKind::heat_oven;
  oven.oven = true;
  oven.minutes = work_.spread(oven_.preheat_spread, "preheat");
  for (double& one : oven.minutes) {
    one *= verb == "bake" ? oven_.preheat_minutes : 8.0;
  }
  if (last_prove_) {
    oven.during = last_prove_;
  } else {
    oven.beside = true;
  }
  if (verb == "bake") {
    oven.note = number_text(setup_.schedule.bake.heats.front().celsius, 0) + " °C";
  }
  oven_task_ = add(std::move(oven));
}

void DayBuilder::bake() {
  mix();
  if (proves_ == 0) {
    prove_if_any();
  }
  // Rises that no step told of stand before the oven.
  while (proves_ < setup_.schedule.proves.size()) {
    begin_shaping();
    const std::size_t before = proves_;
    prove_if_any();
    if (proves_ == before) {
      break;
    }
  }
  handle();
  top();
  baked_ = true;
  const std::string verb = oven_verb();
  heat_oven(verb);
  std::vector<std::size_t> before = next({oven_task_});
  for (int load = 0; load < loads(); ++load) {
    if (!apart_.empty()) {
      before = {load == 0 ? oven_task_ : baked_loads_.back(),
                apart_[static_cast<std::size_t>(load)]};
    }
    bake_load(verb, load, before);
    before = {baked_loads_.back()};
  }
  last_ = baked_loads_;
}

void DayBuilder::handle_pieces(const std::string& name, std::string_view work, double minutes,
                               const std::vector<std::size_t>& parts) {
  if (apart_.empty()) {
    last_ = {add_hands(name, TaskKind::work, work, minutes, next(parts))};
    return;
  }
  for (int load = 0; load < loads(); ++load) {
    std::size_t& at = apart_[static_cast<std::size_t>(load)];
    std::vector<std::size_t> after = parts;
    after.push_back(at);
    at = add_hands(name + of_load(load), TaskKind::work, work, minutes / loads(), std::move(after));
  }
  last_ = apart_;
}

void DayBuilder::begin_shaping() {
  if (handling_.empty() && proves_ > 0) {
    handling_.add("shape", work_.median("shape"));
  }
}

void DayBuilder::bake_load(const std::string& verb, int load,
                           const std::vector<std::size_t>& after) {
  DayTask task;
  task.name = verb + of_load(load);
  task.kind = TaskKind::bake;
  task.oven = true;
  task.after = after;
  task.minutes = heat_minutes();
  task.lead_minutes = load == 0 ? oven_.preheat_minutes : 0.0;
  for (double& one : task.minutes) {
    one += load > 0 ? oven_.reload_minutes : 0.0;
  }
  if (load > 0 && apart_.empty()) {
    task.note = "waits for the one before: keep these pieces cool, or shape them later";
  }
  baked_loads_.push_back(add(std::move(task)));
  // A load that was not kept apart waits with all the others: the last prove is the longest.
  const std::size_t own = static_cast<std::size_t>(load);
  if (own < proved_loads_.size()) {
    out_.tasks[proved_loads_[own]].grows_until = baked_loads_.back();
  } else if (last_prove_ && out_.tasks[*last_prove_].prove) {
    out_.tasks[*last_prove_].grows_until = baked_loads_.back();
  }
}

void DayBuilder::top() {
  auto parts = take_parts(Joins::before_oven);
  const auto late = take_parts(Joins::filling);
  if (parts.empty() && late.empty() && !topping_) {
    return;
  }
  parts.insert(parts.end(), late.begin(), late.end());
  handle_pieces(late.empty() ? "brush or top the pieces" : "fill and top the pieces", "top",
                work_.median("top"), parts);
}

/// The later of icing and chocolate, draw by draw, where a day has both.
std::vector<double> DayBuilder::glaze_column(std::string_view figure) const {
  const std::string tail = "/" + std::string(figure);
  std::vector<double> out;
  for (const char* head : {"finish/glaze/", "finish/coating/"}) {
    const Column* one = ensemble_.first_outcome(head, tail);
    if (one == nullptr) {
      continue;
    }
    out.resize(one->values.size(), 0.0);
    std::transform(out.begin(), out.end(), one->values.begin(), out.begin(),
                   [](double a, double b) { return std::max(a, b); });
  }
  return out;
}

std::vector<double> DayBuilder::cooling_minutes(const std::vector<double>& to_glaze) const {
  std::vector<double> minutes = to_glaze;
  if (minutes.empty()) {
    const Column* grams = ensemble_.column("total_grams");
    const double piece = (grams != nullptr ? ensemble_.band(*grams).p50 : 0.0) /
                         std::max(setup_.schedule.bake.pieces, 1.0);
    minutes = column(piece > 250.0 ? "finish/cooling//cut_after_minutes"
                                   : "finish/cooling//surface_35_minutes");
  }
  if (minutes.size() != work_.draws()) {
    minutes = work_.by_itself("rest", 20.0, "cooling");
  }
  minutes = at_most(std::move(minutes), k_longest_cooling_minutes);
  for (double& one : minutes) {
    one = std::max(one, cool_stated_);
  }
  return minutes;
}

void DayBuilder::finish() {
  const std::vector<double> to_glaze = glaze_column("glaze_after_minutes");
  std::vector<std::size_t> parts = take_parts(Joins::after_oven);
  const std::vector<std::size_t> left = take_parts(Joins::bowl);
  parts.insert(parts.end(), left.begin(), left.end());
  if (!parts.empty()) {
    finishing_.add("finish", work_.median("finish"));
  }
  // Syrup and butter go on hot; icing waits until the pieces are cool enough.
  const bool on_hot_pieces = to_glaze.empty() && finish_hot_;
  if (on_hot_pieces) {
    add_finish(parts);
    cool({});
    return;
  }
  cool(to_glaze);
  add_finish(parts);
  const std::vector<double> skin = glaze_column("skin_minutes");
  if (!skin.empty()) {
    last_ = {add_wait("the glaze sets", TaskKind::cool, at_most(skin, k_longest_setting_minutes),
                      next())};
  }
}

void DayBuilder::add_finish(const std::vector<std::size_t>& parts) {
  if (finishing_.empty()) {
    return;
  }
  last_ = {add_hands(finishing_.name() == "finish" ? "glaze and finish" : finishing_.name(),
                     TaskKind::finish, "finish", finishing_.minutes, next(parts))};
}

void DayBuilder::cool(const std::vector<double>& to_glaze) {
  const std::vector<double> minutes = cooling_minutes(to_glaze);
  std::vector<std::size_t> cooled;
  const std::vector<std::size_t> from = last_;
  for (std::size_t i = 0; i < from.size(); ++i) {
    const std::string name = from.size() == 1 ? "cool" : "cool, load " + std::to_string(i + 1);
    cooled.push_back(add_wait(name, TaskKind::cool, minutes, {from[i]}));
  }
  last_ = cooled;
}

}  // namespace maslin
