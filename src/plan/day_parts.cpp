// Tasks in general, and the parts made beside the dough: hands first, then what they need
// to stand.
#include <algorithm>
#include <cmath>

#include "plan/day_builder.h"
#include "quantity/number_text.h"

namespace maslin {

DayBuilder::Joins DayBuilder::joins(std::size_t part) const {
  switch (recipe_.parts[part].kind) {
    case PartKind::filling:
      return fills_before_ || !finishes_after_ ? Joins::filling : Joins::after_oven;
    case PartKind::topping:
    case PartKind::wash:
      return tops_before_ || !finishes_after_ ? Joins::before_oven : Joins::after_oven;
    case PartKind::glaze:
      return Joins::after_oven;
    default:
      return Joins::bowl;
  }
}

std::size_t DayBuilder::add(DayTask task) {
  const std::string name = task.name;
  for (int n = 2; std::any_of(out_.tasks.begin(), out_.tasks.end(),
                              [&](const DayTask& one) { return one.name == task.name; });
       ++n) {
    task.name = name + " (" + std::to_string(n) + ")";
  }
  out_.tasks.push_back(std::move(task));
  return out_.tasks.size() - 1;
}

std::size_t DayBuilder::add_hands(std::string name, TaskKind kind, std::string_view work,
                                  double minutes, std::vector<std::size_t> after) {
  DayTask task;
  task.minutes = work_.by_hand(work, minutes, name);
  task.name = std::move(name);
  task.kind = kind;
  task.hands = true;
  task.after = std::move(after);
  return add(std::move(task));
}

std::size_t DayBuilder::add_wait(std::string name, TaskKind kind, std::vector<double> minutes,
                                 std::vector<std::size_t> after) {
  DayTask task;
  task.name = std::move(name);
  task.kind = kind;
  task.minutes = std::move(minutes);
  task.after = std::move(after);
  return add(std::move(task));
}

std::vector<double> DayBuilder::column(const std::string& name) const {
  const Column* one = ensemble_.column(name);
  return one != nullptr ? one->values : std::vector<double>();
}

DayBuilder::PartTimes DayBuilder::times_of(std::size_t part) const {
  PartTimes out;
  for (const OwnedStep& one : steps_) {
    if (one.part != part) {
      continue;
    }
    const double minutes = stated_minutes(*one.step);
    out.any = true;
    switch (one.step->kind) {
      case StepKind::soak:
        out.soaks += minutes;
        break;
      case StepKind::rest:
      case StepKind::prove:
        out.stands += minutes;
        break;
      case StepKind::cool:
        out.cools += minutes;
        out.cooked = true;
        break;
      case StepKind::bake:
        out.roasts += minutes;
        out.cooked = true;
        break;
      case StepKind::boil:
        out.worked += minutes;
        out.cooked = true;
        break;
      default:
        out.worked += minutes;
        break;
    }
  }
  return out;
}

std::string DayBuilder::ripe_note(std::size_t part) const {
  const std::vector<PlannedPreferment>& all = setup_.schedule.preferments;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Column* ripe = ensemble_.column("preferment/" + std::to_string(i) + "/ripe_minutes");
    const double minutes = ripe != nullptr ? ensemble_.band(*ripe).p50 : k_never;
    if (all[i].part == part && std::isfinite(minutes)) {
      return "ripe, at " + number_text(all[i].rest.volume_ratio, 1) + " times, after " +
             number_text(minutes / 60.0, 1) + " hours";
    }
  }
  return {};
}

void DayBuilder::make_part(std::size_t part) {
  const Part& it = recipe_.parts[part];
  PartTimes times = times_of(part);
  if (it.lines.empty() && !times.any) {
    return;
  }
  std::vector<std::size_t> after;
  for (const Line& line : it.lines) {
    const Part* used = line.part.empty() ? nullptr : recipe_.part_named(line.part);
    if (used != nullptr) {
      const auto& made = made_[static_cast<std::size_t>(used - recipe_.parts.data())];
      after.insert(after.end(), made.begin(), made.end());
    }
  }
  const std::string kind(part_kind_name(it.kind));
  const std::string work = it.kind == PartKind::dough ? "make_filling" : "make_" + kind;
  const std::size_t first = out_.tasks.size();
  std::size_t last = add_hands("make the " + it.name, TaskKind::prepare, work,
                               work_.median(work) + times.worked, std::move(after));
  const auto stand = [&](const char* does, const char* row, double minutes) {
    const std::string name = it.name + " " + does;
    last = add_wait(name, TaskKind::stand, work_.by_itself(row, minutes, name), {last});
  };
  if (times.roasts > 0.0) {
    stand("in the oven", "stated", times.roasts + oven_.preheat_minutes);
    out_.tasks[last].oven = true;
  }
  if (const PlannedProve* rest = setup_.schedule.rest_of(part); rest != nullptr) {
    stand("ripens", "stated", rest->stated_minutes->middle());
    out_.tasks[last].note = ripe_note(part);
  } else if (times.stands > 0.0) {
    stand("stands", "stated", times.stands);
  }
  if (times.soaks > 0.0 || it.kind == PartKind::soaker) {
    stand("soaks", times.soaks > 0.0 ? "stated" : "soak",
          times.soaks > 0.0 ? times.soaks : work_.median("soak"));
  }
  if (times.cooked && it.kind != PartKind::glaze) {
    stand("cools", times.cools > 0.0 ? "stated" : "cool_part",
          times.cools > 0.0 ? times.cools : work_.median("cool_part"));
  }
  for (std::size_t i = first; i < out_.tasks.size(); ++i) {
    out_.tasks[i].part = it.name;
    out_.tasks[i].beside = true;
  }
  made_[part] = {last};
}

std::vector<std::size_t> DayBuilder::take_parts(Joins where) {
  std::vector<std::size_t> out;
  for (std::size_t part = 0; part < made_.size(); ++part) {
    if (!made_[part].empty() && joins(part) == where) {
      out.insert(out.end(), made_[part].begin(), made_[part].end());
      made_[part].clear();
    }
  }
  return out;
}

}  // namespace maslin
