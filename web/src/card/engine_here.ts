// The engine inside the card: a WebAssembly module, packed as base64 of its gzip, and the
// questions it answers. It runs in a worker, or where a browser gives a card none, on the page's
// own thread; forecasts run in pieces, between which a newer question is heard.

import type { Forecast, Kitchen, Recipe } from "../api.ts";
import type { Day } from "../day.ts";
import { type Carried, carriedOf, type HandOn, type PantryTables } from "./card_data.ts";

interface Face {
  memory: WebAssembly.Memory;
  _initialize(): void;
  maslin_text(bytes: number): number;
  maslin_answer(): number;
  maslin_answer_bytes(): number;
  maslin_card_tables(): void;
  maslin_card_note(): void;
  maslin_card_carry(draws: number, seed: number): void;
  maslin_card_begin(draws: number, seed: number): void;
  maslin_card_run(most: number): number;
  maslin_card_forecast(): void;
  maslin_card_day(now_minutes: number): void;
  maslin_card_seen(draws: number, seed: number): void;
}

export type Observation = Readonly<Record<string, unknown>>;

export interface Question {
  recipe: Recipe;
  kitchen: Kitchen;
  home?: Kitchen;
  language?: string;
}

/** Dropped for a newer question. */
export class Outrun extends Error {}

export interface Engine {
  /** What a baker's words say was seen. */
  read(note: string): Promise<Observation[]>;
  carry(question: Question): Promise<Carried>;
  foretell(question: Question): Promise<Forecast>;
  /** The day of the forecast made last, begun at `now_minutes` on the kitchen's clock, since
      1970-01-01T00:00 there; null where there is none to plan. */
  day(now_minutes: number): Promise<Day | null>;
  /** The forecast as what was seen leaves it. */
  seen(question: Question, observations: readonly Observation[]): Promise<Forecast>;
}

const cardDraws = 256;
const carryDraws = 32;
const seed = 1;
// A piece of work short enough that a tap is answered at once, on the page's own thread too.
const piece_ms = 24;

function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; ++i) {
    bytes[i] = text.charCodeAt(i);
  }
  return bytes;
}

async function unpacked(base64: string): Promise<ArrayBuffer> {
  const packed = new Blob([bytesOf(base64)]).stream();
  return new Response(packed.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
}

async function started(base64: string): Promise<Face> {
  const module = await WebAssembly.compile(await unpacked(base64));
  const imports: Record<string, () => never> = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    if (from !== "wasi_snapshot_preview1") {
      throw new Error(`The engine asks for ${from}.${name}, which no card has.`);
    }
    // A C library needs these to start; the computation calls none of them.
    imports[name] = () => {
      throw new Error(`The engine called ${name}.`);
    };
  }
  const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: imports });
  const face = instance.exports as unknown as Face;
  face._initialize();
  return face;
}

/** Lets what waits be heard. A timer of nothing would wait for four milliseconds. */
const breath = (): Promise<void> => new Promise((done) => {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => {
    port1.close();
    done();
  };
  port2.postMessage(null);
});

export async function openHere(base64: string, tables: PantryTables): Promise<Engine> {
  const face = await started(base64);
  const write = (text: string): void => {
    const bytes = new TextEncoder().encode(text);
    const at = face.maslin_text(bytes.length);
    new Uint8Array(face.memory.buffer, at, bytes.length).set(bytes);
  };
  const answer = <T>(): T => {
    const bytes = new Uint8Array(face.memory.buffer, face.maslin_answer(), face.maslin_answer_bytes());
    const said = JSON.parse(new TextDecoder().decode(bytes)) as T & { problem?: string };
    if (typeof said.problem === "string" && said.problem !== "") {
      throw new Error(said.problem);
    }
    return said;
  };
  write(JSON.stringify(tables));
  face.maslin_card_tables();
  let newest = 0;
  return {
    async read(note) {
      write(note);
      face.maslin_card_note();
      return answer<{ observations: Observation[] }>().observations;
    },
    async carry(question) {
      write(JSON.stringify(question));
      face.maslin_card_carry(carryDraws, seed);
      return carriedOf(answer<HandOn>());
    },
    async foretell({ recipe, kitchen }) {
      const mine = ++newest;
      write(JSON.stringify({ recipe, kitchen }));
      face.maslin_card_begin(cardDraws, seed);
      answer();
      for (let left = 1; left > 0;) {
        const until = performance.now() + piece_ms;
        do {
          left = face.maslin_card_run(1);
        } while (left > 0 && performance.now() < until);
        await breath();
        if (mine !== newest) {
          throw new Outrun("A newer question came.");
        }
      }
      face.maslin_card_forecast();
      return answer<Forecast>();
    },
    async day(now_minutes) {
      face.maslin_card_day(now_minutes);
      try {
        return answer<Day>();
      } catch {
        return null;
      }
    },
    async seen({ recipe, kitchen }, observations) {
      // What was seen may call for other draws: the engine does it in one go.
      const mine = ++newest;
      await breath();
      if (mine !== newest) {
        throw new Outrun("A newer question came.");
      }
      write(JSON.stringify({ recipe, kitchen, observations }));
      face.maslin_card_seen(cardDraws, seed);
      return answer<Forecast>();
    },
  };
}
