import assert from "node:assert/strict";
import { test } from "node:test";
import fc from "fast-check";
import { clockOf, type DayStep, lanesIn, laneOf, minutesOf, wallClock } from "./day.ts";

test("a clock time leads to minutes and back", () => {
  fc.assert(fc.property(fc.integer({ min: 0, max: 60_000_000 }), (minutes) => {
    assert.equal(minutesOf(clockOf(minutes)), minutes);
  }));
});

test("what is no time is none", () => {
  for (const words of ["never", "", null, undefined, "16:00"]) {
    assert.equal(minutesOf(words), null);
  }
});

test("the wall clock is the time that the reader's clock shows", () => {
  const now = new Date(2026, 4, 1, 16, 5);
  assert.equal(wallClock(now), "2026-05-01T16:05");
});

const step = (kind: string, hands = false, oven = false): DayStep => ({ name: kind, kind, start: null, end: null, hands, oven });

test("each step stands in one row, in the order of the rows", () => {
  const steps = [step("cool"), step("mix", true), step("prove"), step("heat_oven", false, true), step("stand")];
  assert.deepEqual(steps.map(laneOf), ["cooling", "hands", "rising", "oven", "waiting"]);
  assert.deepEqual(lanesIn(steps), ["hands", "rising", "waiting", "oven", "cooling"]);
});
