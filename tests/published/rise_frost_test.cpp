// Frozen dough against what is printed of it.
#include <doctest/doctest.h>

#include "rise_kit.h"

using namespace maslin;
using namespace rise_kit;

namespace {

constexpr const char* k_thaw_page = "leaf.tv, how to thaw frozen bread dough quickly";
constexpr const char* k_oven_manual = "a bread machine's manual, Toastmaster 1771, page 10";
constexpr const char* k_chef = "chefwilkinson.blogspot.com, freezing yeasted dough, 2010";

RiseDough white_dough() {
  return rise_dough(portions_of(
      k_shelf, formula({{"flour_g", 500}, {"water_g", 310}, {"salt_g", 9}, {"yeast_g", 5}},
                       "instant", 24.0)));
}

Prove in_air(double celsius, double piece_g, ProveTarget target, double value) {
  Prove p;
  p.target = target;
  p.value = value;
  p.piece_g = piece_g;
  p.heat_transfer_w_per_m2k = 9.0;
  p.ambient = {{0.0, celsius + 273.15}};
  return p;
}

double hours_to_thaw(double piece_g, double celsius) {
  const RiseDough dough = white_dough();
  const std::vector<Prove> proves = {in_air(celsius, piece_g, ProveTarget::thawed, 0.0)};
  return run_proves(dough, start_of_rise(dough, 255.15), proves).proves[0].minutes_to_target[0] /
         60.0;
}

}  // namespace

TEST_CASE("frozen dough thaws as pages and manuals say") {
  // A pound, which is what frozen loaves weigh: taken here; so is a room of 21 C.
  book::against(rise("a pound of frozen dough thaws in the room", "h", k_thaw_page),
                hours_to_thaw(454.0, 21.0), book::between(4.0 * 0.75, 5.0 * 1.25));
  // Overnight or several hours in a refrigerator; a loaf of a pound and a half at 4 C taken.
  book::against(rise("a frozen loaf thaws in the fridge", "h", k_oven_manual),
                hours_to_thaw(680.0, 4.0), book::between(3.0, 12.0));
}

TEST_CASE("thawed pieces take longer than usual to double") {
  const RiseDough dough = white_dough();
  const RiseState mixed = start_of_rise(dough, 297.15);
  const Prove rise_to = in_air(27.0, 60.0, ProveTarget::volume_ratio, 2.0);
  Prove freezer = in_air(-18.0, 60.0, ProveTarget::minutes, 7.0 * 1440.0);
  freezer.freezes = true;
  const std::vector<Prove> usual = {rise_to};
  const std::vector<Prove> frozen = {freezer, in_air(4.0, 60.0, ProveTarget::minutes, 480.0),
                                     rise_to};
  const double times = run_proves(dough, mixed, frozen).proves.back().minutes_to_target[0] /
                       run_proves(dough, mixed, usual).proves.back().minutes_to_target[0];
  book::against(rise("doubling after a week's frost against before", "", k_oven_manual), times,
                book::between(1.1, 2.5));
}

TEST_CASE("the yeast lost to the freezer is about what is added for it") {
  RiseState s;
  s.yeast_g = 1.0;
  // As much as 10 per cent more yeast where it is kept longer than four days; a week taken.
  book::against(rise("yeast to add for a week's frost", "%", k_chef),
                100.0 * (1.0 / after_freezing(s, 7.0 / 30.0).yeast_g[0] - 1.0),
                book::near(10.0, 5.0));
}
