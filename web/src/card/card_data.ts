// What a card carries in itself, and whether it is as it was written.

import type { Kitchen, Recipe } from "../api.ts";
import type { ChecklistStep } from "../baking/log.ts";
import type { WordTable } from "../baking/words.ts";

export type PantryTables = Readonly<Record<string, string>>;

/** A measure of a country, with its volume. */
export interface CountryMeasure {
  locale: string;
  unit: string;
  ml: number;
}

export interface CardData {
  card: 1;
  maslin: string;
  title: string;
  recipe: Recipe;
  /** SHA-256 of the recipe's document: the version it is of. */
  recipe_id: string;
  written_at: string;
  from?: string;
  home: Kitchen;
  tables: PantryTables;
  measures: CountryMeasure[];
  /** The languages it speaks, each with its words; English is in the page itself. */
  languages: { tag: string; name: string; words: WordTable }[];
}

export interface CarriedLine {
  name: string;
  words: string;
  grams: number;
  error_pct: number;
  note: string;
}

export interface CarriedPart {
  name: string;
  kind: string;
  grams: number;
  lines: CarriedLine[];
  steps: (ChecklistStep & { as_found: string })[];
}

/** The recipe in this kitchen. */
export interface Carried {
  recipe: Recipe;
  language: string;
  title: string;
  yield: string;
  credit: string;
  setting: string;
  parts: CarriedPart[];
  changes: { what: string; from: string; to: string; why: string }[];
  batch: string | null;
  baking: { about: string; words: string }[];
  cautions: { about: string; text: string }[];
  notes: string[];
}

/** The document of `maslin hand-on --json`, as far as a card shows it: docs/schema/hand_on.schema.json. */
export interface HandOn extends Omit<Carried, "parts" | "batch"> {
  parts: {
    name: string;
    kind: string;
    grams: number;
    lines: { ingredient: string; grams: number; amount: { words: string; error_pct: number }; note: string }[];
    steps: (Omit<ChecklistStep, "step" | "text"> & { number: number; words: string; as_found: string })[];
  }[];
  batch: { words: string } | null;
}

export const carriedOf = (document: HandOn): Carried => ({
  ...document,
  batch: document.batch?.words ?? null,
  parts: document.parts.map((part) => ({
    ...part,
    lines: part.lines.map(({ ingredient, grams, amount, note }) =>
      ({ name: ingredient, words: amount.words, grams, error_pct: amount.error_pct, note })),
    steps: part.steps.map(({ number, words, ...step }) => ({ ...step, step: number, text: words })),
  })),
});

const textOf = (id: string): string => document.getElementById(id)?.textContent ?? "";

export const readCard = (): CardData => JSON.parse(textOf("card")) as CardData;
export const packedEngine = (): string => textOf("engine");

/** "same" and "changed" compare what is here with the digest written on it; a browser that
    cannot reckon digests says "unchecked". No more is claimed: who changes a card can also
    write a new digest. */
export type Integrity = "same" | "changed" | "unchecked";

export const statedDigest = (): string => document.documentElement.dataset["sha256"] ?? "";

export async function integrity(): Promise<Integrity> {
  if (typeof crypto === "undefined" || !crypto.subtle) {
    return "unchecked";
  }
  const parts = ["style", "card", "engine", "page-script"].map(textOf).join("\n");
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(parts)));
  const hex = [...digest].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex === statedDigest() ? "same" : "changed";
}
