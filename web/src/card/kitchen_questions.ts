// What is asked of a kitchen, and how each answer goes into the kitchen's document.

import type { Kitchen, OvenKind } from "../api.ts";
import type { CountryMeasure } from "./card_data.ts";

export type Means = "scale" | "cups" | "mug";

/** The answers so far; what was not answered is unknown and drawn wide. */
export interface Answers {
  means: Means | null;
  /** Whose cups and spoons, as a locale of the measures. */
  cups: string;
  mug_ml: number;
  oven: OvenKind | null;
  room_celsius: number | null;
  altitude_m: number | null;
  yeast: string | null;
}

export const noAnswers: Answers = {
  means: null, cups: "", mug_ml: 300, oven: null, room_celsius: null, altitude_m: null, yeast: null,
};

export const rooms: readonly [string, number][] = [
  ["Cold", 15], ["Cool", 18], ["Mild", 21], ["Warm", 25], ["Hot", 31], ["Very hot", 36],
];
export const heights: readonly [string, number][] = [
  ["By the sea", 0], ["Hills", 600], ["Mountains", 1500], ["High mountains", 2600],
];
export const ovens: readonly [string, OvenKind][] = [
  ["Electric", "conventional"], ["Electric with a fan", "fan"], ["Gas", "gas"], ["Wood", "wood"],
  ["Charcoal drum", "charcoal_drum"], ["A pot on the fire", "pot"], ["A pan with a lid", "none"],
  ["A steamer", "steamer"], ["A toaster oven", "toaster"],
];
export const yeasts: readonly [string, string][] = [
  ["As in the recipe", ""], ["Instant, dry", "instant"], ["Dry, to be woken", "active_dry"],
  ["Fresh, in a block", "fresh"],
];
export const mugs_ml = [200, 250, 300, 350] as const;

// Measures of another time, or of labels, are nobody's cupboard.
const notAtHand = /^$|^old_|_legal$/;

/** Places whose cup is known, with its volume. */
export const cupPlaces = (measures: readonly CountryMeasure[]): CountryMeasure[] =>
  measures.filter(({ locale, unit }) => unit === "cup" && !notAtHand.test(locale));

const asRegion: Readonly<Record<string, string>> = { uk: "GB" };
export function placeName(locale: string, language: string): string {
  try {
    return new Intl.DisplayNames([language || "en"], { type: "region" })
      .of(asRegion[locale] ?? locale.toUpperCase()) ?? locale;
  } catch {
    return locale.toUpperCase();
  }
}

const spoons = new Set(["cup", "glass", "teacup", "tbsp", "tsp"]);
const spoon_ml = 15;

function measuresOf(answers: Answers, measures: readonly CountryMeasure[]): NonNullable<Kitchen["measures"]> | null {
  switch (answers.means) {
    case "scale":
      return ["scale"];
    case "cups":
      return measures
        .filter(({ locale, unit }) => locale === answers.cups && spoons.has(unit))
        .map(({ unit, ml }) => ({ name: unit, ml }));
    case "mug":
      return [{ name: "mug", ml: answers.mug_ml }, { name: "spoon", ml: spoon_ml }];
    default:
      return null;
  }
}

export function kitchenOf(answers: Answers, measures: readonly CountryMeasure[]): Kitchen {
  const own = measuresOf(answers, measures);
  return {
    ...(answers.means === "cups" && answers.cups !== "" ? { country: answers.cups } : {}),
    ...(answers.room_celsius === null ? {} : { room_celsius: answers.room_celsius }),
    ...(answers.altitude_m === null ? {} : { altitude_m: answers.altitude_m }),
    ...(answers.oven === null ? {} : { oven: { kind: answers.oven } }),
    ...(own === null || own.length === 0 ? {} : { measures: own }),
    ...(answers.yeast ? { yeast: { kind: answers.yeast } } : {}),
  };
}

/** The answers a kitchen was made from: what a card opened again shows as chosen. */
export function answersOf(kitchen: Kitchen | null): Answers {
  const first = kitchen?.measures?.[0];
  const vessel = typeof first === "object" ? first : null;
  return {
    means: first === "scale" ? "scale" : vessel === null ? null : vessel.name === "mug" && !kitchen?.country ? "mug" : "cups",
    cups: kitchen?.country ?? "",
    mug_ml: vessel?.name === "mug" ? vessel.ml : noAnswers.mug_ml,
    oven: kitchen?.oven?.kind ?? null,
    room_celsius: kitchen?.room_celsius ?? null,
    altitude_m: kitchen?.altitude_m ?? null,
    yeast: kitchen?.yeast?.kind ?? null,
  };
}
