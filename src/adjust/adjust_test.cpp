#include "adjust/adjust.h"

#include <doctest/doctest.h>

#include <cmath>
#include <ctime>
#include <string>
#include <vector>

#include "adjust/solver.h"
#include "adjust/want_words.h"
#include "dough/dough.h"
#include "forecast/bowl.h"
#include "numerics/draws.h"
#include "support/larder.h"

using namespace maslin;

namespace {

const Pantry& pantry() {
  static const Pantry one(embedded_pantry_tables());
  return one;
}

Line line_of(const std::string& id, double grams, const std::string& unit = "g",
             double count = 0.0) {
  Line out;
  out.name = id;
  out.ingredient_id = id;
  out.text = id;
  out.grams = point(grams);
  out.weighed = true;
  const double number = unit == "g" ? grams : count;
  out.found = {Range{number, number}, unit, "", ""};
  return out;
}

/// A soft enriched dough with three eggs and a packet of yeast.
Recipe bun_recipe() {
  Recipe out;
  out.title = "Buns";
  Part dough;
  dough.name = "dough";
  dough.lines = {line_of("plain_flour", 500.0),
                 line_of("whole_milk", 180.0),
                 line_of("egg", 150.0, "piece", 3.0),
                 line_of("caster_sugar", 120.0),
                 line_of("butter", 60.0),
                 line_of("salt", 6.0),
                 line_of("instant_yeast", 7.0, "packet", 1.0)};
  out.parts.push_back(dough);
  out.pieces = Range{12.0, 12.0};
  return out;
}

AdjustRequest asking(const std::vector<std::string>& wants,
                     const std::vector<std::string>& holds = {}) {
  AdjustRequest out;
  for (const std::string& want : wants) {
    const ParsedWant parsed = parse_want(want);
    REQUIRE_MESSAGE(parsed.want.has_value(), parsed.problem);
    out.wants.push_back(*parsed.want);
  }
  for (const std::string& hold : holds) {
    out.holds.push_back(parse_hold(hold));
  }
  return out;
}

DoughState dough_of(const Recipe& recipe) {
  Portions bowl;
  for (const Line& line : recipe.parts[0].lines) {
    bowl.items.push_back({pantry().find(line.ingredient_id), line.grams.p50()});
  }
  return assess_dough(dough_model(), bowl, {});
}

}  // namespace

TEST_CASE("the solver finds the corner and the whole number") {
  LinearProgram program;
  const std::size_t x = program.add_column({-1.0, 0.0, 10.0, true});
  const std::size_t y = program.add_column({-1.0});
  program.rows.push_back({{{x, 2.0}, {y, 1.0}}, -k_unbounded, 7.5});
  program.rows.push_back({{{x, 1.0}, {y, 3.0}}, -k_unbounded, 9.0});
  const LinearSolution solution = solve(program);
  REQUIRE(solution.status == SolveStatus::optimal);
  CHECK(solution.x[x] == doctest::Approx(3.0));
  CHECK(solution.x[y] == doctest::Approx(1.5));
  program.rows.push_back({{{x, 1.0}}, 20.0, k_unbounded});
  CHECK(solve(program).status == SolveStatus::infeasible);
}

TEST_CASE("no wants change nothing") {
  const Recipe recipe = bun_recipe();
  const Adjustment out = adjust_recipe(recipe, pantry(), {});
  CHECK(out.met);
  CHECK(out.changes.empty());
  CHECK(out.recipe == recipe);
}

TEST_CASE("a want that is met already changes nothing") {
  const Recipe recipe = bun_recipe();
  const Adjustment out = adjust_recipe(recipe, pantry(), asking({"sugar_pct_flour<=40"}));
  CHECK(out.met);
  CHECK(out.changes.empty());
}

TEST_CASE("twice and then half gives the recipe back") {
  const Recipe recipe = bun_recipe();
  const Adjustment twice = adjust_recipe(recipe, pantry(), asking({"scale=2"}));
  CHECK(grams_of(twice.recipe, "plain_flour") == doctest::Approx(1000.0));
  CHECK(twice.recipe.pieces->low == 24.0);
  const Adjustment back = adjust_recipe(twice.recipe, pantry(), asking({"scale=0.5"}));
  CHECK(back.met);
  CHECK(back.recipe == recipe);
}

TEST_CASE("less sugar is less sugar, and the feel is kept") {
  const Recipe recipe = bun_recipe();
  const Adjustment out = adjust_recipe(recipe, pantry(), asking({"sugar_pct_flour<=15"}));
  REQUIRE(out.met);
  CHECK(dough_of(out.recipe).sugar_pct_flour[0] <= 15.08);
  CHECK(dough_of(out.recipe).feel_score[0] ==
        doctest::Approx(dough_of(recipe).feel_score[0]).epsilon(0.05));
  CHECK(grams_of(out.recipe, "plain_flour") == 500.0);
  CHECK(grams_of(out.recipe, "egg") == 150.0);
  bool said = false;
  for (const LineChange& change : out.changes) {
    CHECK_FALSE(change.why.empty());
    said = said || change.why.find("sugar from") != std::string::npos;
  }
  CHECK(said);
}

TEST_CASE("a wanted feel is reached with eggs whole and held") {
  Recipe recipe = bun_recipe();
  recipe.parts[0].lines[1].grams = point(330.0);
  const Adjustment out = adjust_recipe(recipe, pantry(), asking({"feel=soft"}, {"eggs"}));
  REQUIRE(out.met);
  CHECK(feel_at(dough_of(out.recipe).feel_score[0]) == DoughFeel::soft);
  CHECK(grams_of(out.recipe, "egg") == 150.0);
}

TEST_CASE("a feel that is there already asks for no change") {
  const Recipe recipe = bun_recipe();
  REQUIRE(feel_at(dough_of(recipe).feel_score[0]) == DoughFeel::soft);
  CHECK(adjust_recipe(recipe, pantry(), asking({"feel=soft"})).changes.empty());
}

TEST_CASE("half of one packet is weighed out, and half of three eggs is whole") {
  const Adjustment out = adjust_recipe(bun_recipe(), pantry(), asking({"scale=0.5"}));
  REQUIRE(out.met);
  const std::vector<Line>& lines = out.recipe.parts[0].lines;
  CHECK(lines[6].grams.p50() == doctest::Approx(3.5).epsilon(0.03));
  const double eggs = lines[2].grams.p50() / 50.0;
  CHECK(eggs == doctest::Approx(std::round(eggs)));
}

TEST_CASE("for so much flour counts the flour that a sponge holds") {
  Recipe recipe = bun_recipe();
  Part sponge;
  sponge.name = "sponge";
  sponge.kind = PartKind::preferment;
  sponge.lines = {line_of("plain_flour", 100.0), line_of("water", 100.0)};
  Line poured;
  poured.text = "all the sponge";
  poured.name = "sponge";
  poured.part = "sponge";
  recipe.parts[0].lines.push_back(poured);
  recipe.parts.push_back(sponge);
  AdjustRequest request;
  const SaidWants words = wants_from_words("for 300 g of flour");
  request.wants = words.wants;
  REQUIRE(request.wants.size() == 1);
  const Adjustment out = adjust_recipe(recipe, pantry(), request);
  REQUIRE_MESSAGE(out.problem.empty(), out.problem);
  CHECK(out.recipe.parts[0].lines[0].grams.p50() == doctest::Approx(250.0).epsilon(0.01));
}

TEST_CASE("so much of one thing is the whole recipe by that") {
  AdjustRequest request;
  request.wants = wants_from_words("for 250 g of flour").wants;
  const Adjustment out = adjust_recipe(bun_recipe(), pantry(), request);
  REQUIRE(out.met);
  CHECK(out.recipe.parts[0].lines[0].grams.p50() == doctest::Approx(250.0).epsilon(0.01));
  CHECK(out.recipe.parts[0].lines[3].grams.p50() == doctest::Approx(60.0).epsilon(0.01));
  request.wants = wants_from_words("use up 100 g of honey").wants;
  CHECK(adjust_recipe(bun_recipe(), pantry(), request).problem.find("honey") != std::string::npos);
}

TEST_CASE("a loaf asked for as rolls is divided, not multiplied") {
  Recipe loaf = bun_recipe();
  loaf.pieces = Range{1.0, 1.0};
  const Adjustment out = adjust_recipe(loaf, pantry(), asking({"pieces=12"}));
  REQUIRE(out.met);
  CHECK(out.recipe.parts[0].lines[0].grams.p50() == doctest::Approx(500.0).epsilon(0.005));
  CHECK(out.recipe.pieces->low == 12.0);
}

TEST_CASE("less sugar is less of what is added, not of the milk's") {
  Recipe plain = bun_recipe();
  plain.parts[0].lines[3] = line_of("caster_sugar", 10.0);
  AdjustRequest request;
  request.wants = wants_from_words("half the sugar").wants;
  const Adjustment out = adjust_recipe(plain, pantry(), request);
  REQUIRE(out.met);
  CHECK(out.recipe.parts[0].lines[3].grams.p50() == doctest::Approx(5.0).epsilon(0.12));
  CHECK(out.recipe.parts[0].lines[1].grams.p50() == doctest::Approx(180.0).epsilon(0.06));
}

TEST_CASE("yeast to be swapped is the yeast that is there") {
  AdjustRequest request;
  request.wants = wants_from_words("swap yeast for fresh yeast").wants;
  const Adjustment out = adjust_recipe(bun_recipe(), pantry(), request);
  CHECK(out.problem.empty());
  CHECK(out.recipe.parts[0].lines[6].ingredient_id == "fresh_yeast");
}

TEST_CASE("cream without a row of its own goes as milk does when dairy is to go") {
  Recipe creamy = bun_recipe();
  creamy.parts[0].lines[1] = line_of("half_and_half", 180.0);
  const Adjustment out = adjust_recipe(creamy, pantry(), asking({"no_dairy"}));
  REQUIRE(out.met);
  CHECK(out.recipe.parts[0].lines[1].ingredient_id == "oat_milk");
}

TEST_CASE("softer than slack stops short of a batter, and says so") {
  Recipe slack = bun_recipe();
  Line& milk = slack.parts[0].lines[1];
  while (feel_at(dough_of(slack).feel_score[0]) < DoughFeel::slack) {
    milk = line_of("whole_milk", milk.grams.p50() + 5.0);
  }
  AdjustRequest request;
  request.wants = wants_from_words("softer").wants;
  const Adjustment out = adjust_recipe(slack, pantry(), request);
  REQUIRE(out.met);
  CHECK(dough_of(out.recipe).feel_score[0] > dough_of(slack).feel_score[0]);
  CHECK(feel_at(dough_of(out.recipe).feel_score[0]) == DoughFeel::slack);
  CHECK(adjustment_text(out).find("short of a batter") != std::string::npos);
}

TEST_CASE("so many pieces held are so many pieces, however the line was stated") {
  for (const char* unit : {"piece", "g"}) {
    Recipe recipe = bun_recipe();
    recipe.parts[0].lines[2] = line_of("egg", 150.0, unit, 3.0);
    const Adjustment out =
        adjust_recipe(recipe, pantry(), asking({"sugar_pct_flour<=20"}, {"egg=2"}));
    REQUIRE(out.met);
    CHECK(grams_of(out.recipe, "egg") == doctest::Approx(100.0).epsilon(0.1));
  }
}

TEST_CASE("eggs stay whole when the mass is wanted") {
  const Adjustment out =
      adjust_recipe(bun_recipe(), pantry(), asking({"pieces=16", "piece_grams=60"}));
  REQUIRE(out.met);
  double total = 0.0;
  for (const Line& line : out.recipe.parts[0].lines) {
    total += line.grams.p50();
  }
  CHECK(total == doctest::Approx(960.0).epsilon(0.005));
  const double eggs = grams_of(out.recipe, "egg") / 50.0;
  CHECK(eggs == doctest::Approx(std::round(eggs)));
  CHECK(out.recipe.pieces->low == 16.0);
}

TEST_CASE("without egg something stands in and is told of, and the dough keeps its feel") {
  const Recipe recipe = bun_recipe();
  const Adjustment out = adjust_recipe(recipe, pantry(), asking({"no_egg"}));
  REQUIRE(out.met);
  CHECK(grams_of(out.recipe, "egg") == 0.0);
  CHECK_FALSE(out.notes.empty());
  CHECK(dough_of(out.recipe).feel_score[0] ==
        doctest::Approx(dough_of(recipe).feel_score[0]).epsilon(0.1));
}

TEST_CASE("swapping yeasts keeps the lift") {
  const Adjustment out =
      adjust_recipe(bun_recipe(), pantry(), asking({"swap instant_yeast=fresh_yeast"}));
  REQUIRE(out.met);
  CHECK(grams_of(out.recipe, "fresh_yeast") == doctest::Approx(20.0).epsilon(0.05));
  CHECK(dough_of(out.recipe).yeast_pct_flour[0] ==
        doctest::Approx(dough_of(bun_recipe()).yeast_pct_flour[0]).epsilon(0.05));
}

TEST_CASE("wants that exclude each other are named, and only those") {
  const Adjustment out =
      adjust_recipe(bun_recipe(), pantry(),
                    asking({"sugar_pct_flour<=10", "sugar_pct_flour>=30", "salt_pct_flour<=1.2"}));
  CHECK_FALSE(out.met);
  REQUIRE(out.conflict.size() == 2);
  CHECK(out.conflict[0].want == "sugar_pct_flour<=10");
  CHECK(out.conflict[1].want == "sugar_pct_flour>=30");
  CHECK(out.recipe == bun_recipe());
}

TEST_CASE("a hold that stands in the way is felt, with what can be reached") {
  const Adjustment out = adjust_recipe(bun_recipe(), pantry(),
                                       asking({"sugar_pct_flour<=5"}, {"caster_sugar", "flour"}));
  CHECK_FALSE(out.met);
  REQUIRE(out.conflict.size() == 1);
  CHECK(out.conflict[0].nearest.find("sugar can be") != std::string::npos);
}

TEST_CASE("a want not understood gets one clear sentence") {
  CHECK_FALSE(parse_want("fluffiness=11").want.has_value());
  CHECK(parse_want("feel=fluffy").problem.find("very_stiff") != std::string::npos);
  CHECK_FALSE(parse_want("sugar_pct_flour<=").want.has_value());
  CHECK_FALSE(parse_want("").want.has_value());
}

TEST_CASE("four hundred random problems are each met or explained") {
  // Half have bounds drawn around what the recipe can be, half demand the impossible.
  int met = 0;
  double slowest_ms = 0.0;
  double all_ms = 0.0;
  for (std::uint32_t i = 0; i < 400; ++i) {
    const auto u = [&](const char* name) { return draw(name_key(name), 11, i); };
    const bool possible = i % 2 == 0;
    const int sugar = static_cast<int>(5.0 + 25.0 * u("sugar"));
    const int hydration = static_cast<int>(56.0 + 12.0 * u("hydration"));
    std::vector<std::string> wants = {
        "sugar_pct_flour<=" + std::to_string(sugar),
        "effective_hydration=" + std::to_string(hydration) + ".." + std::to_string(hydration + 4),
        "total_grams=" + std::to_string(static_cast<int>(600.0 + 1200.0 * u("total")))};
    if (!possible) {
      wants.push_back(u("kind") < 0.5 ? "sugar_pct_flour>=" + std::to_string(sugar + 5)
                                      : "water_pct_flour>=" + std::to_string(hydration + 60));
    }
    // Told, not judged; time of the processor, for a busy machine is no fault of the solver.
    const std::clock_t start = std::clock();
    const Adjustment out = adjust_recipe(bun_recipe(), pantry(), asking(wants));
    const double took_ms = 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    slowest_ms = std::fmax(slowest_ms, took_ms);
    all_ms += took_ms;
    CHECK(out.met == possible);
    met += out.met ? 1 : 0;
    if (possible) {
      CHECK(dough_of(out.recipe).sugar_pct_flour[0] <= 1.005 * sugar);
    } else {
      CHECK_FALSE(out.conflict.empty());
    }
  }
  MESSAGE(met << " of 400 met, the slowest in " << slowest_ms << " ms, the mean "
              << all_ms / 400.0);
  CHECK(met == 200);
}
