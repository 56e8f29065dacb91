#include "app/library.h"
#include "app/learning.h"

#include <doctest/doctest.h>
#include <stdlib.h>
#include <time.h>

#include <set>

#include "app/trials.h"
#include "bake/bake.h"
#include "dough/feel.h"
#include "quantity/instant.h"
#include "quantity/table.h"
#include "recipe/embedded_table.h"
#include "store/scratch_folder.h"

using namespace maslin;

namespace {

/// An environment variable for one test.
class Variable {
 public:
  Variable(const char* name, const char* value) : name_(name) {
    const char* before = ::getenv(name);
    had_ = before != nullptr;
    before_ = had_ ? before : "";
    value == nullptr ? ::unsetenv(name) : ::setenv(name, value, 1);
    ::tzset();
  }
  ~Variable() {
    had_ ? ::setenv(name_, before_.c_str(), 1) : ::unsetenv(name_);
    ::tzset();
  }
  Variable(const Variable&) = delete;
  Variable& operator=(const Variable&) = delete;

 private:
  const char* name_;
  bool had_ = false;
  std::string before_;
};

std::string moment(std::string_view words, std::string_view now) {
  const Result<std::int64_t> at = moment_of(words, instant_from(now)->ms);
  return at.value ? instant_text(*at.value) : at.problem;
}

Recipe buns() {
  Recipe recipe;
  recipe.title = "Buns";
  Part dough;
  dough.name = "dough";
  for (const StepKind kind : {StepKind::mix, StepKind::prove, StepKind::prove, StepKind::bake}) {
    Step step;
    step.kind = kind;
    dough.steps.push_back(step);
  }
  recipe.parts = {dough};
  return recipe;
}

constexpr std::int64_t k_minute_ms = 60000;

/// What is seen at that minute, with the words given.
std::vector<Observation> seen(Store& store, std::int64_t minute, const std::string& text) {
  NoteRequest request;
  request.trial = 1;
  request.text = text;
  request.at_ms = minute * k_minute_ms;
  const NoteWords words;
  return write_note(store, words, request).value->observations;
}

void mark(Store& store, int step, Mark what, std::int64_t minute) {
  REQUIRE(mark_trial_step(store, 1, {step, what, minute * k_minute_ms}).value);
}

}  // namespace

TEST_CASE("the store lies in the person's data folder") {
  {
    const Variable data("XDG_DATA_HOME", "/data");
    CHECK(default_store_file() == "/data/maslin/store.sqlite");
  }
  const Variable data("XDG_DATA_HOME", nullptr);
  {
    const Variable home("HOME", "/home/baker");
    CHECK(default_store_file() == "/home/baker/.local/share/maslin/store.sqlite");
  }
  const Variable home("HOME", nullptr);
  CHECK(default_store_file().empty());
  CHECK(open_store("").problem.find("--store") != std::string::npos);
}

TEST_CASE("a store that is only asked for is not made") {
  const ScratchFolder scratch;
  const Result<Store> store = open_store(scratch.file("s"), WhenMissing::leave);
  CHECK_FALSE(store.value);
  CHECK(store.problem.empty());
  CHECK_FALSE(std::filesystem::exists(scratch.file("s")));
}

TEST_CASE("a moment is read on the clock here") {
  // Central European Summer Time is two hours ahead of UTC in May, one in January.
  const Variable zone("TZ", "CET-1CEST,M3.5.0,M10.5.0/3");
  constexpr std::string_view k_now = "2026-05-01T12:30:00Z";
  CHECK(moment("", k_now) == "2026-05-01T12:30:00.000Z");
  CHECK(moment("14:00", k_now) == "2026-05-01T12:00:00.000Z");
  CHECK(moment("9:05", k_now) == "2026-05-01T07:05:00.000Z");
  // Half past eleven at night was yesterday.
  CHECK(moment("23:30", k_now) == "2026-04-30T21:30:00.000Z");
  CHECK(moment("2026-01-15T08:00", k_now) == "2026-01-15T07:00:00.000Z");
  CHECK(moment("2026-01-15T08:00Z", k_now) == "2026-01-15T08:00:00.000Z");
  for (const char* wrong : {"noon", "25:00", "7", "2026-01-15", "14:00Z"}) {
    CAPTURE(wrong);
    CHECK(moment(wrong, k_now).find("is no moment") != std::string::npos);
  }
}

TEST_CASE("text that is no UTF-8 is kept as text that is") {
  CHECK(kept_text("crème\xff") == "crème\xef\xbf\xbd");
}

TEST_CASE("what is seen now is timed from the step that is under way") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  StartRequest start;
  start.recipe = buns();
  REQUIRE(start_trial(store, start).value);

  CHECK_FALSE(seen(store, 5, "doubled").at(0).at_minutes);
  mark(store, 2, Mark::begun, 10);
  const Observation first = seen(store, 58, "doubled").at(0);
  CHECK(first.at_minutes == 48.0);
  CHECK(first.step == 2);
  // The words' own time comes first.
  CHECK(seen(store, 59, "doubled at 45 min").at(0).at_minutes == 45.0);
  CHECK_FALSE(seen(store, 59, "doubled at 45 min").at(0).step);
  mark(store, 2, Mark::done, 60);
  CHECK_FALSE(seen(store, 61, "doubled").at(0).at_minutes);
  mark(store, 3, Mark::begun, 70);
  CHECK(seen(store, 100, "x1.8").at(0).at_minutes == 30.0);
  // A note written late is timed by when it was seen.
  CHECK(seen(store, 50, "x1.5").at(0).at_minutes == 40.0);
  // A bake that is done while no bake was begun says nothing of its length.
  CHECK(seen(store, 101, "done").empty());
  mark(store, 4, Mark::begun, 110);
  const Observation done = seen(store, 132, "done").at(0);
  CHECK(done.value == 22.0);
  CHECK(done.step == 4);
  mark(store, 4, Mark::undone, 133);
  CHECK(seen(store, 134, "done").empty());
}

TEST_CASE("starting twice keeps the recipe once, and a kitchen without a name gets one") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  StartRequest start;
  start.recipe = buns();
  start.kitchen = Kitchen{};
  const auto first = start_trial(store, start);
  const auto second = start_trial(store, start);
  REQUIRE(first.value);
  REQUIRE(second.value);
  CHECK(second.value->trial.number == 2);
  CHECK(second.value->trial.version == first.value->trial.version);
  CHECK(second.value->trial.kitchen == "kitchen");
  CHECK(list_library(store, DocumentKind::recipe, "").value->at(0).versions == 1);
}

TEST_CASE("a recipe without a name is not kept, and nothing of it stays") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  StartRequest start;
  start.recipe = buns();
  start.recipe->title.clear();
  CHECK(start_trial(store, start).problem.find("has no name") != std::string::npos);
  start.recipe->title = "Buns";
  start.kitchen_name = "nowhere";
  CHECK(start_trial(store, start).problem.find("No kitchen called") != std::string::npos);
  CHECK(list_library(store, DocumentKind::recipe, "").value->empty());
}

TEST_CASE("closing gathers what was seen and says that nothing was learnt") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  StartRequest start;
  start.recipe = buns();
  REQUIRE(start_trial(store, start).value);
  seen(store, 1, "core 205");
  NoteRequest better;
  better.trial = 1;
  better.text = "core 96 C";
  better.instead_of = 1;
  const NoteWords words;
  REQUIRE(write_note(store, words, better).value);
  const auto closed = close_trial(Tools(), store, 1, 2 * k_minute_ms, {});
  REQUIRE(closed.value);
  REQUIRE(closed.value->observations.size() == 1);
  CHECK(closed.value->observations[0].value == 96.0);
  CHECK(closed.value->learnt.empty());
  CHECK_FALSE(closed.value->learning.empty());
  CHECK(close_trial(Tools(), store, 1, 3 * k_minute_ms, {}).problem.find("is closed") !=
        std::string::npos);
}

TEST_CASE("a closed trial takes scores, pictures and words, and nothing that teaches") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  StartRequest start;
  start.recipe = buns();
  REQUIRE(start_trial(store, start).value);
  seen(store, 1, "core 96");
  REQUIRE(close_trial(Tools(), store, 1, 2 * k_minute_ms, {}).value);
  const NoteWords words;
  const auto write = [&](const char* text, std::optional<std::int64_t> instead_of = {}) {
    NoteRequest note;
    note.trial = 1;
    note.text = text;
    note.at_ms = 3 * k_minute_ms;
    note.instead_of = instead_of;
    return write_note(store, words, note).problem;
  };
  CHECK(write("crumb 7/9, the best so far").empty());
  CHECK(write("smells of malt").empty());
  CHECK(write("taken back", 2).empty());
  CHECK(write("crust a shade dark").find("is closed") != std::string::npos);
  CHECK(write("crust #a0622d").find("is closed") != std::string::npos);
  // Nor may what taught be taken back behind the kitchen's back.
  CHECK(write("taken back", 1).find("is closed") != std::string::npos);
  CHECK(view_trial(store, 1).value->notes.size() == 4);
}

TEST_CASE("the classes that notes name are classes of the forecast") {
  const Table words(recipe_data::embedded_table("observation_words.tsv"));
  std::set<std::string_view> crusts;
  for (const Crust crust :
       {Crust::pale, Crust::light_gold, Crust::golden, Crust::brown, Crust::dark, Crust::burnt}) {
    crusts.insert(crust_name(crust));
  }
  for (std::size_t row = 0; row < words.size(); ++row) {
    const std::string_view value = words.cell(row, "value");
    CAPTURE(words.cell(row, "phrase"));
    if (words.cell(row, "role") == "feel") {
      CHECK(feel_from(value).has_value());
    } else if (words.cell(row, "role") == "crust") {
      CHECK(crusts.count(value) == 1);
    }
  }
}
