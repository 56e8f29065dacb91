// The page's bake in the browser's database, so that it is there after a reload, a lock or a
// day without the program.

import type { Forecast, Kitchen, NoteRead, Recipe } from "../api.ts";
import type { ChecklistStep, Entry } from "./log.ts";

export interface KeptBake {
  key: string;
  /** Its number with the program. */
  trial: number;
  title: string;
  recipe: Recipe;
  kitchen: Kitchen;
  started_at_ms: number;
  checklist: ChecklistStep[];
  entries: Entry[];
  /** How many of the first entries the program has. */
  sent: number;
  /** The notes as the program read them, and the forecast it gave last. */
  notes?: NoteRead[];
  forecast: Forecast | null;
}

const shelf = "bakes";
const place = "now";

function opened(): Promise<IDBDatabase> {
  return new Promise((done, failed) => {
    const asked = indexedDB.open("maslin baking", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(shelf);
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
}

async function inside<T>(mode: IDBTransactionMode, act: (shelf: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const database = await opened();
  try {
    return await new Promise((done, failed) => {
      const change = database.transaction(shelf, mode);
      const asked = act(change.objectStore(shelf));
      change.oncomplete = () => done(asked.result);
      change.onabort = () => failed(change.error);
      change.onerror = () => failed(change.error);
    });
  } finally {
    database.close();
  }
}

export const keptBake = async (): Promise<KeptBake | null> =>
  ((await inside<unknown>("readonly", (bakes) => bakes.get(place))) as KeptBake | undefined) ?? null;

export async function keepBake(bake: KeptBake): Promise<void> {
  await inside("readwrite", (bakes) => bakes.put(bake, place));
}

export async function forgetBake(): Promise<void> {
  await inside("readwrite", (bakes) => bakes.delete(place));
}
