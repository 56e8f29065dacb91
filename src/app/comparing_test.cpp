#include "app/comparing.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "app/learning.h"
#include "app/library.h"
#include "app/proposing.h"
#include "app/trial_day.h"
#include "recipe/recipe_json.h"
#include "store/scratch_folder.h"
#include "support/larder.h"

using namespace maslin;

namespace {

Recipe buns(double milk, double sugar) {
  Recipe recipe;
  recipe.title = "Milk buns";
  recipe.pieces = Range{8, 8};
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("plain_flour", 500), weighed_line("whole_milk", milk),
                 weighed_line("butter", 40),       weighed_line("caster_sugar", sugar),
                 weighed_line("instant_yeast", 6), weighed_line("salt", 8)};
  const auto step = [](StepKind kind, double minutes) {
    Step out;
    out.kind = kind;
    out.minutes = Range{minutes, minutes};
    return out;
  };
  dough.steps = {step(StepKind::knead, 10), step(StepKind::prove, 60), step(StepKind::shape, 5),
                 step(StepKind::prove, 40), step(StepKind::bake, 20)};
  dough.steps[1].until = "doubled";
  dough.steps[4].celsius = Range{190, 190};
  recipe.parts = {dough};
  return recipe;
}

LiveOptions few_draws() {
  LiveOptions out;
  out.forecast.draws = 128;
  return out;
}

/// A bake of the recipe with its notes; answers its number.
std::int64_t baked(Store& store, const Tools& tools, const Recipe& recipe,
                   const std::vector<std::string>& notes) {
  StartRequest start;
  start.recipe = recipe;
  start.name = "buns";
  start.kitchen = Kitchen();
  start.kitchen->name = "flat";
  const std::int64_t trial = start_trial(store, start).value->trial.number;
  for (const std::string& text : notes) {
    NoteRequest note;
    note.trial = trial;
    note.text = text;
    REQUIRE(write_note(store, tools.note_words, note).value);
  }
  REQUIRE(close_trial(tools, store, trial, 1000, few_draws()).value);
  return trial;
}

const ComparedFigure* row(const Comparison& comparison, const std::string& figure) {
  for (const ComparedFigure& one : comparison.outcome) {
    if (one.figure == figure) {
      return &one;
    }
  }
  return nullptr;
}

}  // namespace

TEST_CASE("two versions differ in grams, in percent of the flour, and in what they do") {
  const Tools tools;
  CompareRequest request;
  request.before = {"one", buns(300, 40)};
  request.after = {"two", buns(330, 40)};
  request.after.recipe->parts[0].steps[4].celsius = Range{200, 200};
  request.after.recipe->parts[0].lines.push_back(weighed_line("egg", 50));
  request.options = few_draws();
  const Result<Comparison> compared = compare(tools, nullptr, request);
  REQUIRE(compared.value);
  const RecipeDifference& difference = compared.value->difference;
  REQUIRE(difference.lines.size() == 2);
  CHECK(difference.lines[0].before->grams == 300);
  CHECK(difference.lines[0].after->grams == 330);
  CHECK(*difference.lines[0].after->pct_flour == doctest::Approx(66));
  CHECK_FALSE(difference.lines[1].before.has_value());
  REQUIRE(difference.steps.size() == 1);
  CHECK(difference.steps[0].what == "°C");
  CHECK(row(*compared.value, "feel_score")->after->p50 >
        row(*compared.value, "feel_score")->before->p50);
  CHECK(row(*compared.value, "total_grams")->after->p50 == doctest::Approx(974).epsilon(0.02));
  // The same with itself: nothing differs.
  request.after = request.before;
  const Result<Comparison> same = compare(tools, nullptr, request);
  CHECK(same.value->difference.lines.empty());
  CHECK(same.value->difference.steps.empty());
  for (const ComparedFigure& one : same.value->outcome) {
    CHECK(one.before->p50 == one.after->p50);
  }
}

TEST_CASE("bakes side by side, what was learnt, the next one, and the rest of the day") {
  const ScratchFolder folder;
  const Tools tools;
  Store store(folder.file("store.sqlite"));
  baked(store, tools, buns(300, 25), {"doubled at 80 min", "done at 20", "crumb 4/9"});
  baked(store, tools, buns(300, 40), {"doubled at 85 min", "crumb 6/9"});

  CompareRequest request;
  request.before.called = "1";
  request.after.called = "2";
  request.options = few_draws();
  const Result<Comparison> compared = compare(tools, &store, request);
  REQUIRE(compared.value);
  CHECK(compared.value->before.kitchen == "flat");
  CHECK(row(*compared.value, "bake_minutes")->noted_before == "done at 20");
  CHECK(row(*compared.value, "bake_minutes")->noted_after.empty());
  CHECK(row(*compared.value, "score")->noted_after == "6/9");
  request.after.called = "nothing of the kind";
  CHECK_FALSE(compare(tools, &store, request).problem.empty());

  const Result<LiveTrial> shown = live_trial(tools, store, 1, few_draws());
  CHECK_FALSE(shown.value->view.learnt.empty());
  CHECK(trial_to_json(shown.value->view).find("\"learnt\"") != std::string::npos);

  NextRequest next{"buns", "crumb", {}, few_draws()};
  Result<ProposedNext> proposed = propose_next(tools, store, next);
  REQUIRE(proposed.value);
  CHECK(proposed.value->scored == 2);
  CHECK(proposed.value->why_not.find("Three bakes") == 0);
  baked(store, tools, buns(300, 55), {"crumb 7/9", "too dark", "done at 20", "crust dark at 20"});
  proposed = propose_next(tools, store, next);
  REQUIRE(proposed.value->next);
  CHECK(proposed.value->next->best_bake == 2);
  CHECK_FALSE(proposed.value->effect.empty());
  CHECK_FALSE(proposed.value->mends.empty());
  CHECK(proposed_to_json(*proposed.value).find("\"mends\"") != std::string::npos);

  // Half risen late: the rest of the day comes later, and the chance falls.
  StartRequest start;
  start.version = "buns";
  start.kitchen_name = "flat";
  const std::int64_t trial = start_trial(store, start).value->trial.number;
  DayQuestion day;
  day.forecast.options.draws = 128;
  day.plan.now = 0.0;
  day.plan.ready_at = 330.0;
  day.plan.done = {{"first prove", -60.0, std::nullopt}};
  const Result<DayPlan> before = plan_trial(tools, store, trial, day);
  REQUIRE_MESSAGE(before.value, before.problem);
  NoteRequest note;
  note.trial = trial;
  note.text = "x1.2 after 60 minutes";
  REQUIRE(write_note(store, tools.note_words, note).value);
  const Result<DayPlan> after = plan_trial(tools, store, trial, day);
  REQUIRE(after.value);
  CHECK(after.value->ready_at.p50 > before.value->ready_at.p50 + 5.0);
  CHECK(after.value->chance_in_time <= before.value->chance_in_time);
}
