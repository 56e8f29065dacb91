import assert from "node:assert/strict";
import { test } from "node:test";
import type { Forecast } from "./api.ts";
import { forecastRunner, fullDraws, quickDraws } from "./forecast_runner.ts";

interface Asked {
  wish: string;
  draws: number;
  signal: AbortSignal;
  answer: () => Promise<void>;
  fail: (error: Error) => Promise<void>;
}

function bench() {
  const asked: Asked[] = [];
  const drawn: string[] = [];
  const failures: unknown[] = [];
  /** What the next answers wait for until they are on the screen. */
  const onScreen: Promise<void>[] = [];
  const settle = (): Promise<void> => new Promise((done) => setImmediate(done));
  const runner = forecastRunner<string>({
    ask: (wish, draws, signal) =>
      new Promise<Forecast>((resolve, reject) => {
        signal.addEventListener("abort", () => reject(new DOMException("gone", "AbortError")));
        asked.push({
          wish, draws, signal,
          answer: () => (resolve({}), settle()),
          fail: (error) => (reject(error), settle()),
        });
      }),
    answered: (_forecast, draws, wish) => {
      drawn.push(`${wish} ${draws}`);
      return onScreen.shift() ?? Promise.resolve();
    },
    failed: (error) => failures.push(error),
  });
  return { runner, asked, drawn, failures, settle, onScreen };
}

test("a wish is first answered with few draws, then with all", async () => {
  const { runner, asked, drawn } = bench();
  runner.want("a", "resting");
  await asked[0]?.answer();
  await asked[1]?.answer();
  assert.deepEqual(drawn, [`a ${quickDraws}`, `a ${fullDraws}`]);
  assert.equal(asked.length, 2);
});

test("all draws are asked for once the few are on the screen, and not when a newer edit came before", async () => {
  const { runner, asked, onScreen, settle } = bench();
  let show = (): void => undefined;
  const frame = (): void => void onScreen.push(new Promise((done) => (show = done)));
  frame();
  runner.want("a", "resting");
  await asked[0]?.answer();
  assert.equal(asked.length, 1);
  show();
  await settle();
  assert.deepEqual([asked[1]?.wish, asked[1]?.draws], ["a", fullDraws]);
  frame();
  runner.want("b", "resting");
  await asked[2]?.answer();
  runner.want("c", "resting");
  show();
  await settle();
  assert.deepEqual(asked.slice(3).map(({ wish, draws }) => `${wish} ${draws}`), [`c ${quickDraws}`]);
});

test("a newer edit cancels the older one's work", async () => {
  const { runner, asked, drawn, settle } = bench();
  runner.want("a", "resting");
  runner.want("b", "resting");
  await settle();
  assert.equal(asked[0]?.signal.aborted, true);
  await asked[1]?.answer();
  assert.equal(asked[2]?.draws, fullDraws);
  runner.want("c", "resting");
  assert.equal(asked[2]?.signal.aborted, true);
  await asked[3]?.answer();
  assert.deepEqual(drawn, [`b ${quickDraws}`, `c ${quickDraws}`]);
});

test("while the hand moves, a quick answer comes through and the newest wish follows it", async () => {
  const { runner, asked, drawn } = bench();
  runner.want("a", "moving");
  runner.want("b", "moving");
  runner.want("c", "moving");
  assert.equal(asked.length, 1);
  assert.equal(asked[0]?.signal.aborted, false);
  await asked[0]?.answer();
  assert.deepEqual(drawn, [`a ${quickDraws}`]);
  assert.deepEqual([asked[1]?.wish, asked[1]?.draws], ["c", quickDraws]);
  await asked[1]?.answer();
  assert.equal(asked.length, 2, "a moving hand does not start the full draws");
});

test("a failure is told, and the next wish is asked as ever", async () => {
  const { runner, asked, drawn, failures } = bench();
  runner.want("a", "resting");
  await asked[0]?.fail(new Error("no flour"));
  assert.equal(failures.length, 1);
  runner.want("b", "resting");
  await asked.at(-1)?.answer();
  assert.ok(drawn.includes(`b ${quickDraws}`));
});

test("stopping cancels what runs and tells nobody", async () => {
  const { runner, asked, drawn, failures, settle } = bench();
  runner.want("a", "resting");
  runner.stop();
  await settle();
  assert.equal(asked[0]?.signal.aborted, true);
  assert.deepEqual([drawn, failures], [[], []]);
});
