// A bake as the document that `maslin trial import` reads (docs/schema/baked.schema.json): the
// way home for what was learnt. The short form leaves the recipe out, which the sender has
// under its id, so that it fits a QR code.

import type { Kitchen, Recipe } from "../api.ts";
import type { Entry } from "../baking/log.ts";
import type { Bake } from "./keeping.ts";

export interface BakedEntry {
  key: string;
  at_ms: number;
  is: Entry["is"];
  step?: number;
  text?: string;
  note?: string;
}

export interface Baked {
  maslin_baked: 1;
  key: string;
  title: string;
  recipe_id: string;
  recipe?: Recipe;
  kitchen: Kitchen;
  started_at_ms: number;
  entries: BakedEntry[];
}

export function bakedFile(bake: Bake, title: string, recipe_id: string, recipe: Recipe): Baked {
  return { ...bakedShort(bake, title, recipe_id), recipe };
}

export const bakedShort = (bake: Bake, title: string, recipe_id: string): Baked => ({
  maslin_baked: 1,
  key: bake.key,
  title,
  recipe_id,
  kitchen: bake.kitchen,
  started_at_ms: bake.started_at_ms,
  entries: bake.entries.map((entry): BakedEntry => {
    const { key, at_ms, is } = entry;
    if (entry.is === "note") {
      return { key, at_ms, is, text: entry.text, ...(entry.step === null ? {} : { step: entry.step }) };
    }
    return entry.is === "taken_back" ? { key, at_ms, is, note: entry.note } : { key, at_ms, is, step: entry.step };
  }),
});

/** Without what was taken back, and with keys of eight digits: what a QR code holds. */
export function bakedCode(bake: Bake, title: string, recipe_id: string): string {
  const gone = new Set(bake.entries.flatMap((entry) => (entry.is === "taken_back" ? [entry.note] : [])));
  const entries = bake.entries
    .filter((entry) => entry.is !== "taken_back" && !gone.has(entry.key))
    .map((entry) => ({ ...entry, key: entry.key.slice(0, 8) }));
  return JSON.stringify(bakedShort({ ...bake, entries }, title, recipe_id));
}

/** The most bytes of a QR code, of version 40 at its lowest correction (ISO/IEC 18004, table 7). */
export const mostCodeBytes = 2953;
