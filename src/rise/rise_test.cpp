#include "rise/rise.h"

#include <doctest/doctest.h>

#include <initializer_list>
#include <utility>
#include <vector>

#include "rise/prove_start.h"

using namespace maslin;

namespace {

Ingredient make(IngredientKind kind, std::initializer_list<std::pair<Component, double>> parts) {
  Ingredient i;
  i.kind = kind;
  for (const auto& [component, share] : parts) {
    i.composition[component] = share;
  }
  return i;
}

struct Kit {
  Ingredient flour = make(IngredientKind::flour, {{Component::water, 0.14},
                                                  {Component::protein, 0.12},
                                                  {Component::fat, 0.013},
                                                  {Component::starch, 0.69},
                                                  {Component::fibre, 0.03},
                                                  {Component::minerals, 0.006}});
  Ingredient water = make(IngredientKind::water, {{Component::water, 1.0}});
  Ingredient salt =
      make(IngredientKind::salt, {{Component::minerals, 1.0}, {Component::salt, 1.0}});
  Ingredient sugar = make(IngredientKind::sugar, {{Component::sucrose, 1.0}});
  Ingredient yeast = make(
      IngredientKind::yeast,
      {{Component::water, 0.7}, {Component::protein, 0.15}, {Component::other_carbohydrate, 0.13}});
  Kit() {
    flour.flour.gluten = Gluten::strong;
    yeast.yeast = {YeastKind::fresh, 1.0, 0.2};
  }
  RiseDough dough(double yeast_g, double sugar_g, double salt_g, double water_g) const {
    Portions p;
    p.items = {
        {&flour, 100.0}, {&water, water_g}, {&salt, salt_g}, {&sugar, sugar_g}, {&yeast, yeast_g}};
    return rise_dough(p);
  }
};

Prove doubling(double celsius) {
  Prove p;
  p.name = "bulk";
  p.ambient = {{0.0, celsius + 273.15}};
  return p;
}

double minutes_to_double(const RiseDough& d, double celsius) {
  const RiseState s = start_of_rise(d, celsius + 273.15);
  const std::vector<Prove> proves = {doubling(celsius)};
  return run_proves(d, s, proves).proves[0].minutes_to_target[0];
}

}  // namespace

TEST_CASE("a lean dough doubles in about an hour and a quarter at 27 C") {
  // 1 % instant yeast, 2 % salt, 26-27 C: 60-90 min, common practice, no source.
  const Kit kit;
  const double minutes = minutes_to_double(kit.dough(2.86, 0.0, 2.0, 65.0), 27.0);
  CHECK(minutes > 60.0);
  CHECK(minutes < 90.0);
}

TEST_CASE("a dough without yeast does not move and says so") {
  const Kit kit;
  const RiseDough d = kit.dough(0.0, 5.0, 2.0, 65.0);
  const std::vector<Prove> proves = {doubling(27.0)};
  const RiseRun run = run_proves(d, start_of_rise(d, 300.15), proves);
  CHECK(run.proves[0].status == RiseStatus::nothing_to_rise);
  CHECK(!any(run.proves[0].reached));
  CHECK(run.end.co2_made_mol[0] == 0.0);
}

TEST_CASE("sugar, carbon dioxide and ethanol balance over two proves") {
  const Kit kit;
  const RiseDough d = kit.dough(3.0, 20.0, 1.0, 58.0);
  std::vector<Prove> proves = {doubling(30.0), doubling(32.0)};
  proves[1].gas_kept_before = 0.4;
  proves[1].piece_g = 60.0;
  const RiseRun run = run_proves(d, start_of_rise(d, 298.15), proves);
  CHECK(all(run.proves[1].reached));
  CHECK(run.balance.sugar[0] < 1e-6);
  CHECK(run.balance.carbon_dioxide[0] < 1e-6);
  CHECK(run.balance.ethanol[0] < 1e-6);
  CHECK(run.proves[1].minutes_to_target[0] < run.proves[0].minutes_to_target[0]);
}

TEST_CASE("the loop compiled for wide registers gives the bits of the plain one") {
  const Kit kit;
  const RiseDough d = kit.dough(3.0, 12.0, 1.5, 60.0);
  Lanes vigour;
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    vigour.set(i, 0.6 + 0.1 * static_cast<double>(i));
  }
  RiseUnknowns u;
  u.yeast_vigour = vigour;
  const RiseState start = start_of_rise(d, 297.15, u);
  const std::vector<Prove> proves = {doubling(30.0)};
  const RiseRun run = run_proves(d, start, proves, u);

  using namespace rise_model;
  const RiseConstants c;
  const ProveStart plain = begin_prove(d, start, proves[0], u, {}, c);
  Moment<Lanes> now = plain.moment;
  const double first = now.volume_ml[3];
  for (std::size_t k = 1; k < run.proves[0].volume_ratio.size(); ++k) {
    for (int step = 0; step < 5; ++step) {
      now = stepped(now, plain.setting, Lanes(303.15), 60.0, c);
    }
    CHECK(run.proves[0].volume_ratio[k][3] == now.volume_ml[3] / first);
  }
}
