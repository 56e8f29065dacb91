// What a card keeps in the browser, under its own name: the kitchen and each bake. Where the
// browser keeps nothing (some viewers of attachments), it is held while the card is open.

import type { Kitchen } from "../api.ts";
import type { Entry } from "../baking/log.ts";
import type { Book } from "../baking/session.ts";

/** A bake that was begun on this card. */
export interface Bake {
  key: string;
  started_at_ms: number;
  kitchen: Kitchen;
  entries: Entry[];
}

export interface Kept {
  kitchen: Kitchen | null;
  language: string;
  bake: Bake | null;
}

const nothing: Kept = { kitchen: null, language: "", bake: null };

export interface Keeping {
  /** False when what is noted is lost with the page. */
  lasts: boolean;
  read(): Kept;
  write(change: Partial<Kept>): void;
}

function wellFormed(value: unknown): value is Kept {
  const kept = value as Kept | null;
  return typeof kept === "object" && kept !== null &&
    (kept.bake === null || Array.isArray(kept.bake?.entries));
}

export function keepingOf(cardId: string): Keeping {
  const name = `maslin card ${cardId.slice(0, 24)}`;
  let held: Kept = nothing;
  let lasts = true;
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(name) ?? "null");
    held = wellFormed(kept) ? { ...nothing, ...kept } : nothing;
    localStorage.setItem(name, JSON.stringify(held));
  } catch {
    lasts = false;
  }
  return {
    get lasts() {
      return lasts;
    },
    read: () => held,
    write(change) {
      held = { ...held, ...change };
      try {
        localStorage.setItem(name, JSON.stringify(held));
      } catch {
        lasts = false;
      }
    },
  };
}

/** The bake's list as a book that the browser keeps. */
export const bookOf = (keeping: Keeping): Book => ({
  load: async () => keeping.read().bake?.entries ?? [],
  async keep(entry) {
    const { bake } = keeping.read();
    if (bake) {
      keeping.write({ bake: { ...bake, entries: [...bake.entries, entry] } });
    }
  },
});
