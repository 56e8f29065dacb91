// What was done while looking back, so that it can be undone and done again: each deed knows how.

import { computed, signal } from "@preact/signals";
import { type History, begun, changed, redone, undone } from "./history.ts";

export interface Deed {
  /** Does it, the first time and again. */
  again(): Promise<unknown>;
  back(): Promise<unknown>;
}

/** The last deed done; those before and after it. */
const deeds = signal<History<Deed | null>>(begun<Deed | null>(null));
export const canUndoDeed = computed(() => deeds.value.past.length > 0);
export const canRedoDeed = computed(() => deeds.value.future.length > 0);

// One after the other: what is undone may still be on its way when it is to be done again.
let turn: Promise<unknown> = Promise.resolve();
function inTurn(work: () => Promise<void>): Promise<void> {
  const mine = turn.then(work, work);
  turn = mine;
  return mine;
}

export const act = (deed: Deed): Promise<void> => inTurn(async () => {
  await deed.again();
  deeds.value = changed(deeds.value, deed);
});

export const undoDeed = (): Promise<void> => inTurn(async () => {
  await deeds.value.present?.back();
  deeds.value = undone(deeds.value);
});

export const redoDeed = (): Promise<void> => inTurn(async () => {
  await deeds.value.future[0]?.again();
  deeds.value = redone(deeds.value);
});
