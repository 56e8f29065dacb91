import assert from "node:assert/strict";
import { test } from "node:test";
import fc from "fast-check";
import type { Recipe } from "./api.ts";
import { doubtPlace, lineKey, stepKey, tied } from "./source_ties.ts";

const line = (text: string) => ({ text, ingredient: text });
const recipe = (lines: string[], steps: string[] = []): Recipe => ({
  parts: [{ kind: "dough", name: "dough", lines: lines.map(line), steps: steps.map((text) => ({ kind: "mix", text })) }],
});

test("each line and step owns its words, and the rest stays between", () => {
  const found = "Buns\n500 g flour\n300 g  water\n\nMix well.";
  const stretches = tied(found, recipe(["500 g flour", "300 g water"], ["Mix well."]));
  assert.equal(stretches.map((s) => s.text).join(""), found);
  assert.deepEqual(stretches.filter((s) => s.key !== ""), [
    { text: "500 g flour", key: lineKey(0, 0) },
    { text: "300 g  water", key: lineKey(0, 1) },
    { text: "Mix well.", key: stepKey(0, 0) },
  ]);
});

test("the same words twice go to two lines in their order", () => {
  const found = "1 tbsp butter\n1 tbsp butter\n";
  const keys = tied(found, recipe(["1 tbsp butter", "1 tbsp butter"])).map((s) => s.key);
  assert.deepEqual(keys, [lineKey(0, 0), "", lineKey(0, 1), ""]);
});

test("a line that stands earlier in the text than the one before it is still found", () => {
  const stretches = tied("salt\nflour", recipe(["flour", "salt"]));
  assert.deepEqual(stretches.map((s) => s.key), [lineKey(0, 1), "", lineKey(0, 0)]);
});

test("no word is lost or doubled, whatever the text and the lines", () => {
  const words = fc.array(fc.constantFrom("a", "b", " ", "\n", "flour", "1 cup", "½", "\u00a0"), { maxLength: 30 });
  fc.assert(
    fc.property(words, fc.array(fc.string({ maxLength: 6 }), { maxLength: 5 }), (parts, lines) => {
      const found = parts.join("");
      const some = [...lines, found.slice(1, 5), found.slice(3, 9)];
      assert.equal(tied(found, recipe(some)).map((s) => s.text).join(""), found);
    }),
  );
});

test("a doubt goes to the line its words are in, else to the whole", () => {
  const of = recipe(["4 cups flour, plus a handful", "1 tsp salt"], ["Leave until puffy."]);
  assert.equal(doubtPlace(of, "plus a handful"), lineKey(0, 0));
  assert.equal(doubtPlace(of, "1 TSP salt"), lineKey(0, 1));
  assert.equal(doubtPlace(of, "until puffy"), stepKey(0, 0));
  assert.equal(doubtPlace(of, "the yeast is missing"), "");
  assert.equal(doubtPlace(of, ""), "");
});
