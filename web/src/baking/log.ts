// What was done and seen at a bake, as a list that only grows: steps begun and done, notes,
// and notes taken back. Everything on show is read off this list, so that a reload, a locked
// screen or an empty battery loses nothing.

import type { LowHigh } from "../api.ts";

/** A step of the recipe at its place on the checklist, from 1. */
export interface ChecklistStep {
  step: number;
  part: string;
  kind: string;
  text: string;
  minutes?: LowHigh | null;
  celsius?: LowHigh | null;
  until?: string;
}

export type Mark = "begun" | "done" | "undone";

export type Entry = { key: string; at_ms: number } & (
  | { is: Mark; step: number }
  | ({ is: "note"; step: number | null; text: string } & More)
  | { is: "taken_back"; note: string }
);

/** What a note may have beside its words. */
export interface More {
  /** Where its picture is: in the address itself until the program has it. */
  picture?: string;
  /** It was so, however unusual. */
  sure?: true;
}

export type Note = Extract<Entry, { is: "note" }>;

export interface StepState {
  begun_at_ms: number | null;
  done_at_ms: number | null;
}

/** Where the bake stands. */
export interface Standing {
  steps: Map<number, StepState>;
  /** Notes that were not taken back, in the order they were made. */
  notes: Note[];
}

const untouched: StepState = { begun_at_ms: null, done_at_ms: null };

export const stateOf = (standing: Standing, step: number): StepState =>
  standing.steps.get(step) ?? untouched;

export function standingOf(entries: readonly Entry[]): Standing {
  const steps = new Map<number, StepState>();
  const notes = new Map<string, Note>();
  for (const entry of entries) {
    if (entry.is === "note") {
      notes.set(entry.key, entry);
    } else if (entry.is === "taken_back") {
      notes.delete(entry.note);
    } else if (entry.is === "undone") {
      steps.delete(entry.step);
    } else if (entry.is === "begun") {
      steps.set(entry.step, { begun_at_ms: entry.at_ms, done_at_ms: null });
    } else {
      steps.set(entry.step, { ...(steps.get(entry.step) ?? untouched), done_at_ms: entry.at_ms });
    }
  }
  return { steps, notes: [...notes.values()] };
}

/** How many of the checklist's first steps are behind: up to the last one that was done. */
export function stepsBehind(checklist: readonly ChecklistStep[], standing: Standing): number {
  let behind = 0;
  checklist.forEach((step, i) => {
    behind = stateOf(standing, step.step).done_at_ms === null ? behind : i + 1;
  });
  return behind;
}

/** The step in hand; null when all are done. */
export const stepInHand = (checklist: readonly ChecklistStep[], standing: Standing): ChecklistStep | null =>
  checklist[stepsBehind(checklist, standing)] ?? null;

export type Doing =
  | { is: Mark; step: number; at_ms?: number }
  | ({ is: "note"; step: number | null; text: string; at_ms?: number } & More)
  | { is: "taken_back"; note: string };

/** What takes the last thing back: entries that answer it, none when there is nothing. A step
    that was done goes back to when it was begun. */
export function answersToLast(entries: readonly Entry[]): Doing[] {
  const { notes, steps } = standingOf(entries);
  for (const entry of [...entries].reverse()) {
    if (entry.is === "note" && notes.some((note) => note.key === entry.key)) {
      return [{ is: "taken_back", note: entry.key }];
    }
    const state = entry.is === "begun" || entry.is === "done" ? steps.get(entry.step) : undefined;
    if (state && entry.is === "done" && state.done_at_ms === entry.at_ms) {
      const back: Doing[] = [{ is: "undone", step: entry.step }];
      return state.begun_at_ms === null
        ? back
        : [...back, { is: "begun", step: entry.step, at_ms: state.begun_at_ms }];
    }
    if (state && entry.is === "begun" && state.done_at_ms === null) {
      return [{ is: "undone", step: entry.step }];
    }
  }
  return [];
}

/** What does again what those answers take back. */
export function doneAgain(entries: readonly Entry[], [answer]: readonly Doing[]): Doing | null {
  const of = [...entries].reverse().find((entry) => answer?.is === "taken_back"
    ? entry.key === answer.note
    : answer?.is === "undone" && (entry.is === "done" || entry.is === "begun") && entry.step === answer.step);
  if (!of || of.is === "taken_back") {
    return null;
  }
  const { key: _, ...doing } = of;
  // A moment later, so that it is not taken for the one that was taken back.
  return { ...doing, at_ms: of.at_ms + (of.is === "note" ? 1 : 0) };
}

const minute_ms = 60_000;
export const minutesBetween = (from_ms: number, to_ms: number): number => (to_ms - from_ms) / minute_ms;
