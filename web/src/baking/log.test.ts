import assert from "node:assert/strict";
import { test } from "node:test";
import fc from "fast-check";
import { answersToLast, doneAgain, type ChecklistStep, type Doing, type Entry, standingOf, stateOf, stepInHand } from "./log.ts";
import { clockOf, comingSteps, lastingOf } from "./outlook.ts";
import { gaugesAt, sightsAt } from "./sights.ts";

const step = (number: number, kind: string, minutes?: number): ChecklistStep => ({
  step: number, part: "dough", kind, text: kind, ...(minutes === undefined ? {} : { minutes: { low: minutes, high: minutes } }),
});
const checklist = [step(1, "mix"), step(2, "prove", 60), step(3, "shape"), step(4, "prove", 40), step(5, "bake", 25)];

let key = 0;
const entry = (doing: Doing, at_ms: number): Entry => ({ key: String(++key), at_ms, ...doing }) as Entry;

test("the step in hand follows the last one done", () => {
  const entries = [entry({ is: "done", step: 1 }, 10), entry({ is: "begun", step: 2 }, 20)];
  const standing = standingOf(entries);
  assert.equal(stepInHand(checklist, standing)?.step, 2);
  assert.equal(stateOf(standing, 2).begun_at_ms, 20);
  assert.equal(stepInHand(checklist, standingOf(checklist.map(({ step: at }) => entry({ is: "done", step: at }, 5)))), null);
});

const doing: fc.Arbitrary<Doing> = fc.oneof(
  fc.record({ is: fc.constantFrom("begun" as const, "done" as const), step: fc.integer({ min: 1, max: 5 }) }),
  fc.record({ is: fc.constant("note" as const), step: fc.constant(2), text: fc.constantFrom("doubled at 40 min", "sticky") }),
);

test("undoing again and again leaves nothing noted and nothing begun", () => {
  fc.assert(fc.property(fc.array(doing, { maxLength: 12 }), (list) => {
    const entries = list.map((one, i) => entry(one, 1000 * (i + 1)));
    let at = 1_000_000;
    for (let i = 0; i < 100; ++i) {
      const answers = answersToLast(entries);
      if (answers.length === 0) {
        break;
      }
      entries.push(...answers.map((one) => entry(one, "at_ms" in one && one.at_ms !== undefined ? one.at_ms : ++at)));
    }
    const { notes, steps } = standingOf(entries);
    assert.equal(notes.length, 0);
    assert.equal(answersToLast(entries).length, 0, JSON.stringify([...steps]));
  }));
});

test("undoing a step that was done goes back to when it was begun", () => {
  const entries = [entry({ is: "begun", step: 2 }, 100), entry({ is: "done", step: 2 }, 900)];
  entries.push(...answersToLast(entries).map((one) => entry(one, 1000)).map((one) => (one.is === "begun" ? { ...one, at_ms: 100 } : one)));
  assert.deepEqual(stateOf(standingOf(entries), 2), { begun_at_ms: 100, done_at_ms: null });
});

test("what comes follows step by step, and a late step pushes the rest", () => {
  const standing = standingOf([entry({ is: "done", step: 1 }, 0), entry({ is: "begun", step: 2 }, 0)]);
  const minute = 60_000;
  const soon = comingSteps(checklist, standing, null, 10 * minute);
  assert.equal(soon[0]?.ends_at_ms, 60 * minute);
  assert.equal(soon.at(-1)?.ends_at_ms, (60 + 5 + 40 + 25) * minute);
  const late = comingSteps(checklist, standing, null, 75 * minute);
  assert.equal(late[1]?.begins_at_ms, 75 * minute);
});

test("a forecast's proves and bake are those of the steps in order", () => {
  const range = (p50: number) => ({ p10: p50 - 5, p50, p90: p50 + 10 });
  const forecast = { proves: [{ name: "first", minutes_to_target: range(50) }, { name: "last", minutes_to_target: range(33) }], bake: { minutes_to_done: range(22) } };
  assert.equal(lastingOf(checklist[3]!, checklist, forecast)?.minutes.p50, 33);
  assert.equal(lastingOf(checklist[4]!, checklist, forecast)?.minutes.p50, 22);
  assert.equal(lastingOf(checklist[4]!, checklist, forecast)?.from, "forecast");
  assert.equal(lastingOf(checklist[2]!, checklist, forecast), null);
});

test("the clock says when to look and when it is late", () => {
  const lasting = { minutes: { p10: 40, p50: 50, p90: 70 }, from: "forecast" as const };
  const stage = (minutes: number) => clockOf(lasting, 0, minutes * 60_000).stage;
  assert.deepEqual([stage(39), stage(41), stage(70), stage(71)], ["early", "look", "look", "late"]);
});

test("every button writes its minutes and, at a prove, which one it is", () => {
  assert.equal(sightsAt(checklist[3]!, checklist).find(({ words }) => words === "Doubled")?.note(31), "last prove doubled at 31 min");
  assert.equal(sightsAt(checklist[4]!, checklist).find(({ ends }) => ends)?.note(24), "done at 24 min");
  const [core] = gaugesAt(checklist[4]!);
  assert.equal(core?.note(94, 20, core.unit), "core 94 °C at 20 min");
  const [american] = gaugesAt(checklist[4]!, "american");
  assert.equal(american?.note(american.start, 20, american.unit), "core 198 °F at 20 min");
  assert.equal(sightsAt(step(9, "divide"), checklist).length, 0);
});

test("what was undone is done again: a note as it was, a step at the moment it was", () => {
  const undo = (entries: Entry[]): [Entry[], Doing | null] => {
    const answers = answersToLast(entries);
    return [[...entries, ...answers.map((one) => entry(one, 40))], doneAgain(entries, answers)];
  };
  const base = [entry({ is: "begun", step: 2 }, 10), entry({ is: "note", step: 2, text: "doubled" }, 20)];
  const [once, note] = undo(base);
  assert.deepEqual(note, { is: "note", step: 2, text: "doubled", at_ms: 21 });
  const [twice, begun] = undo(once);
  assert.deepEqual(begun, { is: "begun", step: 2, at_ms: 10 });
  assert.equal(standingOf(twice).steps.get(2)?.begun_at_ms ?? null, null);
  assert.equal(undo(twice)[1], null);
  const back = standingOf([...twice, entry(begun!, 10), entry(note!, 21)]);
  assert.deepEqual(back.notes.map(({ text }) => text), ["doubled"]);
  assert.equal(back.steps.get(2)?.begun_at_ms, 10);
  const [, done] = undo([...base, entry({ is: "done", step: 2 }, 30)]);
  assert.deepEqual(done, { is: "done", step: 2, at_ms: 30 });
});
