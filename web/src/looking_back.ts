// Looking back: what is kept, the course of one recipe, two versions side by side.

import { signal } from "@preact/signals";
import { compared, type Comparison, type Course, courseOf, type CourseEntry, type Diagnosis, diagnosisOf, keepRecipe, type KeptRecipe, type Lesson, lessonsOf, listKept, type Next, nextOf, type TrialSeen, trialOf, versionOf, wordsOf } from "./library.ts";
import { asChanges } from "./adjusted.ts";
import { newKey } from "./baking/session.ts";
import { type Recipe, sendPicture } from "./api.ts";
import { onEvent } from "./live.ts";
import { posted, sentenceOf } from "./server.ts";
import { bench, layKept, recipeNow } from "./store.ts";

export const view = signal<"bench" | "back">("bench");
export const kept = signal<KeptRecipe[] | null>(null);
export const course = signal<Course | null>(null);
export const backProblem = signal("");

/** A version or a bake, to be set beside another. */
export interface Side {
  /** What the program calls it. */
  called: string;
  /** What it is called here. */
  words: string;
  /** Orders the two. */
  order: number;
  pictures: readonly string[];
}
export interface SideBySide {
  before: Side;
  after: Side;
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

/** The pictures of a bake that stand, oldest first. */
export const picturesOf = ({ notes }: TrialSeen): string[] =>
  notes.filter((note) => !note.corrected).flatMap(({ pictures }) => pictures);

/** Those of the bakes of a version, oldest first. */
export const picturesOfVersion = (entry: CourseEntry): string[] =>
  trials.value.filter(({ trial }) => entry.trials.includes(trial))
    .sort((one, other) => one.trial - other.trial).flatMap(picturesOf);

/** Notes of a bake that is over: what teaches its kitchen opens it and closes it again. */
export async function noteLate({ trial, closed_at }: TrialSeen, text: string, picture?: string, instead_of?: number): Promise<void> {
  const key = newKey();
  const send = (): Promise<unknown> => picture
    ? sendPicture(trial, picture, { text, key, at_ms: Date.now() })
    : posted(`trials/${trial}/notes`, { text, key, ...(instead_of ? { instead_of } : {}) });
  await send().catch(async (error: unknown) => {
    if (closed_at === null) {
      throw error;
    }
    await posted(`trials/${trial}/reopen`, {});
    await send().finally(() => posted(`trials/${trial}/close`, {}));
  });
  await refresh();
}

export const takeBack = (bake: TrialSeen, note: number): Promise<void> =>
  asking(() => noteLate(bake, "taken back", undefined, note));

/** The kitchen as if this bake had never taught it. */
export const unlearn = (trial: number, kitchen: string | null): Promise<void> => asking(async () => {
  await posted("kitchen/unlearn", { kitchen, trial });
  await refresh();
});

export const openCourse = (name: string): Promise<void> => asking(async () => {
  if (course.value?.name !== name) {
    sideBySide.value = null;
    chosen.value = null;
  }
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

/** The side that the next one is set beside. */
export const chosen = signal<Side | null>(null);

/** Two beside each other: what changed, and what that does. */
export const choose = (side: Side): Promise<void> => asking(async () => {
  const other = chosen.value;
  chosen.value = other ? null : side;
  if (other && other.called !== side.called) {
    const [before, after] = other.order < side.order ? [other, side] : [side, other];
    const found = await compared(before.called, after.called, bench.value.kitchen);
    sideBySide.value = { before, after, found };
  }
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
