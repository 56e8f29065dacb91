import assert from "node:assert/strict";
import { test } from "node:test";
import fc from "fast-check";
import { at, coldest, momentCount, momentNear, profileAt, shells } from "./cut.ts";
import { feelAt, grainCount, grainsOf, lump } from "./grains.ts";

test("the grains always come to twenty and follow the shares", () => {
  assert.deepEqual(grainsOf([0, 0.05, 0.25, 0.6, 0.1, 0]), [0, 1, 5, 12, 2, 0]);
  assert.deepEqual(grainsOf([0, 0]), [0, 0]);
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 8 }), (shares) => {
      fc.pre(shares.some((share) => share > 1e-9));
      const grains = grainsOf(shares);
      assert.equal(grains.reduce((sum, count) => sum + count, 0), grainCount);
      const sum = shares.reduce((total, share) => total + share, 0);
      grains.forEach((count, i) => assert.ok(Math.abs(count - ((shares[i] ?? 0) / sum) * grainCount) < 1));
    }),
  );
});

test("a dough surely of one feel stands at its place, and softer shares move it on", () => {
  assert.equal(feelAt([0, 0, 1, 0, 0], 0.5), 0.5);
  assert.ok(feelAt([0, 0.5, 0.5, 0], 0.5) < feelAt([0, 0.4, 0.6, 0], 0.5));
  assert.ok(feelAt([0.2, 0.3, 0.5], 0.1) <= feelAt([0.2, 0.3, 0.5], 0.9));
});

test("a slacker lump is lower and broader, by the same commands", () => {
  const numbers = (outline: string): number[] => (outline.match(/-?\d+\.\d+/g) ?? []).map(Number);
  let before = numbers(lump(0, 50));
  for (const slackness of [0.25, 0.5, 0.75, 1]) {
    const now = numbers(lump(slackness, 50));
    assert.equal(now.length, before.length);
    assert.ok(Math.min(...now) < 0 && Math.max(...now) > Math.max(...before));
    before = now;
  }
});

test("a profile is read between its points and its heart is the middle of the cold", () => {
  const profile = { depth_mm: [0, 10, 20, 30, 40], values: [160, 95, 95, 95, 150] };
  assert.equal(at(profile, 5), 127.5);
  assert.equal(at(profile, 40), 150);
  assert.equal(coldest(profile), 20);
});

test("the skin of the cut has the profile's ends, the inner shells its heart", () => {
  const profile = { depth_mm: [0, 10, 20, 30, 40], values: [160, 95, 90, 95, 150] };
  const layers = shells(profile, 20, 2, 100);
  assert.equal(at(profile, layers[0]?.top_mm ?? -1), 150);
  assert.equal(at(profile, layers[0]?.base_mm ?? -1), 160);
  assert.ok(at(profile, layers.at(-1)?.top_mm ?? 0) < 93);
});

test("a section may have one moment or many, and one that does not fit is not drawn", () => {
  const one = { depth_mm: [0, 10, 20], temperature_c: [160, 90, 150] };
  assert.equal(momentCount(one), 1);
  assert.deepEqual(profileAt(one, "temperature_c", 0)?.values, [160, 90, 150]);
  const many = { depth_mm: [0, 10, 20], temperature_c: [[25, 25, 25], [160, 90, 150]], minutes: [0, 20] };
  assert.equal(momentCount(many), 2);
  assert.deepEqual(profileAt(many, "temperature_c", 1)?.values, [160, 90, 150]);
  assert.equal(momentNear(many, 13), 1);
  assert.equal(momentNear(many, 3), 0);
  assert.equal(momentNear(many, undefined), 1);
  assert.equal(momentNear(one, 12), 0);
  assert.equal(profileAt({ depth_mm: [0, 10], temperature_c: [1, 2, 3] }, "temperature_c", 0), null);
  assert.equal(profileAt({ depth_mm: [0, 10, 20] }, "temperature_c", 0), null);
});
