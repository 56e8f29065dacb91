// Versions as a tree, and what differs between two of them.

import type { Line, Recipe } from "./api.ts";
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

export interface LineDifference {
  part: string;
  name: string;
  /** Middle grams; null where the line is not there. */
  before: number | null;
  after: number | null;
}

const nameOf = (line: Line): string => line.part ?? (line.ingredient || line.text);

/** Lines whose weight differs by a division of the scale, or that one of the two lacks. */
export function differences(before: Recipe, after: Recipe): LineDifference[] {
  const parts = [...new Set([...before.parts, ...after.parts].map(({ name }) => name))];
  return parts.flatMap((part) => {
    const gather = (recipe: Recipe): Map<string, number> => {
      const grams = new Map<string, number>();
      for (const line of recipe.parts.filter(({ name }) => name === part).flatMap(({ lines }) => lines)) {
        grams.set(nameOf(line), (grams.get(nameOf(line)) ?? 0) + (line.grams?.p50 ?? 0));
      }
      return grams;
    };
    const [had, has] = [gather(before), gather(after)];
    return [...new Set([...had.keys(), ...has.keys()])].flatMap((name) => {
      const [from, to] = [had.get(name) ?? null, has.get(name) ?? null];
      const division = Math.max(from ?? 0, to ?? 0) >= 20 ? 0.5 : 0.05;
      return from !== null && to !== null && Math.abs(from - to) < division
        ? [] : [{ part, name, before: from, after: to }];
    });
  });
}
