// A bake in hand: the list of what was done and seen, kept in a book, and the forecast
// that every note corrects. What forecasts (the program, or the engine inside a card) and
// what keeps (the program's trial, or the browser) are handed in.

import { computed, type ReadonlySignal, type Signal, signal } from "@preact/signals";
import type { Forecast } from "../api.ts";
import {
  answersToLast, type ChecklistStep, type Doing, doneAgain, type Entry, type Mark, type More, type Note, type Standing,
  standingOf, stepInHand,
} from "./log.ts";

/** Where entries are kept. `keep` answers when the entry is safe. */
export interface Book {
  load(): Promise<Entry[]>;
  keep(entry: Entry): Promise<void>;
}

/** The forecast as the notes leave it. */
export type Look = (notes: readonly Note[]) => Promise<Forecast>;

export interface SessionOptions {
  title: string;
  checklist: readonly ChecklistStep[];
  book: Book;
  look: Look;
  now?: () => number;
}

/** What the last note did: said once, until the next thing happens. */
export interface Said {
  text: string;
  key: string;
  /** Minutes by which the end of the bake moved; null while that is worked out. */
  moved_minutes: number | null;
}

export interface Session {
  title: string;
  checklist: readonly ChecklistStep[];
  entries: ReadonlySignal<readonly Entry[]>;
  standing: ReadonlySignal<Standing>;
  inHand: ReadonlySignal<ChecklistStep | null>;
  forecast: Signal<Forecast | null>;
  looking: Signal<boolean>;
  problem: Signal<string>;
  said: Signal<Said | null>;
  now: () => number;
  open(): Promise<void>;
  mark(step: number, is: Mark): Promise<void>;
  note(step: number | null, text: string, more?: More & { at_ms?: number }): Promise<void>;
  undo(): Promise<void>;
  redo(): Promise<void>;
  canRedo: ReadonlySignal<boolean>;
  takeBack(key: string): Promise<void>;
  lookAgain(): Promise<void>;
}

/** A key nobody else makes: what a note is known by wherever it goes. */
export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Likely minutes of everything the forecast speaks of: what a note moves. */
const wholeLength = (forecast: Forecast | null): number =>
  (forecast?.proves ?? []).reduce((sum, prove) => sum + (prove.minutes_to_target?.p50 ?? 0), 0) +
  (forecast?.bake?.minutes_to_done?.p50 ?? 0);

export function bakingSession({ title, checklist, book, look, now = Date.now }: SessionOptions): Session {
  const entries = signal<readonly Entry[]>([]);
  const standing = computed(() => standingOf(entries.value));
  const forecast = signal<Forecast | null>(null);
  const looking = signal(false);
  const problem = signal("");
  const said = signal<Said | null>(null);
  /** What was undone, the last at the end. */
  const undone = signal<readonly Doing[]>([]);
  let newest = 0;

  async function lookAgain(): Promise<void> {
    const mine = ++newest;
    looking.value = true;
    try {
      const seen = await look(standing.value.notes);
      if (mine !== newest) {
        return;
      }
      if (said.value && said.value.moved_minutes === null) {
        const moved = forecast.value === null ? 0 : wholeLength(seen) - wholeLength(forecast.value);
        said.value = { ...said.value, moved_minutes: moved };
      }
      forecast.value = seen;
      problem.value = "";
    } catch (error) {
      if (mine === newest) {
        problem.value = error instanceof Error ? error.message : "The forecast could not be made.";
      }
    } finally {
      if (mine === newest) {
        looking.value = false;
      }
    }
  }

  async function add(what: Doing): Promise<Entry> {
    const entry = { key: newKey(), at_ms: now(), ...what } as Entry;
    entries.value = [...entries.value, entry];
    try {
      await book.keep(entry);
    } catch (error) {
      problem.value = error instanceof Error ? error.message : "The note could not be kept.";
    }
    return entry;
  }

  return {
    title, checklist, entries, standing, forecast, looking, problem, said, now, lookAgain,
    canRedo: computed(() => undone.value.length > 0),
    inHand: computed(() => stepInHand(checklist, standing.value)),
    async open() {
      entries.value = await book.load();
      await lookAgain();
    },
    async mark(step, is) {
      said.value = null;
      undone.value = [];
      await add({ is, step });
    },
    async note(step, text, more) {
      undone.value = [];
      const entry = await add({ is: "note", step, text, ...more });
      said.value = { text, key: entry.key, moved_minutes: null };
      await lookAgain();
    },
    async undo() {
      said.value = null;
      const answers = answersToLast(entries.value);
      const again = doneAgain(entries.value, answers);
      undone.value = again ? [...undone.value, again] : [];
      for (const answer of answers) {
        await add(answer);
      }
      if (answers.some((answer) => answer.is === "taken_back")) {
        await lookAgain();
      }
    },
    async redo() {
      const doing = undone.value.at(-1);
      if (doing) {
        undone.value = undone.value.slice(0, -1);
        await add(doing);
        await lookAgain();
      }
    },
    async takeBack(key) {
      said.value = null;
      undone.value = [];
      await add({ is: "taken_back", note: key });
      await lookAgain();
    },
  };
}
