// The tables of faults and causes name each other and nothing that is not there.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";

const root = new URL("../../", import.meta.url);
function table(path) {
  const lines = readFileSync(new URL(path, root), "utf8").split("\n").filter((line) => line && !line.startsWith("#"));
  const head = lines[0].split("\t");
  return lines.slice(1).map((line) => Object.fromEntries(line.split("\t").map((cell, i) => [head[i], cell])));
}
const faults = table("data/faults.tsv");
const causes = table("data/causes.tsv");

test("every fault has phrases, a source and causes, and no phrase belongs to two", () => {
  const seen = new Map();
  for (const { fault, phrases, outcome, direction, source } of faults) {
    assert.ok(phrases && source, fault);
    assert.match(direction, outcome ? /^(low|high)$/ : /^(low|high|)$/, fault);
    assert.ok(causes.some((cause) => cause.fault === fault), `${fault} has no cause`);
    for (const phrase of phrases.split("|")) {
      assert.ok(!seen.has(phrase), `"${phrase}" is ${fault} and ${seen.get(phrase)}`);
      seen.set(phrase, fault);
    }
  }
});

test("every cause is of a fault, has a mend or a way it lies, and changes only what a recipe has", () => {
  const known = /^(oven_celsius|bake_minutes|yeast|liquid|sugar|salt|glaze_liquid|piece|prove)=-?[0-9.]+$/;
  for (const { fault, cause, of, direction, mend, change, source } of causes) {
    assert.ok(faults.some((one) => one.fault === fault), `${cause}: no fault "${fault}"`);
    assert.match(direction, of === "-" ? /^-$/ : /^(low|high)$/, `${fault}: ${cause}`);
    assert.ok(mend && source, `${fault}: ${cause}`);
    for (const word of change.split(" ").filter(Boolean)) {
      assert.match(word, known, `${fault}: ${cause}`);
    }
  }
});
