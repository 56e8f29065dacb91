// What is wanted of the recipe and what shall stay, and the program's answer to it.

import { effect, signal } from "@preact/signals";
import { type Adjustment, askAdjustment, type LineChange, lineChanges, withAll, withChange } from "./adjusted.ts";
import { askForecast, type Forecast, type Line, type Recipe } from "./api.ts";
import { quickDraws } from "./forecast_runner.ts";
import { sentenceOf } from "./server.ts";
import { bench, layRecipe, recipeNow } from "./store.ts";
import type { TieKey } from "./source_ties.ts";

export const wantsOpen = signal(false);
export const wants = signal<readonly string[]>([]);
export const holds = signal<readonly string[]>([]);
export const wantProblem = signal("");
export const wanting = signal(false);

export interface Answer {
  asked: Recipe;
  adjustment: Adjustment;
  changes: LineChange[];
  /** The forecast of the changed recipe, a moment later. */
  then: Forecast | null;
}
export const answer = signal<Answer | null>(null);
/** The changes taken so far, by the place of their lines. */
export const taken = signal<readonly TieKey[]>([]);

/** What a line is held by: the ingredient's id, else its name. */
export const holdName = (line: Line): string => line.id || line.ingredient || line.text;

export function want(words: string): void {
  const said = words.trim();
  if (said !== "" && !wants.value.includes(said)) {
    wants.value = [...wants.value, said];
  }
}
export const unwant = (words: string): void => {
  wants.value = wants.value.filter((one) => one !== words);
};
export const toggleHold = (name: string): void => {
  holds.value = holds.value.includes(name)
    ? holds.value.filter((one) => one !== name)
    : [...holds.value, name];
};

let running: AbortController | null = null;
async function ask(recipe: Recipe): Promise<void> {
  running?.abort();
  const mine = new AbortController();
  running = mine;
  wanting.value = true;
  const kitchen = bench.value.kitchen;
  try {
    const adjustment = await askAdjustment(
      { recipe, kitchen, wants: wants.value, holds: holds.value }, mine.signal);
    wantProblem.value = "";
    taken.value = [];
    const changes = lineChanges(recipe, adjustment);
    answer.value = { asked: recipe, adjustment, changes, then: null };
    if (changes.length > 0) {
      const then = await askForecast({ recipe: adjustment.recipe, kitchen, draws: quickDraws }, mine.signal);
      answer.value = { asked: recipe, adjustment, changes, then };
    }
  } catch (error) {
    if (!mine.signal.aborted) {
      answer.value = null;
      wantProblem.value = sentenceOf(error);
    }
  } finally {
    if (running === mine) {
      wanting.value = false;
    }
  }
}

// What the last taking made of the recipe: it is no reason to ask again.
let made: Recipe | null = null;

function lay(next: { recipe: Recipe; amounts: typeof bench.value.amounts }): void {
  made = layRecipe(next);
}

export function takeLine(change: LineChange): void {
  const { recipe, amounts } = bench.value;
  const now = answer.value;
  if (recipe && now) {
    taken.value = [...taken.value, change.key];
    lay(withChange({ recipe, amounts }, now.adjustment, change));
  }
}

/** Takes what is left of the answer; the wants are then had, and are gone. */
export function takeAll(): void {
  const { recipe, amounts } = bench.value;
  const now = answer.value;
  if (recipe && now) {
    lay(withAll({ recipe, amounts }, now.adjustment,
      now.changes.filter(({ key }) => !taken.value.includes(key))));
    forget();
  }
}

export function forget(): void {
  wants.value = [];
  answer.value = null;
  taken.value = [];
  wantProblem.value = "";
}

/** Asks anew whenever wants, holds, the recipe or the kitchen change, and the hand rests. */
export function beginWanting(): void {
  let later: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    const recipe = recipeNow.value;
    const asked = [wants.value, holds.value, bench.value.kitchen].length > 0 && wants.value.length > 0;
    clearTimeout(later);
    if (!asked || !recipe) {
      running?.abort();
      answer.value = null;
      wantProblem.value = "";
    } else {
      // What a taking made is known only after this has heard of it.
      later = setTimeout(() => recipe !== made && void ask(recipe), answer.peek() === null ? 0 : 200);
    }
  });
}
