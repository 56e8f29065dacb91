// The times to come, step by step, read off the newest forecast.

import type { Forecast, LowHigh, Prove, Range } from "../api.ts";
import { longestMinutes } from "../numbers.ts";
import { type ChecklistStep, minutesBetween, type Standing, stateOf, stepsBehind } from "./log.ts";
import { isBake, isProve } from "./sights.ts";

/** How long a step takes, and on whose word. */
export interface Lasting {
  minutes: Range;
  from: "forecast" | "recipe";
}

/** The forecast's prove for a step: both stand in the order of the method. */
export function proveOf(step: ChecklistStep, checklist: readonly ChecklistStep[], forecast: Forecast | null): Prove | null {
  const at = checklist.filter(isProve).findIndex((one) => one.step === step.step);
  return at < 0 ? null : (forecast?.proves?.[at] ?? null);
}

function stated(minutes: LowHigh | null | undefined): Lasting | null {
  const low = minutes?.low ?? null;
  const high = minutes?.high ?? low;
  return low === null || high === null
    ? null
    : { minutes: { p10: low, p50: (low + high) / 2, p90: high }, from: "recipe" };
}

export function lastingOf(step: ChecklistStep, checklist: readonly ChecklistStep[], forecast: Forecast | null): Lasting | null {
  const range = isProve(step)
    ? proveOf(step, checklist, forecast)?.minutes_to_target
    : isBake(step) && checklist.find(isBake)?.step === step.step
      ? forecast?.bake?.minutes_to_done
      : null;
  // Where not one draw in ten gets there, the forecast says nothing of the time; the recipe may.
  return range && range.p10 < longestMinutes ? { minutes: range, from: "forecast" } : stated(step.minutes);
}

/** A step with the moments it likely begins and ends. */
export interface Coming {
  step: ChecklistStep;
  lasting: Lasting | null;
  begins_at_ms: number;
  ends_at_ms: number;
}

// A step of which nobody says how long it takes: hands at work.
const hands_minutes = 5;
const minute_ms = 60_000;

/** The steps not done yet, one after the other from now, each at its likely length. */
export function comingSteps(checklist: readonly ChecklistStep[], standing: Standing, forecast: Forecast | null, now_ms: number): Coming[] {
  let at = now_ms;
  return checklist.slice(stepsBehind(checklist, standing)).map((step) => {
    const lasting = lastingOf(step, checklist, forecast);
    const begun = stateOf(standing, step.step).begun_at_ms;
    const likely = (lasting?.minutes.p50 ?? hands_minutes) * minute_ms;
    const begins_at_ms = begun ?? at;
    at = Math.max(at, begins_at_ms + likely);
    return { step, lasting, begins_at_ms, ends_at_ms: at };
  });
}

/** How far along a step is against its likely length: when to look, and when it is late. */
export interface Clock {
  elapsed_minutes: number;
  left_minutes: number;
  /** Look: it may be there; late: nine in ten would be there. */
  stage: "early" | "look" | "late";
}
export function clockOf(lasting: Lasting, begun_at_ms: number, now_ms: number): Clock {
  const elapsed = Math.max(0, minutesBetween(begun_at_ms, now_ms));
  const { p10, p50, p90 } = lasting.minutes;
  return {
    elapsed_minutes: elapsed,
    left_minutes: p50 - elapsed,
    stage: elapsed < p10 ? "early" : elapsed <= p90 ? "look" : "late",
  };
}
