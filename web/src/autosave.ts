// The bench is kept in this browser, so that a reload or a flat battery loses nothing.

import type { Bench } from "./store.ts";

const place = "maslin bench 1";

export function saveBench(bench: Bench): void {
  try {
    localStorage.setItem(place, JSON.stringify(bench));
  } catch {
    // A full or forbidden store must not stop the work.
  }
}

/** The kept bench, or null when there is none or it is not what was saved. */
export function loadBench(): Bench | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(place) ?? "null");
    return isBench(kept) ? kept : null;
  } catch {
    return null;
  }
}

export function isBench(value: unknown): value is Bench {
  if (typeof value !== "object" || value === null) {
    return false;
  }
  const bench = value as Record<string, unknown>;
  const recipe = bench["recipe"] as { parts?: unknown } | null;
  return (
    typeof bench["found"] === "string" &&
    typeof bench["name"] === "string" &&
    typeof bench["amounts"] === "object" && bench["amounts"] !== null &&
    typeof bench["kitchen"] === "object" && bench["kitchen"] !== null &&
    Array.isArray(bench["settled"]) &&
    (recipe === null || (typeof recipe === "object" && Array.isArray(recipe.parts)))
  );
}
