import assert from "node:assert/strict";
import { test } from "node:test";
import { act, canRedoDeed, canUndoDeed, redoDeed, undoDeed } from "./deeds.ts";

test("deeds are undone and done again in turn, however soon they are asked for", async () => {
  const log: string[] = [];
  const later = (word: string): Promise<void> => new Promise((done) => setTimeout(() => { log.push(word); done(); }, 5));
  const done = act({ again: () => later("do"), back: () => later("undo") });
  const all = [undoDeed(), redoDeed(), undoDeed()];
  await done;
  await Promise.all(all);
  assert.deepEqual(log, ["do", "undo", "do", "undo"]);
  assert.deepEqual([canUndoDeed.value, canRedoDeed.value], [false, true]);
});

test("what fails is not counted, and what follows is done all the same", async () => {
  await assert.rejects(act({ again: () => Promise.reject(new Error("away")), back: () => Promise.resolve() }));
  assert.equal(canUndoDeed.value, false);
  await act({ again: () => Promise.resolve(), back: () => Promise.resolve() });
  assert.equal(canUndoDeed.value, true);
});
