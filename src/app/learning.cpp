#include "app/learning.h"

#include <algorithm>

#include "app/keeping_report.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

template <typename Value>
Result<Value> refused(std::string problem) {
  return {std::nullopt, std::move(problem)};
}

/// The last lesson that holds, of those in front of `end`.
template <typename At>
KitchenLessons lessons_at(At begin, At end) {
  KitchenLessons out;
  for (At at = begin; at != end; ++at) {
    if (!at->unlearnt_at_ms) {
      out = lessons_from_json(at->body);
    }
  }
  return out;
}

/// What the kitchen knew before this trial taught it anything.
KitchenLessons lessons_before(Database& database, std::int64_t kitchen, std::int64_t trial) {
  const std::vector<Lesson> all = lessons_of(database, kitchen);
  const auto own =
      std::find_if(all.begin(), all.end(), [&](const Lesson& one) { return one.trial == trial; });
  return lessons_at(all.begin(), own);
}

std::optional<std::int64_t> kitchen_number(Database& database, const std::string& name) {
  const auto called = name.empty() ? std::nullopt : named(database, DocumentKind::kitchen, name);
  return called ? std::optional(called->number) : std::nullopt;
}

/// What one trial's sightings teach; no value when nothing they say is of use.
struct Taught {
  KitchenLessons lessons;
  std::string why_not;
};

Taught taught_by(const Tools& tools, const TrialSetting& setting,
                 const std::vector<Observation>& seen, const LiveOptions& options) {
  Taught out{setting.kitchen.learnt, ""};
  if (seen.empty()) {
    out.why_not = "Nothing was learnt: no note says anything that can be measured.";
    return out;
  }
  ForecastRequest request;
  request.threads = options.threads;
  request.stop = options.stop;
  const auto runs = [&](const ForecastSetup& setup) {
    return run_in_threads(setup, request).value.value_or(ForecastRun{});
  };
  ForecastOptions followed_by = followed(options.forecast, seen);
  followed_by.begins_at = setting.begins_at;
  ForecastSetup setup = set_up_forecast(setting.recipe, setting.kitchen, tools.pantry, followed_by);
  ForecastRun run = runs(setup);
  if (!setup.problem.empty() || run.ensemble.draws() == 0) {
    out.why_not = "Nothing was learnt: " + setup.problem;
    return out;
  }
  const Weighing weighing = observe(setup, run, seen, runs);
  if (weighing.inkling.directions.empty()) {
    out.why_not = "Nothing was learnt: the notes say nothing that the models could foretell.";
    return out;
  }
  out.lessons = lessons_after(setup, weighing);
  return out;
}

/// Lessons learnt anew from `from` on, each from what the one before it left.
Result<std::vector<Lesson>> learnt_anew(const Tools& tools, Store& store,
                                        std::vector<Lesson> lessons, std::size_t from,
                                        const LiveOptions& options) {
  for (std::size_t i = from; i < lessons.size(); ++i) {
    const Result<TrialView> view = view_trial(store, lessons[i].trial);
    if (!view.value) {
      return refused<std::vector<Lesson>>(view.problem);
    }
    Result<TrialSetting> setting = setting_of(store, view.value->trial);
    if (!setting.value) {
      return refused<std::vector<Lesson>>(setting.problem);
    }
    setting.value->kitchen.learnt =
        lessons_at(lessons.begin(), lessons.begin() + static_cast<std::ptrdiff_t>(i));
    const Taught taught = taught_by(tools, *setting.value, observations_of(*view.value), options);
    lessons[i].body = lessons_to_json(taught.lessons);
  }
  return {std::move(lessons), ""};
}

}  // namespace

namespace {

std::optional<double> begun_at(const Recipe& recipe, const std::vector<StepMark>& marks,
                               const Trial& trial) {
  std::int64_t at_ms = trial.started_at_ms;
  for (const ChecklistStep& one : checklist_of(recipe, marks)) {
    if (one.of == PartKind::dough && one.begun_at_ms) {
      at_ms = *one.begun_at_ms;
      break;
    }
  }
  const std::string text = local_time_text(at_ms);  // "2026-05-01 14:10"
  return hour_of_day_from(std::string_view(text).substr(text.size() - 5));
}

}  // namespace

Result<TrialSetting> setting_of(Store& store, const Trial& trial) {
  return flat(asking([&]() -> Result<TrialSetting> {
    Database& database = store.database();
    TrialSetting out;
    RecipeDocument recipe = recipe_from_json(document_of(database, trial.version)->body);
    if (!recipe.problems.empty()) {
      return refused<TrialSetting>(sentence(recipe.problems.front()));
    }
    out.recipe = std::move(recipe.recipe);
    if (trial.kitchen_state) {
      KitchenDocument kitchen =
          kitchen_from_json(document_of(database, *trial.kitchen_state)->body);
      if (!kitchen.problems.empty()) {
        return refused<TrialSetting>(sentence(kitchen.problems.front()));
      }
      out.kitchen = std::move(kitchen.kitchen);
    }
    out.begins_at = begun_at(out.recipe, marks_of(database, trial.number), trial);
    if (const auto kitchen = kitchen_number(database, trial.kitchen)) {
      KitchenLessons learnt = lessons_before(database, *kitchen, trial.number);
      if (!learnt.unknowns.empty()) {
        out.kitchen.learnt = std::move(learnt);
      }
    }
    return {std::move(out), ""};
  }));
}

KitchenLessons lessons_in_library(Store& store, std::int64_t kitchen) {
  const auto all = asking([&] { return lessons_of(store.database(), kitchen); });
  return all.value ? lessons_at(all.value->begin(), all.value->end()) : KitchenLessons{};
}

std::vector<std::string> learnt_of(Store& store, const Trial& trial) {
  return asking([&]() -> std::vector<std::string> {
           Database& database = store.database();
           const auto own = lesson_of(database, trial.number);
           if (!own || own->unlearnt_at_ms) {
             return {};
           }
           Kitchen kitchen;
           if (trial.kitchen_state) {
             kitchen = kitchen_from_json(document_of(database, *trial.kitchen_state)->body).kitchen;
           }
           return learnt_words(lessons_before(database, own->kitchen, trial.number),
                               lessons_from_json(own->body), kitchen);
         })
      .value.value_or(std::vector<std::string>());
}

Result<TrialView> past_trial(Store& store, std::int64_t trial) {
  Result<TrialView> view = view_trial(store, trial);
  if (view.value) {
    view.value->learnt = learnt_of(store, view.value->trial);
  }
  return view;
}

Result<ClosedTrial> close_trial(const Tools& tools, Store& store, std::int64_t number,
                                std::int64_t at_ms, const LiveOptions& options) {
  const Result<TrialView> view = view_trial(store, number);
  if (!view.value) {
    return refused<ClosedTrial>(view.problem);
  }
  if (view.value->trial.closed_at_ms) {
    return refused<ClosedTrial>("Trial " + std::to_string(number) +
                                " is closed already; `maslin trial reopen " +
                                std::to_string(number) + "` goes on with it.");
  }
  ClosedTrial closed;
  closed.observations = observations_of(*view.value);
  const Result<TrialSetting> setting = setting_of(store, view.value->trial);
  Taught taught;
  if (view.value->trial.kitchen.empty()) {
    taught.why_not = "Nothing was learnt: the trial names no kitchen to keep it for.";
  } else if (!setting.value) {
    taught.why_not = "Nothing was learnt: " + setting.problem;
  } else {
    taught = taught_by(tools, *setting.value, closed.observations, options);
    closed.learnt =
        learnt_words(setting.value->kitchen.learnt, taught.lessons, setting.value->kitchen);
  }
  closed.learning = taught.why_not;
  return flat(asking([&]() -> Result<ClosedTrial> {
    Transaction change(store.database());
    const auto now = trial_of(change.database(), number);
    if (!now || now->closed_at_ms || now->notes != view.value->trial.notes) {
      return refused<ClosedTrial>("Trial " + std::to_string(number) +
                                  " was changed meanwhile; close it again.");
    }
    set_closed(change, number, at_ms);
    if (taught.why_not.empty()) {
      keep_lesson(change, {number, *kitchen_number(change.database(), now->kitchen), at_ms,
                           std::nullopt, lessons_to_json(taught.lessons)});
    }
    closed.trial = *trial_of(change.database(), number);
    change.commit();
    return {std::move(closed), ""};
  }));
}

Result<Trial> reopen_trial(const Tools& tools, Store& store, std::int64_t number,
                           const LiveOptions& options) {
  std::vector<Lesson> lessons;
  if (const auto own = asking([&] { return lesson_of(store.database(), number); });
      own.value && *own.value) {
    lessons = asking([&] {
                return lessons_of(store.database(), (*own.value)->kitchen);
              }).value.value_or(std::vector<Lesson>());
    const auto at = std::find_if(lessons.begin(), lessons.end(),
                                 [&](const Lesson& one) { return one.trial == number; });
    const auto from = static_cast<std::size_t>(at - lessons.begin());
    lessons.erase(at);
    Result<std::vector<Lesson>> anew = learnt_anew(tools, store, std::move(lessons), from, options);
    if (!anew.value) {
      return refused<Trial>(anew.problem);
    }
    lessons = std::move(*anew.value);
  }
  return flat(asking([&]() -> Result<Trial> {
    Transaction change(store.database());
    if (!trial_of(change.database(), number)) {
      return refused<Trial>("There is no trial " + std::to_string(number) +
                            "; `maslin trial list` shows those there are.");
    }
    drop_lesson(change, number);
    for (const Lesson& one : lessons) {
      keep_lesson(change, one);
    }
    set_closed(change, number, std::nullopt);
    Trial trial = *trial_of(change.database(), number);
    change.commit();
    return {std::move(trial), ""};
  }));
}

Result<LearntKitchen> learnt_in_library(Store& store, const std::string& kitchen) {
  Result<Kitchen> known = kitchen_in_library(store, kitchen);
  if (!known.value) {
    return refused<LearntKitchen>(known.problem);
  }
  return flat(asking([&]() -> Result<LearntKitchen> {
    LearntKitchen out{kitchen, std::move(*known.value), {}, {}, {}};
    const auto number = kitchen_number(store.database(), kitchen);
    KitchenLessons before;
    std::vector<LearntThing> was;
    std::vector<std::pair<std::int64_t, std::vector<std::string>>> moved_by;
    for (const Lesson& lesson :
         number ? lessons_of(store.database(), *number) : std::vector<Lesson>()) {
      if (lesson.unlearnt_at_ms) {
        out.unlearnt.push_back(lesson.trial);
        continue;
      }
      out.taught.push_back(lesson.trial);
      const KitchenLessons after = lessons_from_json(lesson.body);
      std::vector<LearntThing> now = learnt_things(after, out.kitchen);
      auto& moved = moved_by.emplace_back(lesson.trial, std::vector<std::string>()).second;
      for (const LearntThing& thing : now) {
        if (changed(thing_named(was, thing.name), thing)) {
          moved.push_back(thing.name);
        }
      }
      was = std::move(now);
    }
    for (LearntThing& thing : was) {
      LearntFrom one{std::move(thing), {}};
      for (const auto& [trial, names] : moved_by) {
        if (std::find(names.begin(), names.end(), one.thing.name) != names.end()) {
          one.trials.push_back(trial);
        }
      }
      out.learnt.push_back(std::move(one));
    }
    return {std::move(out), ""};
  }));
}

Result<LearntKitchen> unlearn_trial(const Tools& tools, Store& store, const std::string& kitchen,
                                    std::int64_t trial, std::int64_t at_ms,
                                    const LiveOptions& options) {
  const auto number = asking([&] {
                        return kitchen_number(store.database(), kitchen);
                      }).value.value_or(std::nullopt);
  if (!number) {
    return refused<LearntKitchen>("No kitchen called \"" + kitchen +
                                  "\" is kept; `maslin kitchen list` shows those there are.");
  }
  std::vector<Lesson> lessons = asking([&] {
                                  return lessons_of(store.database(), *number);
                                }).value.value_or(std::vector<Lesson>());
  const auto at = std::find_if(lessons.begin(), lessons.end(), [&](const Lesson& one) {
    return one.trial == trial && !one.unlearnt_at_ms;
  });
  if (at == lessons.end()) {
    return refused<LearntKitchen>("The kitchen \"" + kitchen + "\" has learnt nothing from trial " +
                                  std::to_string(trial) + "; `maslin kitchen " + kitchen +
                                  "` names those it learnt from.");
  }
  at->unlearnt_at_ms = at_ms;
  const auto from = static_cast<std::size_t>(at - lessons.begin()) + 1;
  Result<std::vector<Lesson>> anew = learnt_anew(tools, store, std::move(lessons), from, options);
  if (!anew.value) {
    return refused<LearntKitchen>(anew.problem);
  }
  const Result<bool> kept = asking([&] {
    Transaction change(store.database());
    for (const Lesson& one : *anew.value) {
      keep_lesson(change, one);
    }
    change.commit();
    return true;
  });
  return kept.value ? learnt_in_library(store, kitchen) : refused<LearntKitchen>(kept.problem);
}

}  // namespace maslin
