// Versions as a tree.

import type { CourseEntry } from "./library.ts";

export interface TreeRow {
  entry: CourseEntry;
  /** The rail it stands on: 0 is the first recipe's, a branch takes the next that is free. */
  rail: number;
  /** The row of what it was made from; null for a beginning. */
  parent: number | null;
}

/** Newest first. A version goes on along its parent's rail unless a sister is there already. */
export function versionTree(history: readonly CourseEntry[]): TreeRow[] {
  const oldest = [...history].sort((one, other) => one.place - other.place);
  const rails = new Map<string, number>();
  const goneOn = new Set<string>();
  let next = 0;
  for (const { version, parents } of oldest) {
    const parent = parents.find((one) => rails.has(one));
    if (parent !== undefined && !goneOn.has(parent)) {
      rails.set(version, rails.get(parent) ?? 0);
      goneOn.add(parent);
    } else {
      rails.set(version, next);
      next += 1;
    }
  }
  const rows = oldest.reverse();
  const at = new Map(rows.map(({ version }, row) => [version, row]));
  return rows.map((entry) => ({
    entry,
    rail: rails.get(entry.version) ?? 0,
    parent: entry.parents.map((one) => at.get(one)).find((row) => row !== undefined) ?? null,
  }));
}
