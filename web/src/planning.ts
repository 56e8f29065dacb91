// The day of the recipe on the bench: when it is wanted, and the newest plan.

import { effect, signal } from "@preact/signals";
import { askDay, clockOf, type Clock, type Day, type DayAlternative, minutesOf, wallClock } from "./day.ts";
import { quickDraws } from "./forecast_runner.ts";
import { sentenceOf } from "./server.ts";
import { bench, forecasting, layRecipe, recipeNow } from "./store.ts";

/** When it is wanted; empty: as soon as can be. */
export const readyAt = signal<Clock>("");
export const day = signal<Day | null>(null);
export const dayProblem = signal("");
export const planning = signal(false);
/** Whether anybody looks: a day out of sight is not planned anew at each edit. */
export const daySeen = signal(false);

/** By how many minutes a hand has the whole day in the air. */
export const carried = signal(0);

let running: AbortController | null = null;
async function ask(): Promise<void> {
  running?.abort();
  const recipe = recipeNow.value;
  if (!recipe) {
    return;
  }
  const mine = new AbortController();
  running = mine;
  planning.value = true;
  try {
    const answer = await askDay({
      recipe, kitchen: bench.value.kitchen, now: wallClock(), draws: quickDraws,
      ...(readyAt.value === "" ? {} : { ready_at: readyAt.value }),
    }, mine.signal);
    day.value = answer;
    carried.value = 0;
    dayProblem.value = "";
  } catch (error) {
    if (!mine.signal.aborted) {
      day.value = null;
      carried.value = 0;
      dayProblem.value = sentenceOf(error);
    }
  } finally {
    if (running === mine) {
      planning.value = false;
    }
  }
}

/** The hour under the hand, without asking yet. */
export const carryBy = (minutes: number): void => {
  carried.value = minutes;
};

/** Sets the hour so many minutes later, or earlier, to whole fives. */
export function moveReady(minutes: number): void {
  const drawn = minutesOf(day.value?.ready);
  const end = minutesOf(readyAt.value) ?? drawn;
  if (end !== null && drawn !== null) {
    const next = Math.round((end + minutes) / 5) * 5;
    carried.value = next - drawn;
    readyAt.value = clockOf(next);
  }
}

/** Sets the hour itself, to whole fives. */
export function readyFrom(minutes: number): void {
  readyAt.value = clockOf(Math.round(minutes / 5) * 5);
}

export function takeWay(way: DayAlternative): void {
  const { recipe } = bench.value;
  if (recipe && way.recipe) {
    // What the way does not change keeps its range: it was asked about the amounts on the bench.
    layRecipe({ recipe: way.recipe, amounts: {} });
  }
}

/** Plans whenever the recipe, the kitchen or the hour change, while somebody looks. */
export function beginPlanning(): void {
  let later: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    const wanted = recipeNow.value !== null && daySeen.value;
    const hour = readyAt.value;
    void bench.value.kitchen;
    clearTimeout(later);
    // What is forecast is looked at first, and both would share the same cores: a day of an older
    // edit is dropped, and one of the new asked once its forecast is whole.
    if (!wanted || forecasting.value !== "still") {
      running?.abort();
      if (recipeNow.value === null) {
        day.value = null;
      }
      return;
    }
    // An hour that was moved is planned at once.
    later = setTimeout(() => void ask(), hour !== lastHour || day.peek() === null ? 0 : 100);
    lastHour = hour;
  });
}
let lastHour: Clock = "";
