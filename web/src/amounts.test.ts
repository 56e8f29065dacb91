import assert from "node:assert/strict";
import { test } from "node:test";
import fc from "fast-check";
import { asWeighed, gramsToSlide, nudged, slideReach, slideToGrams, typedNumber, withAmounts } from "./amounts.ts";
import { lineKey } from "./source_ties.ts";

test("an amount that was set is exact in the recipe, the others keep their range", () => {
  const flour = { text: "flour", ingredient: "flour", grams: { p10: 450, p50: 500, p90: 560 } };
  const recipe = { parts: [{ kind: "dough", name: "dough", lines: [flour, { ...flour }] }] };
  const lines = withAmounts(recipe, { [lineKey(0, 1)]: 480 }).parts[0]?.lines;
  assert.deepEqual(lines?.[0]?.grams, flour.grams);
  assert.deepEqual(lines?.[1]?.grams, { p10: 480, p50: 480, p90: 480, shape: "point", a: 480, b: 0, c: 0 });
  assert.equal(recipe.parts[0]?.lines[1]?.grams?.p50, 500, "the recipe as found is untouched");
});

test("the slide's middle is the found amount and its ends are equal ratios", () => {
  assert.equal(slideToGrams(0, 500), 500);
  assert.equal(slideToGrams(slideReach, 500) * slideToGrams(-slideReach, 500), 800 * 313);
  assert.equal(gramsToSlide(500, 500), 0);
  assert.equal(gramsToSlide(5000, 500), slideReach);
  assert.equal(gramsToSlide(0, 500), -slideReach);
});

test("slide and grams go back and forth within a step of the scale", () => {
  fc.assert(
    fc.property(fc.double({ min: 0.5, max: 5000, noNaN: true }), fc.integer({ min: -100, max: 100 }), (found, slide) => {
      const grams = slideToGrams(slide, found);
      const again = slideToGrams(gramsToSlide(grams, found), found);
      const step = grams >= 19 ? 1 : grams >= 1.9 ? 0.1 : 0.01;
      assert.ok(Math.abs(again - grams) <= step * 1.001, `${grams} came back as ${again}`);
    }),
  );
});

test("every press of a key changes the weight", () => {
  for (const grams of [0.05, 1.3, 2, 7.1, 19.9, 20, 52, 520]) {
    assert.ok(nudged(grams, 1) > asWeighed(grams));
    assert.ok(nudged(grams, -1) < asWeighed(grams));
  }
  assert.equal(nudged(0, -1), 0);
});

test("typed numbers may have a comma or spaces; anything else is no number", () => {
  assert.equal(typedNumber("12,5"), 12.5);
  assert.equal(typedNumber(" 1 250 "), 1250);
  assert.equal(typedNumber(".5"), 0.5);
  assert.equal(typedNumber("3."), 3);
  assert.equal(typedNumber("1,250"), 1250);
  assert.equal(typedNumber("1,250.5"), 1250.5);
  assert.equal(typedNumber("1,250", ","), 1.25);
  assert.equal(typedNumber("1.250", ","), 1250);
  assert.equal(typedNumber("1.250,5", ","), 1250.5);
  assert.equal(typedNumber("12,50"), 12.5);
  for (const wrong of ["", "-3", "1e3", "abc", "1,2,3", "Infinity", "9999999999"]) {
    assert.equal(typedNumber(wrong), null, wrong);
  }
});
