// A sweet bun carried to one unlike kitchen after the other: what a baker there must be told.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "handon/altitude.h"
#include "handon/card_text.h"
#include "handon/handon.h"
#include "handon/power.h"
#include "pantry/pantry.h"
#include "recipe/recipe_json.h"
#include "support/larder.h"

using namespace maslin;
using namespace maslin::handon;

namespace {

Kitchen kitchen(const std::string& json) {
  const KitchenDocument document = kitchen_from_json(json);
  REQUIRE(document.problems.empty());
  return document.kitchen;
}

Line line(const char* id, double grams) {
  Line out;
  out.ingredient_id = id;
  out.name = whole_pantry().find(id)->name;
  out.text = out.name;
  out.found = {Range{grams, grams}, "g", "", ""};
  out.grams = point(grams);
  out.weighed = true;
  return out;
}

Step step(StepKind kind, double minutes, const char* until) {
  Step out;
  out.kind = kind;
  out.until = until;
  if (minutes > 0.0) {
    out.minutes = Range{minutes, minutes};
  }
  return out;
}

Recipe buns() {
  Recipe out;
  out.title = "Milk buns";
  out.locale = "uk";
  out.pieces = Range{8, 8};
  Part dough;
  dough.name = "dough";
  dough.lines = {
      line("strong_white_flour", 400), line("whole_milk", 240), line("butter", 40),
      line("caster_sugar", 40),        line("salt", 7),         line("instant_yeast", 5)};
  dough.steps = {step(StepKind::knead, 10, ""), step(StepKind::prove, 60, "doubled"),
                 step(StepKind::divide, 0, ""), step(StepKind::prove, 40, "puffy"),
                 step(StepKind::bake, 16, "golden")};
  dough.steps[2].pieces = Range{8, 8};
  dough.steps[4].celsius = Range{200, 200};
  out.parts.push_back(std::move(dough));
  return out;
}

Card carried(const std::string& to, const Recipe& recipe = buns(), const char* language = "en-GB") {
  CarryRequest request;
  request.to = kitchen(to);
  request.from = kitchen(
      R"({"country":"uk","room_celsius":21,"oven":{"kind":"conventional"},"measures":["scale"]})");
  request.language = language;
  request.forecast = {1, 64};
  Card card = carry(recipe, whole_pantry(), request);
  REQUIRE(card.problem.empty());
  return card;
}

bool noted(const Card& card, std::string_view what) {
  return std::any_of(card.notes.begin(), card.notes.end(), [what](const std::string& note) {
    return note.find(what) != std::string::npos;
  });
}
bool advised(const Card& card, std::string_view what) {
  return std::any_of(card.baking.begin(), card.baking.end(), [what](const BakeAdvice& advice) {
    return advice.words.find(what) != std::string::npos;
  });
}
const Difference* differs(const Card& card, const char* what) {
  const auto at = std::find_if(card.differences.begin(), card.differences.end(),
                               [what](const Difference& one) { return one.what == what; });
  return at == card.differences.end() ? nullptr : &*at;
}
const CardChange* changed(const Card& card, std::string_view what) {
  const auto at = std::find_if(card.changes.begin(), card.changes.end(),
                               [what](const CardChange& one) { return one.what == what; });
  return at == card.changes.end() ? nullptr : &*at;
}

}  // namespace

TEST_CASE("where there is a steamer and no oven the buns are steamed, and stay white") {
  const Card card = carried(R"({"oven":{"kind":"steamer"},"measures":["scale"]})");
  const Step& last = card.recipe.parts[0].steps.back();
  CHECK(last.kind == StepKind::steam);
  CHECK_FALSE(last.celsius.has_value());
  CHECK(last.until.empty());
  REQUIRE(card.there.bake.has_value());
  // Buns of 50 to 100 g steam for 10 to 20 minutes: common practice, no source.
  CHECK(card.there.bake->minutes.p50 > 8.0);
  CHECK(card.there.bake->minutes.p50 < 25.0);
  CHECK(card.there.bake->done.weight_loss_pct.p50 < 0.5);
  CHECK(card.there.bake->done.lightness.p50 > 78.0);
  CHECK(differs(card, "crust") != nullptr);
  REQUIRE(changed(card, "the bake") != nullptr);
  CHECK(changed(card, "the bake")->to == "a steamer");
  CHECK(advised(card, "hard boil"));
  CHECK_FALSE(advised(card, "rings hollow"));
  CHECK(std::any_of(card.cautions.begin(), card.cautions.end(),
                    [](const Caution& one) { return one.id == "way:steam"; }));
}

TEST_CASE("steam is as hot as water boils there") {
  const Card high =
      carried(R"({"oven":{"kind":"steamer"},"measures":["scale"],"altitude_m":2600})");
  CHECK(high.there.bake->setting_celsius == doctest::Approx(boiling_celsius(2600)).epsilon(0.002));
  CHECK(high.there.bake->done.core_celsius.p50 < boiling_celsius(2600));
}

TEST_CASE("a toaster oven is its own oven, small and hot above") {
  const Card card = carried(R"({"oven":{"kind":"toaster"},"measures":["scale"]})");
  REQUIRE(card.batch.has_value());
  CHECK(card.batch->loads > 1);
  CHECK(card.batch->words.find("the toaster oven") != std::string::npos);
  CHECK(advised(card, "The elements are near"));
  REQUIRE(changed(card, "the bake") != nullptr);
  CHECK(changed(card, "the bake")->why.find("no darker") != std::string::npos);
  // As it was said before there was such a kind.
  CHECK(kitchen(R"({"equipment":["toaster_oven"]})").oven == OvenKind::toaster);
}

TEST_CASE("power for four hours a day: the bake is fitted in, and the fridge not trusted") {
  Recipe overnight = buns();
  overnight.parts[0].steps[1].place = "cold";
  overnight.parts[0].steps[1].minutes = Range{600, 600};
  const Card card =
      carried(R"({"oven":{"kind":"fan"},"measures":["scale"],"power_hours":4,"room_celsius":24})",
              overnight);
  CHECK(noted(card, "Power is on for 4 hours a day"));
  CHECK(noted(card, "no later than"));
  CHECK(card.recipe.parts[0].steps[1].place.empty());
  REQUIRE(changed(card, "the cold rise") != nullptr);
  CHECK(changed(card, "the cold rise")->why.find("four without") != std::string::npos);
  // A fire asks nothing of the mains, and a day with power nothing of anybody.
  CHECK_FALSE(noted(carried(R"({"oven":{"kind":"wood"},"power_hours":4})"), "Power is on"));
  CHECK_FALSE(noted(carried(R"({"oven":{"kind":"fan"}})"), "Power is on"));
}

TEST_CASE("too little power is said, with what can be done") {
  const CardWords words("en-GB");
  const Kitchen short_of = kitchen(R"({"oven":{"kind":"conventional"},"power_hours":1})");
  // 18 min to heat, 3 to reload (data/oven_room.tsv): 60 min hold one load of 30, not two.
  const auto part = power_note(short_of, 3, 30.0, words);
  REQUIRE(part.has_value());
  CHECK(part->find("fit into that time: 1;") != std::string::npos);
  const auto none = power_note(short_of, 1, 50.0, words);
  REQUIRE(none.has_value());
  CHECK(none->find("cannot be baked there") != std::string::npos);
}

TEST_CASE("a room of 36 °C: colder water, less yeast, a shorter rise") {
  const Card hot = carried(R"({"room_celsius":36,"fridge":false,"oven":{"kind":"pot"},
      "measures":[{"name":"jar","ml":370},{"name":"spoon","ml":9}]})");
  CHECK(noted(hot, "coldest water"));
  REQUIRE(changed(hot, "fast-action dried yeast") != nullptr);
  CHECK(hot.recipe.parts[0].lines[5].grams.p50() < 5.0);
  const Card cold = carried(R"({"room_celsius":14,"measures":["scale"]})");
  CHECK_FALSE(noted(cold, "coldest water"));
  REQUIRE(differs(cold, "first rise") != nullptr);
  CHECK(differs(cold, "first rise")->there.p50 > differs(cold, "first rise")->home.p50);
}

TEST_CASE("what no spoon there measures comes another way, never silently") {
  Recipe few = buns();
  few.parts[0].lines[4] = line("salt", 3);
  few.parts[0].lines[5] = line("baking_powder", 2);
  const Card card =
      carried(R"({"measures":[{"name":"jar","ml":370},{"name":"spoon","ml":12}]})", few);
  for (const CardLine& one : card.parts[0].lines) {
    const bool tiny = one.grams < 4.0;
    if (tiny && one.amount.way == AmountWay::measures && std::fabs(one.amount.error_pct) > 4.0) {
      CHECK_MESSAGE((noted(card, "Nearer for " + one.name) || noted(card, "times the batch")),
                    one.name);
    }
  }
}

TEST_CASE("a card in another language keeps the recipe's own words under its sentences") {
  Recipe told = buns();
  told.parts[0].steps[1].text = "Cover with a damp cloth and leave until doubled, 1 hour.";
  told.parts[0].steps[1].until = "doubled in size";
  const Card card = carried(R"({"measures":["scale"],"country":"de"})", told, "de");
  const std::string text = card_to_text(card, whole_pantry());
  CHECK(text.find("verdoppelt") != std::string::npos);
  CHECK(text.find("Im Wortlaut des Rezepts: Cover with a damp cloth") != std::string::npos);
  CHECK(text.find("Enthält Gluten, Milch") != std::string::npos);
  CHECK(text.find("Do not taste") == std::string::npos);
}
