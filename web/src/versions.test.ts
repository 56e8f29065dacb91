import assert from "node:assert/strict";
import { test } from "node:test";
import type { CourseEntry } from "./library.ts";
import { versionTree } from "./versions.ts";

const entry = (place: number, ...parents: number[]): CourseEntry => ({
  place, version: `v${place}`, title: "", saved_at: "", why: "", parents: parents.map((p) => `v${p}`), trials: [],
});

test("a straight course keeps to one rail", () => {
  const tree = versionTree([entry(3, 2), entry(2, 1), entry(1)]);
  assert.deepEqual(tree.map(({ rail }) => rail), [0, 0, 0]);
  assert.deepEqual(tree.map(({ parent }) => parent), [1, 2, null]);
});

test("a second child takes a rail of its own, and its children go on there", () => {
  const tree = versionTree([entry(4, 3), entry(3, 1), entry(2, 1), entry(1)]);
  assert.deepEqual(tree.map(({ entry: { place }, rail }) => [place, rail]), [[4, 1], [3, 1], [2, 0], [1, 0]]);
});

test("a version whose parent is not in the course is a beginning", () => {
  assert.equal(versionTree([entry(1, 9)])[0]?.parent, null);
});
