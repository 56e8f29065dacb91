// When to ask for a forecast: a quick one with few draws at once, the full one when
// the hand rests. A newer wish cancels what it makes worthless.

import type { Forecast } from "./api.ts";

export const quickDraws = 256;
export const fullDraws = 1024;

/** "moving": more will follow in a moment, so a quick answer on its way is let come. */
export type Hand = "moving" | "resting";

export interface Runner<Wish> {
  want(wish: Wish, hand: Hand): void;
  stop(): void;
}

export interface RunnerOutcome<Wish> {
  ask(wish: Wish, draws: number, signal: AbortSignal): Promise<Forecast>;
  /** Answers when it is on the screen. */
  answered(forecast: Forecast, draws: number, wish: Wish): Promise<void>;
  failed(error: unknown): void;
}

export function forecastRunner<Wish>(outcome: RunnerOutcome<Wish>): Runner<Wish> {
  let running: { abort: AbortController; draws: number } | null = null;
  let waiting: { wish: Wish; hand: Hand } | null = null;

  async function run(wish: Wish, hand: Hand, draws: number, after?: Promise<void>): Promise<void> {
    const abort = new AbortController();
    const mine = { abort, draws };
    running = mine;
    try {
      if (after) {
        await after;
        if (running !== mine) {
          return;
        }
      }
      const forecast = await outcome.ask(wish, draws, abort.signal);
      if (running !== mine) {
        return;
      }
      running = null;
      next(wish, hand, draws, outcome.answered(forecast, draws, wish));
    } catch (error) {
      if (running !== mine || abort.signal.aborted) {
        return;
      }
      running = null;
      outcome.failed(error);
      next(wish, hand, draws);
    }
  }

  // After an answer: the newest wish, else the full draws of the one just drawn, and not while it
  // is being drawn, since both want the same cores.
  function next(wish: Wish, hand: Hand, draws: number, drawn?: Promise<void>): void {
    if (waiting) {
      const { wish: newer, hand: newerHand } = waiting;
      waiting = null;
      void run(newer, newerHand, quickDraws);
    } else if (hand === "resting" && draws === quickDraws) {
      void run(wish, hand, fullDraws, drawn);
    }
  }

  function drop(): void {
    const old = running;
    running = null;
    old?.abort.abort();
  }

  return {
    want(wish, hand) {
      if (running && running.draws === quickDraws && hand === "moving") {
        waiting = { wish, hand };
        return;
      }
      waiting = null;
      drop();
      void run(wish, hand, quickDraws);
    },
    stop() {
      waiting = null;
      drop();
    },
  };
}
