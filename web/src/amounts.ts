// Amounts the person has set, laid over those that were found. An amount that was
// set is exact; every other keeps its range.

import type { Grams, Line, Recipe } from "./api.ts";
import { lineKey, type TieKey } from "./source_ties.ts";

/** Grams set by hand, by line. */
export type Amounts = Readonly<Record<TieKey, number>>;

export const exactly = (grams: number): Grams => ({
  p10: grams, p50: grams, p90: grams, shape: "point", a: grams, b: 0, c: 0,
});

/** The recipe with the amounts in place, for the forecast. */
export function withAmounts(recipe: Recipe, amounts: Amounts): Recipe {
  return {
    ...recipe,
    parts: recipe.parts.map((part, p) => ({
      ...part,
      lines: part.lines.map((line, l) => {
        const grams = amounts[lineKey(p, l)];
        return grams === undefined ? line : { ...line, grams: exactly(grams) };
      }),
    })),
  };
}

/** What stands in a line now: set, found, or nothing. */
export function gramsNow(line: Line, key: TieKey, amounts: Amounts): Grams | null {
  const grams = amounts[key];
  return grams === undefined ? (line.grams ?? null) : exactly(grams);
}

const scaleStep = (grams: number): number => (grams >= 20 ? 1 : grams >= 2 ? 0.1 : 0.01);

/** A weight as a scale shows it: whole grams above 20, tenths below 20, hundredths below 2. */
export function asWeighed(grams: number): number {
  const perStep = Math.round(1 / scaleStep(grams));
  return Math.round(grams * perStep) / perStep;
}

/** `steps` steps of the scale more or less, never below nothing. */
export const nudged = (grams: number, steps: number): number =>
  Math.max(0, asWeighed(grams + steps * scaleStep(grams)));

// The slide goes from found / 1.6 to found * 1.6, in equal ratios: wide enough for a
// change one would drag, narrow enough that the range of a cup is seen. More is typed.
export const slideReach = 100;
const slideFactor = 1.6;

export const slideToGrams = (slide: number, found: number): number =>
  asWeighed(found * slideFactor ** (slide / slideReach));

export function gramsToSlide(grams: number, found: number): number {
  if (!(grams > 0) || !(found > 0)) {
    return -slideReach;
  }
  const slide = (Math.log(grams / found) / Math.log(slideFactor)) * slideReach;
  return Math.max(-slideReach, Math.min(slideReach, slide));
}

/**
 * The number a person typed; null for anything else. Comma and point both mark the
 * decimals, but three digits after the mark that this reader puts between thousands
 * are thousands: "1,250" is 1250 to an English reader and 1.25 to a German one.
 */
export function typedNumber(text: string, decimalMark = "."): number | null {
  const close = text.trim().replace(/\s/g, "");
  const thousands = decimalMark === "." ? "," : ".";
  const grouped = new RegExp(`^\\d{1,3}(\\${thousands}\\d{3})+(?!\\d)`).test(close);
  const plain = (grouped ? close.replaceAll(thousands, "") : close).replace(",", ".");
  if (!/^\d*\.?\d+$|^\d+\.$/.test(plain)) {
    return null;
  }
  const value = Number(plain);
  return Number.isFinite(value) && value <= 1_000_000 ? value : null;
}
