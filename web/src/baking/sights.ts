// What a baker sees, as buttons; each writes the note a baker would have written, in words
// that the program's note reader knows (data/observation_words.tsv).

import type { Tongue } from "../words.ts";
import type { ChecklistStep } from "./log.ts";

/** How a sight is drawn: a dough of this many times its size, a crust, a feel, a core. */
export type Sign =
  | { rise: number }
  | { crust: "pale" | "light" | "gold" | "brown" | "dark" | "burnt" }
  | { feel: number }
  | { core: "raw" | "done" };

export interface Sight {
  /** What stands on the button. */
  words: string;
  sign: Sign;
  /** The note, from the minutes since the step began, as whole minutes. */
  note: (minutes: number) => string;
  /** A bake that is done takes the step with it. */
  ends?: true;
}

/** A figure to be set by taps and then noted. */
export interface Gauge {
  words: string;
  unit: string;
  low: number;
  high: number;
  step: number;
  start: number;
  note: (value: number, minutes: number, unit: string) => string;
}

const rises: readonly [string, string, number][] = [
  ["Not moving", "not moving", 1],
  ["Barely moved", "barely moved", 1.1],
  ["Risen by half", "risen by half", 1.5],
  ["Nearly doubled", "not quite doubled", 1.8],
  ["Doubled", "doubled", 2],
  ["Tripled", "tripled", 3],
];
const feels: readonly [string, string][] = [
  ["Stiff", "stiff"], ["Smooth", "smooth"], ["Soft, tacky", "soft and tacky"],
  ["Sticky", "sticky"], ["Like batter", "like batter"],
];
const crusts: readonly [string, string, "pale" | "light" | "gold" | "brown" | "dark" | "burnt"][] = [
  ["Pale", "pale", "pale"], ["Light gold", "light gold", "light"], ["Golden", "golden", "gold"],
  ["Brown", "brown", "brown"], ["Dark", "dark", "dark"], ["Burnt", "burnt", "burnt"],
];

const proving = new Set(["prove", "rest"]);
const heating = new Set(["bake", "steam", "fry"]);
const mixing = new Set(["mix", "knead"]);

export const isProve = (step: ChecklistStep): boolean => step.kind === "prove";
export const isBake = (step: ChecklistStep): boolean => heating.has(step.kind);

/** The prove a step is, in the words of notes: the first, the one after shaping, or none. */
export function proveName(step: ChecklistStep, checklist: readonly ChecklistStep[]): string {
  const proves = checklist.filter(isProve);
  const at = proves.findIndex((one) => one.step === step.step);
  if (proves.length < 2 || at < 0) {
    return at < 0 ? "" : "first prove ";
  }
  return at === 0 ? "first prove " : at === proves.length - 1 ? "last prove "
    : at === 1 ? "second prove " : "third prove ";
}

export function sightsAt(step: ChecklistStep, checklist: readonly ChecklistStep[]): Sight[] {
  if (proving.has(step.kind)) {
    const which = proveName(step, checklist);
    return rises.map(([words, seen, rise]) => ({
      words, sign: { rise }, note: (minutes) => `${which}${seen} at ${minutes} min`,
    }));
  }
  if (heating.has(step.kind)) {
    return [
      { words: "Still raw", sign: { core: "raw" }, note: (minutes) => `still raw at ${minutes} min` },
      ...crusts.map(([words, seen, crust]): Sight => ({
        words, sign: { crust }, note: (minutes) => `${seen} at ${minutes} min`,
      })),
      { words: "Done: out of the oven", sign: { core: "done" }, ends: true,
        note: (minutes) => `done at ${minutes} min` },
    ];
  }
  if (mixing.has(step.kind)) {
    return feels.map(([words, seen], feel) => ({ words, sign: { feel: feel / (feels.length - 1) }, note: () => seen }));
  }
  return [];
}

const warm = (celsius: number): number => Math.round(celsius * 1.8 + 32);

/** In the degrees of the reader's own words. */
export const gaugesAt = (step: ChecklistStep, tongue: Tongue = "british"): Gauge[] =>
  gaugesOf(step).map((gauge) => gauge.unit !== "°C" || tongue !== "american" ? gauge : {
    ...gauge, unit: "°F", low: warm(gauge.low), high: warm(gauge.high), start: warm(gauge.start),
  });

function gaugesOf(step: ChecklistStep): Gauge[] {
  if (heating.has(step.kind)) {
    return [{
      words: "Core temperature", unit: "°C", low: 50, high: 105, step: 1, start: 92,
      note: (value, minutes, unit) => `core ${value} ${unit} at ${minutes} min`,
    }];
  }
  if (proving.has(step.kind)) {
    return [{
      words: "Warmth of the dough", unit: "°C", low: 5, high: 40, step: 1, start: 26,
      note: (value, _, unit) => `dough ${value} ${unit}`,
    }];
  }
  if (mixing.has(step.kind)) {
    return [{
      words: "Flour left over", unit: "g", low: 0, high: 400, step: 5, start: 15,
      note: (value) => `${value} g flour left`,
    }];
  }
  return [];
}
