// The one place that holds state: what was found, how it was read, what was changed,
// the kitchen, and the newest forecast. Views read signals and call the functions below.

import { computed, effect, signal } from "@preact/signals";
import { type Amounts, withAmounts } from "./amounts.ts";
import * as api from "./api.ts";
import type { Forecast, Kitchen, Recipe } from "./api.ts";
import { forecastRunner, fullDraws, type Hand } from "./forecast_runner.ts";
import { loadBench, saveBench } from "./autosave.ts";
import { begun, changed, type History, moved, redone, undone } from "./history.ts";
import { language } from "./numbers.ts";
import { sentenceOf } from "./server.ts";
import { doubtPlace, type TieKey, tied } from "./source_ties.ts";
import { type Tongue, tongueOf } from "./words.ts";

/** Everything that undo goes back over. Never changed in place. */
export interface Bench {
  found: string;
  name: string;
  recipe: Recipe | null;
  amounts: Amounts;
  /** Doubts looked at and found in order, by their text and reason. */
  settled: readonly string[];
  kitchen: Kitchen;
  /** The version that this came from, when it is kept. */
  kept?: { name: string; version: string; place: number } | undefined;
}

export const emptyBench: Bench = {
  found: "", name: "", recipe: null, amounts: {}, settled: [], kitchen: {},
};

const history = signal<History<Bench>>(begun(loadBench() ?? emptyBench));
// Where the present drag set out; null when the hand rests.
let dragFrom: History<Bench> | null = null;

export const bench = computed(() => history.value.present);
export const canUndo = computed(() => history.value.past.length > 0);
export const canRedo = computed(() => history.value.future.length > 0);

export const recipeNow = computed<Recipe | null>(() => {
  const { recipe, amounts } = bench.value;
  return recipe && withAmounts(recipe, amounts);
});
export const stretches = computed(() => {
  const { found, recipe } = bench.value;
  return recipe ? tied(found, recipe) : [];
});

/** What a doubt is remembered by once it is settled. */
export const doubtName = (doubt: api.Doubt): string => `${doubt.text}\n${doubt.why}`;

/**
 * Doubts still open, by the line or step they are about ("" for the whole); a line whose weight
 * was set by hand has answered its own.
 */
export const openDoubts = computed(() => {
  const { recipe, settled, amounts } = bench.value;
  const places = new Map<TieKey, api.Doubt[]>();
  for (const doubt of recipe?.doubts ?? []) {
    if (recipe && !settled.includes(doubtName(doubt))) {
      const place = doubtPlace(recipe, doubt.text);
      if (!(place in amounts)) places.set(place, [...(places.get(place) ?? []), doubt]);
    }
  }
  return places;
});

// What is seen but not undone.
export const pointed = signal<TieKey>("");
export const showPercent = signal(false);
export const tongue = signal<Tongue>(tongueOf(language));
export const reading = signal(false);
export const readProblem = signal("");

export const forecast = signal<Forecast | null>(null);
export const forecastProblem = signal("");
export const forecasting = signal<"still" | "quick" | "full">("still");
/** The draws behind the forecast on show. */
export const drawsShown = computed(() => forecast.value?.draws ?? 0);

interface Wish {
  recipe: Recipe;
  kitchen: Kitchen;
}

let asks = 0;
const runner = forecastRunner<Wish>({
  ask(wish, draws, signal) {
    asks += 1;
    forecasting.value = draws === fullDraws ? "full" : "quick";
    performance.mark("forecast asked");
    // What to measure first is asked with the full draws alone.
    return api.askForecast({ ...wish, draws, worth_measuring: draws === fullDraws }, signal);
  },
  answered(answer, draws) {
    const before = forecast.peek()?.narrow_by ?? [];
    forecast.value = { draws, ...answer, ...(draws === fullDraws ? {} : { narrow_by: before }) };
    forecastProblem.value = "";
    // After the frame that shows it; what is out of sight is not drawn.
    const mine = asks;
    return new Promise((drawn) => {
      const shown = (): void => {
        performance.mark(draws === fullDraws ? "full forecast drawn" : "first forecast drawn");
        if (mine === asks) {
          forecasting.value = "still";
        }
        drawn();
      };
      document.hidden ? shown() : requestAnimationFrame(() => setTimeout(shown));
    });
  },
  failed(error) {
    forecasting.value = "still";
    forecastProblem.value = sentenceOf(error);
  },
});

let rest: ReturnType<typeof setTimeout> | undefined;
function wantForecast(hand: Hand): void {
  const recipe = recipeNow.value;
  clearTimeout(rest);
  if (!recipe) {
    runner.stop();
    forecast.value = null;
    return;
  }
  const wish = { recipe, kitchen: bench.value.kitchen };
  runner.want(wish, hand);
  if (hand === "moving") {
    // A hand that holds still without letting go also gets its full forecast.
    rest = setTimeout(() => wantForecast("resting"), 400);
  }
}


/** Changes the bench; a moving hand leaves one step to undo, however far it goes. */
function change(next: Partial<Bench>, hand: Hand = "resting"): void {
  performance.mark("edit");
  const state = { ...bench.value, ...next };
  if (hand === "moving") {
    dragFrom ??= history.value;
    history.value = moved(history.value, state);
  } else {
    history.value = changed(dragFrom ?? history.value, state);
    dragFrom = null;
  }
  wantForecast(hand);
}

export function undo(): void {
  history.value = undone(history.value);
  readProblem.value = "";
  wantForecast("resting");
}

export function redo(): void {
  history.value = redone(history.value);
  wantForecast("resting");
}

export function setAmount(key: TieKey, grams: number, hand: Hand): void {
  if (hand === "resting" && dragFrom === null && bench.value.amounts[key] === grams) {
    return;
  }
  change({ amounts: { ...bench.value.amounts, [key]: grams } }, hand);
}

export function resetAmount(key: TieKey): void {
  if (dragFrom === null && !(key in bench.value.amounts)) {
    return;
  }
  const { [key]: _, ...amounts } = bench.value.amounts;
  change({ amounts });
}

/** Lays a changed recipe on the bench, as one step to undo; gives the recipe with its amounts. */
export function layRecipe(next: Pick<Bench, "amounts"> & { recipe: Recipe }): Recipe | null {
  change(next);
  return recipeNow.value;
}

/** Lays a kept version on the bench, its amounts as they were kept but for those given. */
export function layKept(recipe: Recipe, found: string, kept: NonNullable<Bench["kept"]>, amounts: Amounts = {}): void {
  const { name, version, place } = kept;
  change({ recipe, found, name, amounts, settled: [], kept: { name, version, place } });
}

export function settleDoubt(doubt: api.Doubt): void {
  const settled = [...bench.value.settled, doubtName(doubt)];
  history.value = changed(history.value, { ...bench.value, settled });
}

export const setKitchen = (kitchen: Kitchen): void => change({ kitchen });

let lastRead: AbortController | null = null;
/** Reads found text and lays the recipe on the bench; a newer text replaces an older. */
export async function read(question: api.ReadQuestion): Promise<void> {
  lastRead?.abort();
  const mine = new AbortController();
  lastRead = mine;
  reading.value = true;
  readProblem.value = "";
  try {
    const recipe = await api.readFound(question, mine.signal);
    change({
      found: question.text, name: question.name ?? "", recipe, amounts: {}, settled: [], kept: undefined,
    });
  } catch (error) {
    if (!mine.signal.aborted) {
      readProblem.value = sentenceOf(error);
    }
  } finally {
    if (lastRead === mine) {
      reading.value = false;
    }
  }
}

export async function readDemo(): Promise<void> {
  try {
    const demo = await api.fetchDemo();
    if (Object.keys(bench.value.kitchen).length === 0) {
      const kitchen = await api.fetchKitchen();
      history.value = moved(history.value, { ...bench.value, kitchen });
    }
    await read(demo);
  } catch (error) {
    readProblem.value = sentenceOf(error);
  }
}

/** An empty bench for another recipe; the kitchen stays, and undo brings the old one back. */
export const clearBench = (): void => change({ ...emptyBench, kitchen: bench.value.kitchen });

/** Starts what goes on by itself: saving, and the forecast of what was kept. */
export function begin(): void {
  // A drag changes the bench many times a second: it is saved when it rests.
  let later: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    const now = bench.value;
    clearTimeout(later);
    later = setTimeout(() => saveBench(now), 250);
  });
  addEventListener("pagehide", () => saveBench(bench.value));
  wantForecast("resting");
}
