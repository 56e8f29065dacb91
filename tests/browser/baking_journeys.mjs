// The bake on the page: a note seen, a reload, the program killed in the middle, every note
// kept once and in order.
import { execFileSync } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { check, forecastDrawn, noViolations, pasted, phone, plainDough, startServer } from "./bench.mjs";

const tap = (page, words) => page.getByRole("button", { name: words, exact: true }).click();

/** Holds the database of the bake as another writer would; answers what lets it go. */
async function busyCupboard(page) {
  await page.evaluate(() => new Promise((held) => {
    const asked = indexedDB.open("maslin baking");
    asked.onsuccess = () => {
      const shelf = asked.result.transaction("bakes", "readwrite").objectStore("bakes");
      const hold = () => {
        shelf.get("now").onsuccess = () => {
          if (globalThis.letGo) {
            asked.result.close();
          } else {
            held();
            hold();
          }
        };
      };
      hold();
    };
  }));
  return () => page.evaluate(() => { globalThis.letGo = true; });
}

async function stepsTo(page, heading) {
  for (let i = 0; i < 20 && (await page.locator(".step-in-hand h1").innerText()) !== heading; ++i) {
    await page.locator(".baking-foot button").click();
  }
  check((await page.locator(".step-in-hand h1").innerText()) === heading, `no step is called ${heading}`);
}

const waiting = (page, words) => page.locator(".baking-waiting", { hasText: words }).waitFor().catch(async () => {
  throw new Error(`"${words}" is not shown, but: ${await page.locator(".baking").innerText()}`);
});
const sent = (page) => page.locator(".baking-waiting").waitFor({ state: "detached", timeout: 60_000 });

async function throughAKill({ page, maslin }) {
  const store = join(mkdtempSync(join(tmpdir(), "maslin-bake-")), "store.sqlite");
  // Below the ports that the system gives to whoever asks for any: none takes it while the program is gone.
  const port = 20000 + Math.floor(Math.random() * 12000);
  const serve = () => startServer(maslin, ["--store", store, "--port", String(port)]);
  let server = await serve();
  try {
    await pasted(page, server.url, plainDough);
    await forecastDrawn(page);
    await tap(page, "Bake it");
    await page.locator(".baking h1").waitFor();
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await stepsTo(page, "First prove");
    await tap(page, "Begin");
    await tap(page, "Not moving");
    await page.locator(".said", { hasText: /sooner|longer|stay/ }).waitFor();
    await sent(page);
    await server.stop("SIGKILL");
    // What is said to wait here is kept already: not while the browser's cupboard is busy.
    const letGo = await busyCupboard(page);
    await tap(page, "Barely moved");
    await page.locator(".noted li", { hasText: "barely moved" }).waitFor();
    check((await page.locator(".baking-waiting").innerText()) === "Keeping it …", "an entry is said to wait before it is kept");
    await letGo();
    await waiting(page, "1 entry waits here");
    await tap(page, "Risen by half");
    await waiting(page, "2 entries wait here");
    // With the program gone, the page itself comes back from the browser's cupboard.
    await page.reload();
    await page.getByRole("heading", { name: "First prove" }).waitFor();
    await waiting(page, "2 entries wait here");
    await tap(page, "Doubled");
    await tap(page, "Undo");
    await waiting(page, "4 entries wait here");
    server = await serve();
    await sent(page);
    await tap(page, "Done, next");
    await sent(page);
    const trial = JSON.parse(execFileSync(maslin, ["trial", "show", "1", "--store", store, "--json"], { encoding: "utf8" }));
    const texts = trial.notes.map((note) => note.text.replace(/ at \d+ min/, ""));
    check(JSON.stringify(texts) === JSON.stringify(["first prove not moving", "first prove barely moved", "first prove risen by half"]),
      `the notes are ${JSON.stringify(texts)}`);
    check(trial.notes.every((note, i) => i === 0 || note.at >= trial.notes[i - 1].at), "the notes must be in order");
    check(trial.checklist.find((step) => step.kind === "prove").done_at !== null, "the step must be done");
    const trials = JSON.parse(execFileSync(maslin, ["trial", "list", "--store", store, "--json"], { encoding: "utf8" }));
    check(trials.trials.length === 1, `${trials.trials.length} trials were made of one bake`);
  } finally {
    await server.stop();
  }
}

async function onAPhone({ page, url }) {
  await pasted(page, url, plainDough);
  await forecastDrawn(page);
  await tap(page, "Bake it");
  await page.locator(".baking h1").waitFor();
  await noViolations(page, "the first step");
  await stepsTo(page, "First prove");
  await tap(page, "Begin");
  await noViolations(page, "a prove");
  const small = await page.evaluate(() =>
    [...document.querySelectorAll(".baking button, .baking summary")]
      .filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 43.5)
      .map((one) => one.outerHTML.slice(0, 80)));
  check(small.length === 0, `too small to touch: ${small[0]}`);
}

export const journeys = [
  { name: "bake: a reload and a killed program lose nothing and double nothing", run: throughAKill, expectsErrors: true, elsewhere: true },
  { name: "bake: the baking view on a phone", run: onAPhone, size: phone },
];
