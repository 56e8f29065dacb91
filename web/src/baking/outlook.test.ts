import assert from "node:assert/strict";
import { test } from "node:test";
import type { Forecast } from "../api.ts";
import type { ChecklistStep } from "./log.ts";
import { lastingOf } from "./outlook.ts";

const prove: ChecklistStep = { step: 1, part: "dough", kind: "prove", text: "Leave to rise", minutes: { low: 60, high: 60 } };
const after = (p10: number, p50: number): number | undefined =>
  lastingOf(prove, [prove], { proves: [{ minutes_to_target: { p10, p50, p90: 2880 } }] } as unknown as Forecast)?.minutes.p50;

test("a rise that likely never comes is not told the recipe's hour", () => {
  assert.equal(after(40, 70), 70);
  assert.equal(after(40, 2880), 2880);
});

test("where no draw gets there the recipe's words stand", () => {
  assert.equal(after(2880, 2880), 60);
});
