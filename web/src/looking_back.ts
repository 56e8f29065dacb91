// Looking back: what is kept, the course of one recipe, two versions side by side.

import { signal } from "@preact/signals";
import { compared, type Comparison, type Course, courseOf, type CourseEntry, type Diagnosis, diagnosisOf, keepRecipe, type KeptRecipe, type Lesson, lessonsOf, listKept, type Next, nextOf, type TrialSeen, trialOf, versionOf, wordsOf } from "./library.ts";
import { asChanges } from "./adjusted.ts";
import type { Recipe } from "./api.ts";
import { onEvent } from "./live.ts";
import { bench, layKept, recipeNow, sentenceOf } from "./store.ts";

export const view = signal<"bench" | "back">("bench");
export const kept = signal<KeptRecipe[] | null>(null);
export const course = signal<Course | null>(null);
export const backProblem = signal("");

export interface SideBySide {
  before: CourseEntry;
  after: CourseEntry;
  found: Comparison;
}
export const sideBySide = signal<SideBySide | null>(null);
export const trials = signal<TrialSeen[]>([]);
/** What may have gone wrong, by the number of the bake that was asked about. */
export const diagnoses = signal<Readonly<Record<number, Diagnosis[]>>>({});
/** What to change for the next bake, once it was asked. */
export const next = signal<Next | null>(null);
/** What the kitchens of these bakes have learnt. */
export const lessons = signal<readonly { kitchen: string; learnt: Lesson[] }[]>([]);

async function asking(work: () => Promise<void>): Promise<void> {
  try {
    await work();
    backProblem.value = "";
  } catch (error) {
    backProblem.value = sentenceOf(error);
  }
}

export const openCourse = (name: string): Promise<void> => asking(async () => {
  sideBySide.value = null;
  course.value = await courseOf(name);
  // A bake that cannot be read leaves the others on show.
  const bakes = course.value.history.flatMap((entry) => entry.trials);
  const seen = await Promise.all(bakes.map((trial) => trialOf(trial).catch(() => null)));
  trials.value = seen.filter((one) => one !== null);
  diagnoses.value = {};
  next.value = null;
  const kitchens = [...new Set(trials.value.flatMap(({ kitchen }) => kitchen ?? []))];
  lessons.value = await Promise.all(kitchens.map(async (kitchen) =>
    ({ kitchen, learnt: await lessonsOf(kitchen).catch(() => []) })));
});

export const diagnose = (trial: number): Promise<void> => asking(async () => {
  diagnoses.value = { ...diagnoses.value, [trial]: await diagnosisOf(trial) };
});

export const askNext = (): Promise<void> => asking(async () => {
  next.value = course.value && await nextOf(course.value.name);
});

/** Lays a proposal on the bench as changes to the version that was baked last, to be kept or changed. */
export const layNext = (proposed: Recipe): Promise<void> => asking(async () => {
  const baked = course.value?.history.filter((entry) => entry.trials.length > 0)
    .sort((one, other) => Math.max(...one.trials) - Math.max(...other.trials)).at(-1);
  if (course.value && baked) {
    const { name } = course.value;
    const { version, place } = baked;
    const { recipe, amounts } = asChanges(await versionOf(version), proposed);
    layKept(recipe, wordsOf(recipe), { name, version, place }, amounts);
    view.value = "bench";
  }
});

const refresh = async (wanted?: string): Promise<void> => {
  kept.value = await listKept();
  const name = wanted ?? course.value?.name ?? bench.value.kept?.name ?? kept.value[0]?.name;
  if (name !== undefined && kept.value.some((one) => one.name === name)) {
    await openCourse(name);
  }
};

let listening = false;
export const lookBack = (name?: string): Promise<void> => asking(async () => {
  view.value = "back";
  await refresh(name);
  if (!listening) {
    listening = true;
    onEvent("changed", () => view.value === "back" && void asking(refresh));
  }
});

/** Two versions beside each other: what changed, and what that does. */
export const compare = (before: CourseEntry, after: CourseEntry): Promise<void> => asking(async () => {
  const found = await compared(before.version, after.version, bench.value.kitchen);
  sideBySide.value = { before, after, found };
});

export const layVersion = (name: string, { version, place }: CourseEntry): Promise<void> => asking(async () => {
  const recipe = await versionOf(version);
  layKept(recipe, wordsOf(recipe), { name, version, place });
  view.value = "bench";
});

export const keeping = signal(false);
export const keepProblem = signal("");
/** Keeps what is on the bench as a new version, made from the one that was laid on it. */
export async function keep(name: string, why: string): Promise<void> {
  const recipe = recipeNow.value;
  if (!recipe) {
    return;
  }
  keeping.value = true;
  try {
    const from = bench.value.kept;
    const answer = await keepRecipe({
      recipe, name, why, ...(from && from.name === name ? { from: from.version } : {}),
    });
    layKept(recipe, bench.value.found, answer);
    keepProblem.value = "";
  } catch (error) {
    keepProblem.value = sentenceOf(error);
  } finally {
    keeping.value = false;
  }
}
