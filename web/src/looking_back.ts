// Looking back: what is kept, the course of one recipe, two versions side by side.

import { signal } from "@preact/signals";
import { compared, type Comparison, type Course, courseOf, type CourseEntry, type Diagnosis, diagnosisOf, type Found, keepRecipe, type KeptRecipe, type Lesson, lessonsOf, listKept, type Next, nextOf, searched, type TrialSeen, trialOf, versionOf, wordsOf } from "./library.ts";
import { asChanges } from "./adjusted.ts";
import { act, redoDeed, undoDeed } from "./deeds.ts";
import { newKey } from "./baking/session.ts";
import type { Recipe } from "./api.ts";
import { onEvent } from "./live.ts";
import { posted, sentenceOf } from "./server.ts";
import { bench, layKept, recipeNow } from "./store.ts";
import { type NoteRead, sendPicture } from "./trial_api.ts";

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

/** A note of a bake that is over: what teaches its kitchen opens it and closes it again. */
async function sendLate({ trial, closed_at }: TrialSeen, text: string, { picture, ...more }: { picture?: string; instead_of?: number; at?: string }): Promise<number> {
  const key = newKey();
  const send = (): Promise<NoteRead> => picture
    ? sendPicture(trial, picture, { text, key, at_ms: Date.now() })
    : posted(`trials/${trial}/notes`, { text, key, ...more });
  const { note } = await send().catch(async (error: unknown) => {
    if (closed_at === null) {
      throw error;
    }
    await posted(`trials/${trial}/reopen`, {});
    return send().finally(() => posted(`trials/${trial}/close`, {}));
  });
  await refresh();
  return note;
}

const strike = (bake: TrialSeen, note: number): Promise<number> => sendLate(bake, "taken back", { instead_of: note });

export function noteLate(bake: TrialSeen, text: string, picture?: string): Promise<void> {
  let note = 0;
  return act({
    again: async () => (note = await sendLate(bake, text, picture ? { picture } : {})),
    back: () => strike(bake, note),
  });
}

export const takeBack = (bake: TrialSeen, { note, text, at }: NoteRead): Promise<void> => asking(() => {
  let number = note;
  return act({
    again: () => strike(bake, number),
    back: async () => (number = await sendLate(bake, text, { at })),
  });
});

/** The kitchen as if this bake had never taught it. */
export const unlearn = (trial: number, kitchen: string | null): Promise<void> => asking(() => act({
  again: () => posted("kitchen/unlearn", { kitchen, trial }).then(() => refresh()),
  back: async () => {
    await posted(`trials/${trial}/reopen`, {});
    await posted(`trials/${trial}/close`, {});
    await refresh();
  },
}));

/** Puts a word on the recipe on show, to find it by, or takes one off. */
export const tag = (word: string, remove: boolean): Promise<void> => asking(async () => {
  const now = course.value;
  const set = (remove: boolean) => (): Promise<void> =>
    posted("library/tags", { name: now?.name, words: [word], remove }).then(() => refresh());
  if (now && now.tags.includes(word) === remove) {
    await act({ again: set(remove), back: set(!remove) });
  }
});

/** Words to find recipes and notes by, and what bears them. */
export const sought = signal("");
export const found = signal<Found | null>(null);
export const seek = (words: string): Promise<void> => asking(async () => {
  sought.value = words;
  const answer = words.trim() === "" ? null : await searched(words);
  if (sought.value === words) {
    found.value = answer;
  }
});

/** The last thing done here is undone, or done again. */
export const undoBack = (): Promise<void> => asking(undoDeed);
export const redoBack = (): Promise<void> => asking(redoDeed);

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
