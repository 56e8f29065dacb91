import assert from "node:assert/strict";
import { test } from "node:test";
import fc from "fast-check";
import { placeOf, roundTicks, surface, timeTicks, valueAt } from "./plot_scale.ts";

const ends = fc.tuple(fc.double({ min: -1e4, max: 1e4, noNaN: true }), fc.double({ min: 0.01, max: 1e4, noNaN: true }));

test("ticks stand within their ends, evenly, and no more than asked for", () => {
  fc.assert(fc.property(ends, fc.integer({ min: 2, max: 9 }), ([low, span], most) => {
    for (const ticks of [roundTicks(low, low + span, most), timeTicks(Math.abs(low), Math.abs(low) + span, most)]) {
      assert.ok(ticks.length <= most + 1);
      const gaps = ticks.slice(1).map((tick, i) => tick - (ticks[i] ?? 0));
      for (const gap of gaps) {
        assert.ok(Math.abs(gap - (gaps[0] ?? 0)) < 1e-6 * Math.max(1, Math.abs(low), span));
      }
    }
  }));
});

test("a place leads back to its value", () => {
  fc.assert(fc.property(ends, fc.double({ min: -1e4, max: 1e4, noNaN: true }), ([low, span], value) => {
    const scale = { low, high: low + span, from: 40, to: 500 };
    assert.ok(Math.abs(valueAt(scale, placeOf(scale, value)) - value) < 1e-6 * (1 + Math.abs(value) + Math.abs(low) + span));
  }));
});

test("hours are told at hours", () => {
  assert.deepEqual(timeTicks(0, 240, 5), [0, 60, 120, 180, 240]);
});

test("a band is a closed outline, and nothing where a figure is missing", () => {
  assert.equal(surface([0, 10], [1, 2], [3, 4]), "M0.0 3.0L10.0 4.0L10.0 2.0L0.0 1.0Z");
  assert.equal(surface([], [], []), "");
  assert.ok(!surface([0, 1, 2], [0, NaN, 0], [1, NaN, 1]).includes("NaN"));
});
