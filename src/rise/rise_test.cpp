#include "rise/rise.h"

#include <doctest/doctest.h>

#include <initializer_list>
#include <utility>
#include <vector>

#include "rise/prove_start.h"
#include "rise/yeast.h"

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
    const int ahead = steps_ahead(now, Lanes(303.15), {}, c);
    for (int step = 0; step < ahead; ++step) {
      now = stepped(now, plain.setting, Lanes(303.15), 300.0 / ahead, c);
    }
    CHECK(run.proves[0].volume_ratio[k][3] == now.volume_ml[3] / first);
  }
}

TEST_CASE("an empty bowl, no air given and a tray of no thickness give finite figures") {
  const RiseDough nothing = rise_dough(Portions{});
  Prove prove;
  prove.shape = DoughShape::slab;
  const std::vector<Prove> proves = {prove};
  RiseSettings settings;
  settings.limit_minutes = 30.0;
  const RiseRun run = run_proves(nothing, start_of_rise(nothing, 300.15), proves, {}, settings);
  CHECK(run.proves[0].status == RiseStatus::nothing_to_rise);
  CHECK(run.proves[0].minutes_to_target[0] == 30.0);
  for (const Lanes& v : run.proves[0].volume_ratio) {
    CHECK(all(v < 10.0));
    CHECK(all(v >= 0.0));
  }
}

TEST_CASE("a room warming through the day hurries the dough, and a time target is met") {
  const Kit kit;
  const RiseDough d = kit.dough(2.0, 0.0, 2.0, 65.0);
  Prove cool = doubling(18.0);
  Prove warming = doubling(18.0);
  warming.ambient.push_back({180.0, 303.15});
  warming.clock = AmbientClock::from_mixing;
  const std::vector<Prove> a = {cool};
  const std::vector<Prove> b = {warming};
  const RiseState start = start_of_rise(d, 295.15);
  CHECK(run_proves(d, start, b).proves[0].minutes_to_target[0] <
        run_proves(d, start, a).proves[0].minutes_to_target[0]);
  Prove timed = cool;
  timed.target = ProveTarget::minutes;
  timed.value = 47.0;
  const std::vector<Prove> c = {timed};
  const RiseRun run = run_proves(d, start, c);
  CHECK(run.proves[0].minutes_to_target[0] == doctest::Approx(47.0).epsilon(1e-9));
  CHECK(run.end.minutes[0] == doctest::Approx(47.0).epsilon(1e-9));
}

TEST_CASE("a ripe preferment brings its grown yeast and its acid, and leaves its spent sugar") {
  const Kit kit;
  const RiseDough poolish = kit.dough(0.25, 0.0, 0.0, 100.0);
  Prove night;
  night.target = ProveTarget::minutes;
  night.value = 840.0;
  night.ambient = {{0.0, 294.15}};
  const std::vector<Prove> proves = {night};
  const RiseState before = start_of_rise(poolish, 294.15);
  const RiseState ripe = run_proves(poolish, before, proves).end;
  CHECK(ripe.yeast_g[0] > 1.5 * before.yeast_g[0]);
  const RiseDough dough = kit.dough(1.0, 0.0, 2.0, 65.0);
  const RiseState raw = start_of_rise(dough, 297.15);
  const RiseState joined = mix_in(raw, before, ripe, 0.3);
  CHECK(joined.yeast_g[0] > raw.yeast_g[0]);
  CHECK(joined.hexose_g[0] < raw.hexose_g[0]);
  CHECK(joined.induction[0] > 0.0);
}

TEST_CASE("yeast lives in warm milk, suffers in hot and dies in scalding") {
  CHECK(yeast_comfort(273.15 + 38.0) == YeastComfort::comfortable);
  CHECK(yeast_comfort(273.15 + 46.0) == YeastComfort::caution);
  CHECK(yeast_comfort(273.15 + 52.0) == YeastComfort::damaging);
  CHECK(yeast_comfort(273.15 + 60.0) == YeastComfort::deadly);
  CHECK(yeast_surviving(273.15 + 40.0, 10.0)[0] > 0.97);
  CHECK(yeast_surviving(273.15 + 60.0, 5.0)[0] < 1e-6);
}

TEST_CASE("freezing costs a tenth of the yeast, a month in the freezer another; the gluten too") {
  RiseState s;
  s.yeast_g = 3.0;
  CHECK(after_freezing(s, 0.0).yeast_g[0] == doctest::Approx(2.7));
  CHECK(after_freezing(s, 1.0).yeast_g[0] == doctest::Approx(2.43));
  CHECK(after_freezing(s, 1.0).strength[0] == doctest::Approx(0.95 * 0.95));
}

TEST_CASE("at altitude the same gas lifts more") {
  const Kit kit;
  const RiseDough d = kit.dough(2.0, 0.0, 2.0, 65.0);
  const std::vector<Prove> proves = {doubling(25.0)};
  RiseSettings high;
  high.pressure_pa = 74000.0;
  const RiseState start = start_of_rise(d, 298.15);
  CHECK(run_proves(d, start, proves, {}, high).proves[0].minutes_to_target[0] <
        0.95 * run_proves(d, start, proves).proves[0].minutes_to_target[0]);
}
