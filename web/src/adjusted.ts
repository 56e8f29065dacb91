// What an adjusted recipe changes, line by line, and those lines laid onto the bench.

import type { Kitchen, Line, Recipe } from "./api.ts";
import { type Amounts } from "./amounts.ts";
import { posted } from "./server.ts";
import { lineKey, type TieKey } from "./source_ties.ts";

/** The answer of the interface to wants, as docs/schema/adjust.schema.json has it. */
export interface Adjustment {
  met: boolean;
  recipe: Recipe;
  changes: {
    line: string; part: string; from_grams: number; to_grams: number; why: string;
    alone?: string; part_index?: number; line_index?: number;
  }[];
  swaps?: { part_index: number; line_index: number; why: string }[];
  conflict: string[];
  nearest: { want: string; nearest: string }[];
  notes: string[];
}

export interface AdjustQuestion {
  recipe: Recipe;
  kitchen: Kitchen;
  wants: readonly string[];
  holds: readonly string[];
}

export const askAdjustment = (question: AdjustQuestion, signal?: AbortSignal): Promise<Adjustment> =>
  posted<Adjustment>("adjust", question, signal);

export interface LineChange {
  key: TieKey;
  part: number;
  line: number;
  /** Names before and after; they differ where another ingredient stands in. */
  from: { name: string; grams: number } | null;
  to: { name: string; grams: number };
  why: string;
  alone: string;
}

const nameOf = (line: Line): string => line.part ?? (line.ingredient || line.text);

/** Every line in which the answer differs from the recipe that was asked about. */
export function lineChanges(before: Recipe, answer: Adjustment): LineChange[] {
  return answer.recipe.parts.flatMap((part, p) =>
    part.lines.flatMap((to, l) => {
      const from = before.parts[p]?.lines[l];
      const said = answer.changes.find((one) => one.part_index === p && one.line_index === l);
      const swap = answer.swaps?.find((one) => one.part_index === p && one.line_index === l);
      if (!said && !swap) {
        return [];
      }
      return [{
        key: lineKey(p, l), part: p, line: l,
        from: from ? { name: nameOf(from), grams: from.grams?.p50 ?? 0 } : null,
        to: { name: nameOf(to), grams: said?.to_grams ?? to.grams?.p50 ?? 0 },
        why: swap?.why ?? said?.why ?? "", alone: said?.alone ?? "",
      }];
    }));
}


interface Laid {
  recipe: Recipe;
  amounts: Amounts;
}

/** One line of the answer taken: another weight is set, another ingredient replaces the line. */
export function withChange({ recipe, amounts }: Laid, answer: Adjustment, change: LineChange): Laid {
  if (change.from !== null && change.from.name === change.to.name) {
    return { recipe, amounts: { ...amounts, [change.key]: change.to.grams } };
  }
  const taken = answer.recipe.parts[change.part]?.lines[change.line];
  const { [change.key]: _, ...others } = amounts;
  return taken === undefined ? { recipe, amounts } : {
    amounts: others,
    recipe: {
      ...recipe,
      parts: recipe.parts.map((part, p) => {
        if (p !== change.part) {
          return part;
        }
        const lines = [...part.lines];
        // A line that was added stands last, wherever that is by now.
        lines[Math.min(change.line, lines.length)] = taken;
        return { ...part, lines };
      }),
    },
  };
}

/** The whole answer taken: its lines, its yield and its steps. */
export function withAll(bench: Laid, answer: Adjustment, changes: readonly LineChange[]): Laid {
  const laid = changes.reduce((now, change) => withChange(now, answer, change), bench);
  return {
    amounts: laid.amounts,
    recipe: {
      ...laid.recipe,
      pieces: answer.recipe.pieces ?? null,
      parts: laid.recipe.parts.map((part, p) => {
        const steps = answer.recipe.parts[p]?.steps;
        return steps ? { ...part, steps } : part;
      }),
    },
  };
}

/** A proposed recipe as weights set on the lines of `before`, where both have the same lines. */
export function asChanges(before: Recipe, proposed: Recipe): Laid {
  const words = (recipe: Recipe): string => JSON.stringify(recipe.parts.map(({ lines }) => lines.map(nameOf)));
  const amounts: Record<TieKey, number> = {};
  proposed.parts.forEach(({ lines }, p) => lines.forEach(({ grams }, l) => {
    const was = before.parts[p]?.lines[l]?.grams?.p50 ?? 0;
    if (grams && Math.abs(grams.p50 - was) > 0.001 * was) {
      amounts[lineKey(p, l)] = grams.p50;
    }
  }));
  return words(before) === words(proposed)
    ? { recipe: { ...before, parts: before.parts.map((part, p) => ({ ...part, steps: proposed.parts[p]?.steps ?? [] })) }, amounts }
    : { recipe: proposed, amounts: {} };
}
