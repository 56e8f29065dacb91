import assert from "node:assert/strict";
import { test } from "node:test";
import { isBench } from "./autosave.ts";
import { begun, changed, moved, redone, undone } from "./history.ts";
import { duration, gramsFigure, kitchenFigure, rangeWords, saidDurations, sureness } from "./numbers.ts";
import { degrees, entryOf, tongueOf, unitWord, word } from "./words.ts";

const spaced = (text: string): string => text.replaceAll("\u00a0", " ");

test("times are said in hours and minutes, with the unit once where it is shared", () => {
  assert.equal(spaced(duration(48)), "48 min");
  assert.equal(spaced(duration(65)), "1 h 5 min");
  assert.equal(spaced(duration(120)), "2 h");
  assert.equal(spaced(duration(51 * 60)), "2 days 3 h");
  assert.equal(spaced(saidDurations(16.2, 22.4)), "16 to 22 min");
  assert.equal(spaced(saidDurations(52, 83)), "52 min to 1 h 25 min");
  assert.equal(spaced(saidDurations(30, 30)), "30 min");
});

test("weights are printed to the step of a scale, and a range that prints as one is one", () => {
  assert.equal(gramsFigure(521.4), "521");
  assert.equal(gramsFigure(7.13), "7.1");
  assert.equal(gramsFigure(0.456), "0.46");
  assert.equal(rangeWords({ p10: 457.6, p50: 520, p90: 582.4 }), "458 to 582");
  assert.equal(rangeWords({ p10: 520, p50: 520, p90: 520 }), "520");
  assert.equal(sureness({ p10: 520, p50: 520, p90: 520 }), "exact");
  assert.equal(sureness({ p10: 300, p50: 500, p90: 800 }), "a wide guess");
});

test("found amounts are written as cups and spoons are marked", () => {
  assert.equal(kitchenFigure(2.25), "2¼");
  assert.equal(kitchenFigure(1 / 3), "⅓");
  assert.equal(kitchenFigure(4), "4");
  assert.equal(kitchenFigure(0.1), "0.1");
  assert.equal(unitWord("cup", 4), "cups");
  assert.equal(unitWord("cup", 0.5), "cup");
  assert.equal(unitWord("tbsp", 2), "tbsp");
  assert.equal(unitWord("glass", 2), "glasses");
  assert.equal(unitWord("constructor", 2), "constructors");
  assert.equal(entryOf({ a: 1 }, "__proto__"), undefined);
});

test("American readers get Fahrenheit and their words, others Celsius", () => {
  assert.equal(tongueOf("en-US"), "american");
  assert.equal(tongueOf("en-GB"), "british");
  assert.equal(tongueOf("de-DE"), "british");
  assert.equal(spaced(degrees(190.6, "american")), "375 °F");
  assert.equal(spaced(degrees(93.2, "british")), "93 °C");
  assert.equal(word("Prove", "american"), "Rise");
  assert.equal(word("Knead", "american"), "Knead");
});

test("a drag is one step to undo, and a new change drops what could be redone", () => {
  const start = begun(1);
  const dragged = changed(start, 4);
  assert.equal(moved(start, 2).past.length, 0);
  assert.equal(undone(dragged).present, 1);
  assert.equal(redone(undone(dragged)).present, 4);
  assert.equal(redone(changed(undone(dragged), 9)).present, 9);
  assert.equal(undone(start), start);
});

test("only a whole bench is taken back from the browser's store", () => {
  const bench = { found: "", name: "", recipe: null, amounts: {}, settled: [], kitchen: {} };
  assert.equal(isBench(bench), true);
  assert.equal(isBench({ ...bench, recipe: { parts: [] } }), true);
  for (const wrong of [null, 7, [], { ...bench, recipe: {} }, { ...bench, amounts: null }, { found: "" }]) {
    assert.equal(isBench(wrong), false);
  }
});
