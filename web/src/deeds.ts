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

export async function act(deed: Deed): Promise<void> {
  await deed.again();
  deeds.value = changed(deeds.value, deed);
}

export async function undoDeed(): Promise<void> {
  await deeds.value.present?.back();
  deeds.value = undone(deeds.value);
}

export async function redoDeed(): Promise<void> {
  await deeds.value.future[0]?.again();
  deeds.value = redone(deeds.value);
}
