// The engine, asked from the page. It works in a worker made of text in the card itself, so that
// the page answers while it computes; some viewers of attachments allow no worker, and there it
// works on the page's own thread, in pieces.

import type { PantryTables } from "./card_data.ts";
import { type Engine, openHere, Outrun } from "./engine_here.ts";
import type { Asked, Opening, Told } from "./engine_worker.ts";

export { type Engine, type Observation, Outrun } from "./engine_here.ts";

/** The worker's script, set by web/build_card.mjs. */
declare const engineWorkerText: string;

interface TrustedTypes {
  createPolicy(name: string, rules: { createScriptURL(url: string): string }): { createScriptURL(url: string): string };
}

/** The one address of a script that the card's policy lets through: of the text above. */
function workerAddress(): string {
  const address = URL.createObjectURL(new Blob([engineWorkerText], { type: "text/javascript" }));
  const { trustedTypes } = globalThis as { trustedTypes?: TrustedTypes };
  return trustedTypes
    ? trustedTypes.createPolicy("engine", { createScriptURL: () => address }).createScriptURL(address)
    : address;
}

const longest_start_ms = 30_000;

function openThere(opening: Opening): Promise<Engine> {
  const worker = new Worker(workerAddress());
  const waiting = new Map<number, { done: (answer: unknown) => void; failed: (error: Error) => void }>();
  let last = 0;
  const ask = <Answer>(what: Asked["what"], ...given: unknown[]): Promise<Answer> =>
    new Promise<Answer>((done, failed) => {
      const id = ++last;
      waiting.set(id, { done: done as (answer: unknown) => void, failed });
      worker.postMessage({ id, what, given } satisfies Asked);
    });
  const engine: Engine = {
    read: (...given) => ask("read", ...given),
    carry: (...given) => ask("carry", ...given),
    foretell: (...given) => ask("foretell", ...given),
    day: (...given) => ask("day", ...given),
    seen: (...given) => ask("seen", ...given),
  };
  return new Promise((opened, failed) => {
    const never = setTimeout(() => failed(new Error("The worker did not start.")), longest_start_ms);
    worker.onerror = () => {
      failed(new Error("The worker was not allowed."));
      for (const one of waiting.values()) {
        one.failed(new Error("The engine stopped; open the card again. What was noted is kept."));
      }
      waiting.clear();
    };
    worker.onmessage = ({ data }: MessageEvent<Told>) => {
      if (data.id === 0) {
        clearTimeout(never);
        data.problem === undefined ? opened(engine) : failed(new Error(data.problem));
        return;
      }
      const one = waiting.get(data.id);
      waiting.delete(data.id);
      if (data.problem === undefined) {
        one?.done(data.answer);
      } else {
        one?.failed(data.outrun ? new Outrun(data.problem) : new Error(data.problem));
      }
    };
    worker.postMessage(opening);
  });
}

export async function openEngine(packed: string, tables: PantryTables): Promise<Engine> {
  try {
    return await openThere({ packed, tables });
  } catch {
    return openHere(packed, tables);
  }
}
