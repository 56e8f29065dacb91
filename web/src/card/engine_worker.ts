// The engine on a thread of its own. The card carries this script as text and starts it from
// there; it is told the engine and the pantry first, then asked one question a message.

import { type Engine, openHere, Outrun } from "./engine_here.ts";
import type { PantryTables } from "./card_data.ts";

export interface Opening {
  packed: string;
  tables: PantryTables;
}
export interface Asked {
  id: number;
  what: keyof Engine;
  given: unknown[];
}
export interface Told {
  id: number;
  answer?: unknown;
  problem?: string;
  outrun?: boolean;
}

let engine: Promise<Engine> | undefined;

const tell = (told: Told): void => postMessage(told);

onmessage = async ({ data }: MessageEvent<Opening | Asked>) => {
  const id = "packed" in data ? 0 : data.id;
  try {
    if ("packed" in data) {
      engine = openHere(data.packed, data.tables);
      await engine;
      tell({ id });
      return;
    }
    const opened = await engine;
    const ask = opened?.[data.what] as (...given: unknown[]) => Promise<unknown>;
    tell({ id, answer: await ask(...data.given) });
  } catch (error) {
    tell({ id, problem: error instanceof Error ? error.message : String(error), outrun: error instanceof Outrun });
  }
};
