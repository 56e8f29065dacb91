// A bake on its way home from a card: what is read, and one sentence for what is not.
#include "app/baked.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "recipe/json.h"
#include "recipe/recipe_json.h"
#include "store/scratch_folder.h"
#include "support/larder.h"

using namespace maslin;

namespace {

constexpr std::int64_t k_begun_ms = 1777626000000;  // 2026-05-01T09:00Z
constexpr std::int64_t k_minute_ms = 60000;

Recipe buns() {
  Recipe recipe;
  recipe.title = "Buns";
  recipe.pieces = Range{8, 8};
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("strong_white_flour", 500), weighed_line("water", 320),
                 weighed_line("instant_yeast", 5), weighed_line("salt", 9)};
  for (const StepKind kind : {StepKind::mix, StepKind::prove, StepKind::bake}) {
    Step step;
    step.kind = kind;
    dough.steps.push_back(step);
  }
  recipe.parts = {dough};
  return recipe;
}

Json entry(const char* is, int step, std::int64_t minute) {
  return {{"key", "k" + std::to_string(minute)},
          {"at_ms", k_begun_ms + minute * k_minute_ms},
          {"is", is},
          {"step", step}};
}

Json note(const char* text, std::int64_t minute) {
  Json out = entry("note", 2, minute);
  out["text"] = text;
  return out;
}

Json bake() {
  Json out{{"maslin_baked", 1},
           {"key", "0123456789abcdef"},
           {"title", "Buns"},
           {"recipe_id", std::string(64, 'a')},
           {"kitchen", {{"room_celsius", 31}, {"oven", {{"kind", "charcoal_drum"}}}}},
           {"started_at_ms", k_begun_ms}};
  out["recipe"] = *parse_json(recipe_to_json(buns()));
  out["entries"] = Json::array({entry("begun", 2, 1), note("doubled at 31 min", 32),
                                note("golden", 60), entry("done", 2, 61)});
  return out;
}

std::string problem_of(const Json& document) {
  const Result<Baked> read = baked_from_json(json_text(document));
  CHECK(read.value.has_value() != !read.problem.empty());
  return read.problem;
}

/// A sentence may begin with the place in the file that it speaks of.
bool is_one_sentence(const std::string& words) {
  return words.size() > 20 && words.size() < 300 && words.back() == '.' &&
         words.find('\n') == std::string::npos;
}

Json without(Json document, const char* key) {
  document.erase(key);
  return document;
}
Json with(Json document, const char* key, Json value) {
  document[key] = std::move(value);
  return document;
}
Json with_entry(const Json& one) {
  Json out = bake();
  out["entries"].push_back(one);
  return out;
}

}  // namespace

TEST_CASE("a bake from a card is read whole") {
  const Result<Baked> read = baked_from_json(json_text(bake()));
  REQUIRE(read.value);
  CHECK(read.value->title == "Buns");
  CHECK(read.value->on == BakedOn::card);
  CHECK(read.value->kitchen.room_celsius == 31.0);
  CHECK(read.value->kitchen.oven == OvenKind::charcoal_drum);
  CHECK(read.value->started_at_ms == k_begun_ms);
  REQUIRE(read.value->entries.size() == 4);
  CHECK(read.value->entries[0].kind == BakedEntry::Kind::begun);
  CHECK(read.value->entries[1].text == "doubled at 31 min");
  CHECK(read.value->entries[3].step == 2);
}

TEST_CASE("what is no bake, or a damaged one, gets one sentence that says what to do") {
  const std::string whole = json_text(bake());
  for (const std::string& text :
       {std::string(), std::string("null"), std::string("[]"), std::string("{}"),
        std::string("<!doctype html>"), std::string("\xff\xfe{"), std::string(100000, '['),
        whole.substr(0, whole.size() / 2), whole.substr(0, whole.size() - 1), whole.substr(1)}) {
    CAPTURE(text.substr(0, 30));
    const Result<Baked> read = baked_from_json(text);
    CHECK_FALSE(read.value);
    CHECK(is_one_sentence(read.problem));
    CHECK(read.problem.find("no bake from a living card") != std::string::npos);
  }
  const std::pair<Json, const char*> changed[] = {
      {with(bake(), "maslin_baked", 2), "no bake from a living card"},
      {with(bake(), "maslin_baked", "1"), "no bake from a living card"},
      {without(bake(), "started_at_ms"), "when it was begun"},
      {with(bake(), "started_at_ms", -5), "when it was begun"},
      {with(bake(), "started_at_ms", 1e300), "when it was begun"},
      {with(bake(), "started_at_ms", "noon"), "when it was begun"},
      {with(without(bake(), "recipe"), "recipe_id", "short"), "of which recipe"},
      {without(bake(), "entries"), "no list of entries"},
      {with(bake(), "entries", Json{{"0", 1}}), "no list of entries"},
      {with_entry(7), "entries[4]"},
      {with_entry(entry("sung", 1, 1)), "entries[4]"},
      {with_entry(without(entry("done", 1, 1), "at_ms")), "entries[4]"},
      {with_entry(note(std::string(4001, 'x').c_str(), 1)), "4 000 bytes"},
      {with(bake(), "entries", Json(std::vector<Json>(5001, entry("done", 1, 1)))),
       "5 000 entries"},
      {with(bake(), "title", std::string(4000000, 'x')), "larger than 4 MB"},
      {with(bake(), "kitchen", 7), ""},
      {with(bake(), "kitchen", {{"room_celsius", 900}}), "room_celsius"},
      {with(bake(), "recipe", Json{{"parts", 7}}), "parts"},
  };
  for (const auto& [document, says] : changed) {
    const std::string problem = problem_of(document);
    CAPTURE(says);
    CAPTURE(problem);
    CHECK(is_one_sentence(problem));
    CHECK(problem.find(says) != std::string::npos);
  }
}

TEST_CASE("any cut and any changed byte is read or refused, never worse") {
  const std::string whole = json_text(bake());
  CHECK(rc::check([&] {
    std::string text = whole.substr(0, *rc::gen::inRange<std::size_t>(0, whole.size() + 1));
    if (!text.empty()) {
      text[*rc::gen::inRange<std::size_t>(0, text.size())] = *rc::gen::arbitrary<char>();
    }
    const Result<Baked> read = baked_from_json(text);
    RC_ASSERT(read.value.has_value() == read.problem.empty());
  }));
}

TEST_CASE("a bake becomes an open trial, and the same bake twice adds nothing") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const NoteWords words;
  const Result<Baked> read = baked_from_json(json_text(bake()));
  REQUIRE(read.value);
  const Result<ImportedTrial> first = import_baked(store, words, *read.value);
  REQUIRE_MESSAGE(first.value, first.problem);
  CHECK(first.value->added == 4);
  REQUIRE(first.value->view.notes.size() == 2);
  CHECK(first.value->view.notes[0].text == "doubled at 31 min");
  CHECK_FALSE(first.value->view.trial.closed_at_ms.has_value());
  CHECK(import_baked(store, words, *read.value).value->added == 0);
  // A later copy of the same bake brings only what is new.
  Json later = bake();
  later["entries"].push_back(note("done after 27 min", 90));
  CHECK(import_baked(store, words, *baked_from_json(json_text(later)).value).value->added == 1);
}

TEST_CASE("a doubtful note that was so is written again, sure, and asks no more") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const NoteWords words;
  Json document = bake();
  Json odd = note("core 205", 70);
  document["entries"].push_back(odd);
  const auto questions = [&](const Json& sent) {
    const auto baked = baked_from_json(json_text(sent));
    REQUIRE_MESSAGE(baked.value, baked.problem);
    const auto imported = import_baked(store, words, *baked.value);
    REQUIRE_MESSAGE(imported.value, imported.problem);
    int out = 0;
    for (const Note& one : imported.value->view.notes) {
      for (const Observation& seen : observations_from_json(one.observations)) {
        out += one.corrected || seen.question.empty() ? 0 : 1;
      }
    }
    return out;
  };
  CHECK(questions(document) == 1);
  Json back = entry("taken_back", 0, 71);
  back["note"] = odd["key"];
  Json sure = odd;
  sure["key"] = "again";
  sure["at_ms"] = odd["at_ms"].get<std::int64_t>() + 1;
  sure["sure"] = true;
  document["entries"].push_back(back);
  document["entries"].push_back(sure);
  CHECK(questions(document) == 0);
  const auto again = import_baked(store, words, *baked_from_json(json_text(document)).value);
  CHECK(again.value->added == 0);
}

TEST_CASE("a code asks for its recipe, which it does not hold") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const Result<Baked> code = baked_from_json(json_text(without(bake(), "recipe")));
  REQUIRE(code.value);
  const Result<ImportedTrial> imported = import_baked(store, NoteWords(), *code.value);
  CHECK_FALSE(imported.value);
  CHECK(is_one_sentence(imported.problem));
  CHECK(imported.problem.find("ask for the file") != std::string::npos);
}
