// What a step is once all of its clause is read.
#include "reading/step_reader.h"

namespace maslin::reading {

void StepReader::resolve(Open& open) {
  Step& step = open.step;
  if (open.strength == k_waiting || open.strength == k_cover || open.strength == k_frost) {
    const bool longer = !step.minutes || step.minutes->high > k_longest_rest;
    step.kind = context_.yeasted && longer ? StepKind::prove : StepKind::rest;
  }
  // A yeast dough that rests for an hour rises.
  const bool in_the_warm =
      step.place == "warm" && step.minutes && step.minutes->low > k_longest_rest;
  if (step.kind == StepKind::rest && context_.yeasted && step.minutes &&
      (step.minutes->low >= k_longest_nap || in_the_warm) && step.place != "cold") {
    step.kind = StepKind::prove;
  }
  // "Divide into halves."
  if (step.kind == StepKind::divide && !step.pieces && !step.piece_grams && context_.lots &&
      context_.lots->low >= 2.0) {
    step.pieces = context_.lots;
  }
  // "Place the dough in a warm area for 45 minutes", "put in the fridge overnight".
  // "Put on the tray, back in the bag 40 minutes" when it is shaped.
  const bool set_down =
      step.kind == StepKind::mix && open.strength == k_weak && step.minutes &&
      (((step.place == "warm" || step.place == "cold") && step.minutes->high > k_longest_rest) ||
       (context_.shaped && !context_.baked && !open.oven && !step.celsius &&
        step.minutes->low >= k_longest_rest));
  // "Put in a warm place until doubled": how long is not said.
  const bool grows = step.kind == StepKind::mix && open.strength == k_weak && !step.minutes &&
                     open.until_rises && (step.place == "warm" || step.place == "cold");
  // "Set a sponge till it rises for an hour."
  const bool rises = step.kind == StepKind::mix && open.until_rises && step.minutes &&
                     step.minutes->high > k_longest_rest;
  if (((set_down || grows) && context_.yeasted) || rises) {
    step.kind = StepKind::prove;
  }
  // "Will keep a week to 10 days": no rise lasts so long.
  constexpr double k_longest_prove_minutes = 4.0 * 24.0 * 60.0;
  if (step.kind == StepKind::prove && step.place != "frozen" && step.minutes &&
      step.minutes->low > k_longest_prove_minutes) {
    step.kind = StepKind::finish;
  }
  // Nor any bake: "wrapped, it keeps two weeks".
  constexpr double k_longest_bake_minutes = 36.0 * 60.0;
  if (step.kind == StepKind::bake && step.minutes && step.minutes->low > k_longest_bake_minutes) {
    step.kind = StepKind::finish;
  }
  if (open.preheat && !step.minutes) {
    context_.oven = step.celsius;
    context_.oven_fan = step.fan;
    step.kind = StepKind::mix;
    step.celsius.reset();
    step.fan = false;
    return;
  }
  // "They went into the oven for a quarter of an hour."
  if (open.inferred && open.oven && step.kind == StepKind::prove && step.minutes && !open.preheat &&
      step.minutes->low >= k_shortest_bake) {
    step.kind = StepKind::bake;
  }
  // "Oven 200. … 15-20 minutes till golden": what is waited for is no rise.
  const bool waits = step.kind == StepKind::prove || step.kind == StepKind::rest;
  if (open.inferred && waits && context_.oven && context_.shaped && !context_.baked &&
      !step.until.empty() && !open.until_rises && step.minutes &&
      step.minutes->low >= k_shortest_bake) {
    step.kind = StepKind::bake;
  }
  // "Put it in the oven for half an hour."
  if (step.kind == StepKind::mix && open.strength == k_weak && open.oven && step.minutes &&
      step.minutes->low >= k_shortest_bake && !open.preheat) {
    step.kind = StepKind::bake;
  }
  // "Preheat the oven … Cook for 15 minutes."
  const bool hob = step.kind == StepKind::fry || step.kind == StepKind::boil;
  if (hob && open.strength == k_weak && context_.oven && !step.celsius && step.minutes &&
      (step.kind == StepKind::fry || step.minutes->low > k_longest_rest)) {
    step.kind = StepKind::bake;
  }
  if (step.kind == StepKind::bake) {
    if (!step.celsius && context_.oven) {
      step.celsius = context_.oven;
      step.fan = context_.oven_fan;
      // "Oven 200." at the head only set the oven.
      for (Step& one : steps_) {
        if (step.minutes && one.kind == StepKind::bake && !one.minutes && one.celsius) {
          one.kind = StepKind::mix;
          one.celsius.reset();
          one.fan = false;
        }
      }
    } else if (step.celsius) {
      context_.oven = step.celsius;
      context_.oven_fan = step.fan;
    }
  }
  // "Cool. Freeze for up to three months": how it is kept.
  context_.baked = context_.baked || (step.kind == StepKind::bake && step.minutes);
  if (context_.baked && step.place == "frozen" &&
      (step.kind == StepKind::prove || step.kind == StepKind::rest)) {
    step.kind = StepKind::finish;
  }
  context_.shaped =
      context_.shaped || step.kind == StepKind::shape || step.kind == StepKind::divide;
}

}  // namespace maslin::reading
