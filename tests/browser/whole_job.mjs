// The whole job in one sitting: the found pamphlet, a doubt mended, wanted softer and less sweet,
// planned, baked with notes over a reload and a killed program, closed, learnt from, handed on.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { check, forecastDrawn, gramsOf, pasted, root, startServer } from "./bench.mjs";

// The pamphlet with a slip in its salt, for a doubt to mend.
const pamphlet = readFileSync(join(root, "data/demo/pamphlet.txt"), "utf8").replace("1 1/2 tsp salt", "1 1/2 tbsp salt");
const tap = (page, words) => page.getByRole("button", { name: words, exact: true }).click();

async function doubtMended(page) {
  const doubts = page.locator(".doubts li");
  await doubts.first().waitFor();
  const before = await doubts.count();
  const one = doubts.filter({ has: page.getByRole("button", { name: "Set the weight" }) }).first();
  const words = await one.locator("p").first().innerText();
  await one.getByRole("button", { name: "Set the weight" }).click();
  const field = page.locator(".grams-field input:focus");
  const grams = Number(await field.inputValue());
  check(grams > 0, `"${words}" leads to a weight`);
  await field.fill(String(Math.round(grams / 3)));
  await field.press("Enter");
  await page.waitForFunction((count) => document.querySelectorAll(".doubts li").length < count, before);
}

async function wantedOtherwise(page) {
  const sugar = gramsOf(page, "sugar").first();
  const was = Number(await sugar.inputValue());
  await page.getByRole("button", { name: "Want it different?" }).click();
  for (const words of ["softer", "less sugar"]) {
    await page.getByRole("list", { name: "Often wanted" }).getByRole("button", { name: words, exact: true }).click();
  }
  await page.locator(".changes li", { hasText: /sugar/i }).first().waitFor();
  await page.getByRole("button", { name: /^Take (all|it)/ }).click();
  await page.waitForFunction(() => document.querySelectorAll(".changes li").length === 0);
  check(Number(await sugar.inputValue()) < was, `less sugar was wanted, ${await sugar.inputValue()} g of ${was} stand there`);
}

async function planned(page) {
  await page.locator(".day-picture").scrollIntoViewIfNeeded();
  await page.locator(".day-line").waitFor();
  const evening = await page.evaluate(() => {
    const then = new Date(Date.now() + 9 * 3_600_000);
    return new Date(then.getTime() - then.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
  });
  await page.locator("#ready-at").fill(evening);
  await page.getByText(/in 100 in time/).waitFor();
}

async function stepsTo(page, heading) {
  for (let i = 0; i < 40; ++i) {
    const now = await page.locator(".step-in-hand h1").innerText();
    if (now === heading) {
      return;
    }
    await page.locator(".baking-foot button").click();
    await page.waitForFunction((was) => {
      const [head, foot] = [".step-in-hand h1", ".baking-foot button"].map((one) => document.querySelector(one)?.textContent);
      return `${head} ${foot}` !== was;
    }, `${now} Begin`).catch(() => undefined);
  }
  throw new Error(`no step is called ${heading}`);
}

const minutesPass = (page, minutes) => page.clock.fastForward(minutes * 60_000);
const sent = (page) => page.locator(".baking-waiting").waitFor({ state: "detached" });
const answered = (page) => page.locator(".said", { hasText: /sooner|longer|stay/ }).waitFor();

async function wholeJob({ page, maslin }) {
  const store = join(mkdtempSync(join(tmpdir(), "maslin-whole-")), "store.sqlite");
  const told = (...words) => JSON.parse(execFileSync(maslin, [...words, "--store", store, "--json"], { encoding: "utf8" }));
  const port = 20000 + Math.floor(Math.random() * 12000);
  const serve = () => startServer(maslin, ["--store", store, "--port", String(port)]);
  let server = await serve();
  try {
    await page.clock.install();
    await pasted(page, server.url, pamphlet);
    await forecastDrawn(page);
    await doubtMended(page);
    await wantedOtherwise(page);
    await forecastDrawn(page);
    await planned(page);

    await tap(page, "Bake it");
    await page.locator(".baking h1").waitFor();
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await stepsTo(page, "First prove");
    await tap(page, "Begin");
    await minutesPass(page, 20);
    await tap(page, "Barely moved");
    await answered(page);
    await sent(page);
    await page.reload();
    await page.getByRole("heading", { name: "First prove" }).waitFor();
    await page.getByText("first prove barely moved").first().waitFor();
    await server.stop("SIGKILL");
    await minutesPass(page, 18);
    await tap(page, "Risen by half");
    await page.locator(".baking-waiting").waitFor();
    server = await serve();
    await sent(page);
    await tap(page, "Done, next");
    await stepsTo(page, "Bake");
    await tap(page, "Begin");
    await minutesPass(page, 14);
    await tap(page, "Pale");
    await answered(page);
    await minutesPass(page, 8);
    await tap(page, "Done: out of the oven");
    await stepsTo(page, "Done");
    await sent(page);
    await tap(page, "Close the bake");

    // Looking back opens at this recipe: the bake with its notes, and what the kitchen learnt.
    await page.locator(".look-back .bakes li").first().waitFor();
    for (const words of ["first prove barely moved", "first prove risen by half", "pale at", "done at"]) {
      await page.locator(".look-back .bakes", { hasText: words }).waitFor();
    }
    check((await page.getByText("not closed yet").count()) === 0, "the bake is closed");
    await page.getByRole("heading", { name: /^Learnt by/ }).waitFor();
    const { trials } = told("trial", "list");
    check(trials.length === 1 && trials[0].closed_at !== null, `the trials are ${JSON.stringify(trials)}`);
    const trial = told("trial", "show", "1");
    check(trial.notes.filter((note) => !note.corrected).length === 4, "each note came once");
    check(trial.notes.every((note, i) => i === 0 || note.at >= trial.notes[i - 1].at), "and in order");

    await tap(page, "The bench");
    await page.getByText("Hand it on").click();
    await page.locator("#their-oven").selectOption("charcoal_drum");
    await page.locator("#their-measures").selectOption("mug");
    await tap(page, "Show their card");
    await page.locator(".their-card", { hasText: /mug/ }).waitFor();
    const [file] = await Promise.all([
      page.waitForEvent("download"), tap(page, "Save a card that weighs itself anew"),
    ]);
    check(readFileSync(await file.path(), "utf8").includes('id="engine"'), "the card that is saved carries its engine");
  } finally {
    await server.stop();
  }
}

export const journeys = [
  { name: "the whole job: found, mended, wanted, planned, baked, learnt, handed on", run: wholeJob, expectsErrors: true, elsewhere: true },
];
