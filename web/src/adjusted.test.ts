import assert from "node:assert/strict";
import { test } from "node:test";
import { type Adjustment, asChanges, lineChanges, withAll, withChange } from "./adjusted.ts";
import type { Line, Recipe } from "./api.ts";
import { withAmounts } from "./amounts.ts";

const line = (ingredient: string, grams: number): Line =>
  ({ text: ingredient, ingredient, id: ingredient, grams: { p10: grams, p50: grams, p90: grams } });
const recipe: Recipe = {
  pieces: { low: 12, high: 12 },
  parts: [{ kind: "dough", name: "dough", lines: [line("flour", 500), line("milk", 300), line("salt", 10)], steps: [] }],
};
const answer: Adjustment = {
  met: true,
  recipe: {
    pieces: { low: 6, high: 6 },
    parts: [{ kind: "dough", name: "dough", lines: [line("flour", 250), line("oat milk", 150), line("salt", 10), line("water", 20)], steps: [] }],
  },
  changes: [
    { line: "flour", part: "dough", from_grams: 500, to_grams: 250, why: "is scaled", part_index: 0, line_index: 0 },
    { line: "20 g water", part: "dough", from_grams: 0, to_grams: 20, why: "keeps the feel", part_index: 0, line_index: 3 },
  ],
  swaps: [{ part_index: 0, line_index: 1, why: "milk becomes oat milk" }],
  conflict: [], nearest: [], notes: [],
};
const bench = { recipe, amounts: {} };
const grams = (laid: { recipe: Recipe; amounts: Record<string, number> }): (string | number)[][] =>
  withAmounts(laid.recipe, laid.amounts).parts[0]!.lines.map((one) => [one.ingredient, one.grams!.p50]);

test("a change of weight, a swap and an added line are each a change; salt is none", () => {
  assert.deepEqual(lineChanges(recipe, answer).map(({ key }) => key), ["line 0 0", "line 0 1", "line 0 3"]);
});

test("one change alone leaves the other lines", () => {
  const [flour, milk, water] = lineChanges(recipe, answer);
  assert.deepEqual(grams(withChange(bench, answer, flour!)), [["flour", 250], ["milk", 300], ["salt", 10]]);
  assert.deepEqual(grams(withChange(bench, answer, milk!)), [["flour", 500], ["oat milk", 150], ["salt", 10]]);
  assert.deepEqual(grams(withChange(bench, answer, water!)).at(-1), ["water", 20]);
});

test("all of it is the recipe of the answer", () => {
  const laid = withAll(bench, answer, lineChanges(recipe, answer));
  assert.deepEqual(grams(laid), answer.recipe.parts[0]!.lines.map((one) => [one.ingredient, one.grams!.p50]));
  assert.equal(laid.recipe.pieces?.low, 6);
});

test("a proposal with the same lines is weights set on them; one with others is laid whole", () => {
  const heavier: Recipe = { ...recipe, parts: recipe.parts.map((part) => ({
    ...part, steps: [{ kind: "bake", text: "Bake." }],
    lines: part.lines.map((one, i) => i === 0 ? { ...one, grams: { p10: 520, p50: 520, p90: 520 } } : one),
  })) };
  const laid = asChanges(recipe, heavier);
  assert.deepEqual(laid.amounts, { "line 0 0": 520 });
  assert.deepEqual(laid.recipe.parts[0]!.lines, recipe.parts[0]!.lines);
  assert.equal(laid.recipe.parts[0]!.steps![0]!.text, "Bake.");
  assert.deepEqual(asChanges(recipe, answer.recipe), { recipe: answer.recipe, amounts: {} });
});
