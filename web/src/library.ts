// Recipes that are kept, their versions and the bakes of them, as the interface gives them.

import type { Kitchen, Range, Recipe } from "./api.ts";
import { asked, posted } from "./server.ts";
import type { NoteRead } from "./trial_api.ts";

export interface KeptRecipe {
  name: string;
  title: string;
  version: string;
  saved_at: string;
  versions: number;
  trials: number;
  tags: string[];
}

/** One version in the course of a name. */
export interface CourseEntry {
  place: number;
  version: string;
  title: string;
  saved_at: string;
  why: string;
  parents: string[];
  trials: number[];
}

export interface Course extends KeptRecipe {
  history: CourseEntry[];
}

export interface Kept {
  name: string;
  version: string;
  place: number;
  changed: boolean;
}

/** What bears the words that were sought. */
export interface Found {
  recipes: { name: string }[];
  notes: { trial: number; note: number; recipe: string; at: string; text: string }[];
}
export const searched = (words: string): Promise<Found> =>
  asked<Found>(`library/search?words=${encodeURIComponent(words)}`);

/** A bake, as far as it is looked back on. */
export interface TrialSeen {
  trial: number;
  title: string;
  version: string;
  kitchen: string | null;
  started_at: string;
  closed_at: string | null;
  notes: NoteRead[];
  learnt?: string[];
}

/** What may have made a fault, likeliest first, and what mending it would do to the next bake. */
export interface Diagnosis {
  fault: string;
  causes: {
    cause: string;
    chance: number;
    mend: string;
    effect: { of: string; unit: string; as_it_is: Range; mended: Range } | null;
  }[];
  look_at: string[];
}

/** What to change for the next bake, as docs/schema/next.schema.json has it, as far as it is shown. */
export interface Next {
  next: {
    reason: string;
    changes: { words: string; from: number; to: number }[];
    adjustment: { recipe: Recipe; changes: { line: string; from_grams: number; to_grams: number; why: string }[] };
  } | null;
  why_not: string;
  effect: Comparison["outcome"];
  mends: {
    fault: string; cause: string; chance: number; mend: string;
    of: string; unit: string; as_it_is: Range; mended: Range; recipe: Recipe;
  }[];
}
export const nextOf = (name: string): Promise<Next> =>
  asked<Next>(`library/next?name=${encodeURIComponent(name)}`);

/** One thing that a kitchen has learnt from its bakes. */
export interface Lesson {
  name: string;
  what: string;
  unit: string;
  before: Range;
  now: Range;
  trials: number[];
}

type Amount = { grams: number; pct_flour: number | null } | null;

/** Two versions side by side: amounts that differ, and what the models make of it. */
export interface Comparison {
  lines: { part: string; name: string; before: Amount; after: Amount }[];
  outcome: {
    figure: string; words: string; unit: string; before: Range | null; after: Range | null;
    noted_before?: string; noted_after?: string;
  }[];
}
export const compared = (before: string, after: string, kitchen: Kitchen): Promise<Comparison> =>
  posted<Comparison>("compare", { before, after, kitchen });

export const diagnosisOf = async (trial: number): Promise<Diagnosis[]> =>
  (await asked<{ diagnoses: Diagnosis[] }>(`trials/${trial}/diagnosis`)).diagnoses;
export const lessonsOf = async (kitchen: string): Promise<Lesson[]> =>
  (await asked<{ learnt: Lesson[] }>(`kitchen/learnt?name=${encodeURIComponent(kitchen)}`)).learnt;

export const listKept = async (): Promise<KeptRecipe[]> =>
  (await asked<{ recipes: KeptRecipe[] }>("library")).recipes;
export const courseOf = (name: string): Promise<Course> =>
  asked<Course>(`library/history?name=${encodeURIComponent(name)}`);
export const versionOf = (version: string): Promise<Recipe> =>
  asked<Recipe>(`library/version?of=${encodeURIComponent(version)}`);
export const keepRecipe = (question: { recipe: Recipe; name?: string; why?: string; from?: string }): Promise<Kept> =>
  posted<Kept>("library", question);
export const trialOf = (trial: number): Promise<TrialSeen> => asked<TrialSeen>(`trials/${trial}?forecast=no`);

/** A kept recipe in words, to stand where the found text stood. */
export const wordsOf = (recipe: Recipe): string =>
  [
    recipe.title ?? "",
    ...recipe.parts.map((part) =>
      [
        ...(recipe.parts.length > 1 ? [`${part.name}:`] : []),
        ...part.lines.map((line) => line.text),
        "",
        ...(part.steps ?? []).map((step) => step.text),
      ].join("\n")),
  ].join("\n\n").trim();
