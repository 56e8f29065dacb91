// The living card, opened from a file: address with the network off, on a small phone.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { check, noViolations, root } from "./bench.mjs";
import { attacks } from "./attacks.mjs";

const smallPhone = { width: 360, height: 640 };
const folder = mkdtempSync(join(tmpdir(), "maslin-card-"));
const pamphlet = join(root, "data/demo/pamphlet.txt");
const flat = join(root, "data/demo/flat.kitchen.json");

export function writtenCard(maslin, recipe = pamphlet, name = "card.html") {
  const file = join(folder, name);
  execFileSync(maslin, ["hand-on", recipe, "--living", "--kitchen", flat, "--out", file]);
  return file;
}

export const tap = (page, words) => page.getByRole("button", { name: words, exact: true }).click();
export const choose = (page, words) => page.getByRole("radio", { name: words, exact: true }).check();
export const weighed = (page) =>
  page.waitForFunction(() => document.querySelector("[data-weighed='yes']") !== null, undefined, { timeout: 60_000 });

async function opened(page, context, file) {
  await context.setOffline(true);
  await page.goto(`file://${file}`);
  await weighed(page);
}

export async function describedKitchen(page) {
  await choose(page, "A mug and a spoon");
  await choose(page, "Charcoal drum");
  await choose(page, "Hot");
  await weighed(page);
  check((await page.getByRole("group", { name: "How warm is the room?" }).last().innerText()).includes("31"),
    "hot must be 31 °C");
  await tap(page, "Show the recipe");
  await page.getByRole("heading", { name: "What goes in" }).waitFor();
}

/** The likely minutes of the first prove and of the bake, as the kitchen's view says them. */
async function likely(page) {
  await weighed(page);
  const words = await page.locator(".live-line").innerText();
  const [prove, bake] = [/First prove (\d+)/, /The bake (\d+)/].map((shape) => Number(shape.exec(words)?.[1]));
  check(prove > 0 && bake > 0, `the kitchen's view says "${words}"`);
  return { prove, bake };
}

/** Each answer alone moves what it must; all three together make the card that is shown. */
async function movedByKitchen(page) {
  const untold = await likely(page);
  // A drum's minutes may be an oven's by chance; a fan's at the same setting are fewer.
  await choose(page, "Electric with a fan");
  const fan = await likely(page);
  check(fan.bake < untold.bake, `a fan bakes in ${fan.bake} min, what is not told in ${untold.bake}`);
  await choose(page, "Charcoal drum");
  await choose(page, "Cold");
  const cold = await likely(page);
  await choose(page, "Hot");
  const hot = await likely(page);
  check(hot.prove < cold.prove, `a hot room rises in ${hot.prove} min, a cold one in ${cold.prove}`);
}

/** No scale: every amount that is measured is told in mugs and spoons, its grams small beside it. */
async function inHouseholdMeasures(page) {
  const amounts = await page.locator(".amounts li").evaluateAll((lines) => lines.map((line) => ({
    amount: line.querySelector(".amount").textContent,
    grams: line.querySelector(".grams")?.textContent ?? "",
    what: line.querySelector(".ingredient").textContent,
  })));
  check(amounts.length >= 8, `${amounts.length} lines are shown`);
  const weighed = amounts.filter(({ amount }) => /\d\s*g\b/.test(amount));
  check(weighed.length === 0, `without a scale ${weighed[0]?.what} is told as ${weighed[0]?.amount}`);
  const flour = amounts.find(({ what }) => /flour/i.test(what));
  check(/mug/.test(flour?.amount ?? ""), `the flour is told as ${flour?.amount}`);
  check(amounts.some(({ amount }) => /spoon/.test(amount)), "something is told in spoons");
  check(amounts.filter(({ grams }) => /^\d/.test(grams)).length >= 6, "the grams stand beside");
}

/** Notes what is seen at the step's likely minute, which must move the forecast; answers the minute noted. */
async function corrected(page, sight) {
  const clock = page.locator(".step-clock .step-time .quiet");
  const about = async () => {
    const words = await clock.innerText();
    if (/over\s2\sdays/.test(words)) {
      return Infinity;
    }
    const of = (unit) => Number(new RegExp(`(\\d+)\\s${unit}`).exec(words)?.[1] ?? 0);
    return 1440 * of("day") + 60 * of("h") + of("min");
  };
  const words = await clock.innerText();
  const before = await about();
  check(before > 0, "the step says about how long it takes");
  await page.clock.fastForward(before * 60_000);
  await tap(page, sight);
  await page.locator(".said", { hasText: /sooner|longer|stay/ }).waitFor();
  await page.waitForFunction((was) => document.querySelector(".step-clock .step-time .quiet").innerText !== was, words);
  const now = await about();
  check(now > before, `${sight} after ${before} min must make it longer, not "${await clock.innerText()}"`);
  return Number(/at (\d+) min/.exec(await page.locator(".said strong").innerText())[1]);
}

/** Walks the checklist up to the step of a kind. */
export async function stepsTo(page, heading) {
  for (let i = 0; i < 30; ++i) {
    const now = await page.locator(".step-in-hand h1").innerText();
    if (now === heading) {
      return;
    }
    await page.locator(".baking-foot button").click();
  }
  throw new Error(`no step is called ${heading}`);
}

async function bakedAway({ page, context, maslin }) {
  await page.clock.install({ time: new Date("2026-05-01T09:00:00") });
  await context.setOffline(true);
  await page.goto(`file://${writtenCard(maslin)}`);
  await movedByKitchen(page);
  await describedKitchen(page);
  await weighed(page);
  await inHouseholdMeasures(page);
  check((await page.locator(".day rect").count()) > 5, "the day is drawn");
  await tap(page, "Bake it");
  await stepsTo(page, "First prove");
  await tap(page, "Begin");
  await page.clock.fastForward(10 * 60_000);
  // The phone locks, the browser is closed: all is there again.
  await page.reload();
  await page.getByRole("heading", { name: "First prove" }).waitFor();
  check((await page.getByRole("timer").innerText()).startsWith("10:"), "the timer must go on over a reload");
  await page.locator(".step-clock .quiet").waitFor();
  const prove = await corrected(page, "Barely moved");
  await tap(page, "Doubled");
  await page.getByText("first prove doubled at").first().waitFor();
  await tap(page, "Undo");
  await page.getByText("first prove doubled at").first().waitFor({ state: "detached" });
  await tap(page, "Done, next");
  await stepsTo(page, "Bake");
  await tap(page, "Begin");
  const bake = await corrected(page, "Still raw");
  await page.clock.fastForward(6 * 60_000);
  await tap(page, "Done: out of the oven");
  await tap(page, "Close");
  await tap(page, "Send it home");
  const saved = page.waitForEvent("download");
  await tap(page, "Save the file");
  const file = join(folder, "home.baked.json");
  await (await saved).saveAs(file);
  readBack(maslin, file, { prove, bake });
  const code = join(folder, "code.png");
  await page.locator(".code").screenshot({ path: code, scale: "device" });
  readCode(maslin, code);
}

function imported(maslin, file, store) {
  return JSON.parse(execFileSync(maslin, ["trial", "import", file, "--store", join(folder, store), "--json"], { encoding: "utf8" }));
}

/** In the terminal, in a store where nothing was: a trial with both sights, that teaches a kitchen. */
function readBack(maslin, file, { prove, bake }) {
  const store = ["--store", join(folder, "home.sqlite"), "--json"];
  const told = (...words) => JSON.parse(execFileSync(maslin, [...words, ...store], { encoding: "utf8" }));
  const trial = told("trial", "import", file);
  const seen = trial.notes.filter((note) => !note.corrected).flatMap((note) => note.observations);
  const ratios = seen.filter(({ kind }) => kind === "volume_ratio").map(({ value, at_minutes }) => [value, at_minutes]);
  check(JSON.stringify(ratios) === `[[1.1,${prove}]]`, `the rise came home as ${JSON.stringify(ratios)}`);
  const done = seen.filter(({ kind }) => kind === "minutes_done").map(({ value, at_minutes, bound }) => [bound ?? "is", value ?? at_minutes]);
  check(done.length === 2 && done.some(([, minutes]) => minutes === bake) && done.some(([, minutes]) => minutes >= bake + 6),
    `the bake came home as ${JSON.stringify(done)}`);
  check(trial.checklist.some((step) => step.kind === "prove" && step.done_at !== null), "the marks must come home");
  check(told("trial", "import", file).added === 0, "the same bake twice must add nothing");
  const { trials } = told("trial", "list");
  check(trials.length === 1, `${trials.length} trials were made of one bake`);
  const kitchen = told("kitchen", "show", trial.kitchen);
  check(kitchen.room_celsius === 31 && kitchen.oven.kind === "charcoal_drum", `the kitchen came home as ${JSON.stringify(kitchen)}`);
  const closed = told("trial", "close", "1");
  check(closed.learnt.length > 0, `closing taught nothing: ${closed.learning}`);
  const learnt = told("kitchen", trial.kitchen);
  check(learnt.taught_by.length === 1 && learnt.learnt.some((thing) => Math.abs(thing.now.p50 - thing.before.p50) > 0),
    `the kitchen has learnt ${JSON.stringify(learnt.learnt)}`);
}

/** The code on the screen, read by a reader that is not ours (zbar), where there is one. */
function readCode(maslin, picture) {
  let text;
  try {
    text = execFileSync("zbarimg", ["--quiet", "--raw", picture], { encoding: "utf8" });
  } catch (error) {
    check(error.code === "ENOENT", `the code cannot be read: ${error.message}`);
    console.log("        zbarimg is not here: the code was not read");
    return;
  }
  const file = join(folder, "code.json");
  writeFileSync(file, text.trim());
  const store = join(folder, "code.sqlite");
  execFileSync(maslin, ["library", "save", pamphlet, "--store", store]);
  const trial = imported(maslin, file, "code.sqlite");
  check(trial.notes.length === 3 && trial.title === "ROAST PUMPKIN KNOTS", "the code must come home as a trial");
}

async function hostileCard({ page, context, maslin }) {
  // As a document, so that nothing was stripped on the way: attacks in every text there is.
  const document = JSON.parse(execFileSync(maslin, ["read", "--json", pamphlet], { encoding: "utf8" }));
  document.title = attacks[1];
  document.found_at = attacks[0];
  document.remarks = attacks;
  document.doubts = attacks.map((text) => ({ text, why: text }));
  for (const part of document.parts) {
    part.lines.forEach((line, i) => Object.assign(line, { text: attacks[i], ingredient: attacks[i], note: attacks[(i + 1) % attacks.length] }));
    (part.steps ?? []).forEach((step, i) => Object.assign(step, { text: attacks[i % attacks.length], until: attacks[2] }));
  }
  const recipe = join(folder, "hostile.json");
  writeFileSync(recipe, JSON.stringify(document));
  await opened(page, context, writtenCard(maslin, recipe, "hostile.html"));
  await tap(page, "Show the recipe");
  check((await page.locator(".card").innerText()).includes("onerror"), "the attack must be seen as text");
  await tap(page, "Bake it");
  await page.locator(".step-said").waitFor();
  check((await page.evaluate(() => window.hurt)) === undefined, "a recipe's text ran as script");
  const made = await page.evaluate(() =>
    document.querySelectorAll("#page script, #page iframe, #page img, #page style, #page math, #page a").length);
  check(made === 0, `a recipe's text made ${made} elements`);
  const ran = await page.evaluate(() => {
    const script = document.createElement("script");
    try {
      script.textContent = "window.hurt = 1";
      document.body.append(script);
    } catch {
      return false;
    }
    return window.hurt === 1;
  });
  check(!ran, "the card's policy let another script run");
}

async function changedCard({ page, context, maslin }) {
  const file = writtenCard(maslin);
  const html = readFileSync(file, "utf8");
  await opened(page, context, file);
  await tap(page, "Show the recipe");
  await page.getByText("This card is as it was written.").waitFor();
  const changed = join(folder, "changed.html");
  writeFileSync(changed, html.replaceAll("1 1/2 tsp salt", "9 1/2 tsp salt"));
  await page.goto(`file://${changed}`);
  await weighed(page);
  await page.getByRole("button", { name: "Show the recipe" }).or(page.getByRole("button", { name: "Bake it" })).first().waitFor();
  if (await page.getByRole("button", { name: "Show the recipe" }).count()) {
    await tap(page, "Show the recipe");
  }
  await page.getByRole("alert").filter({ hasText: "changed since it was written" }).waitFor();
  const broken = join(folder, "broken.html");
  writeFileSync(broken, html.replace(/<script id="page-script">/, '<script id="page-script">window.hurt=1;'));
  // Its load is over when the last script was refused or run.
  await page.goto(`file://${broken}`);
  check((await page.locator("#page").innerText()) === "", "a changed script drew a page");
  check((await page.evaluate(() => window.hurt)) === undefined, "a changed script ran");
}

async function reachable({ page, context, maslin }) {
  const grave = async (where) => {
    await noViolations(page, where);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll("button, select, summary, label.tile")]
        .filter((one) => one.getClientRects().length > 0)
        .map((one) => ({ what: one.outerHTML.slice(0, 80), height: one.getBoundingClientRect().height }))
        .filter(({ height }) => height < 43.5));
    check(small.length === 0, `${where}: too small to touch: ${JSON.stringify(small.slice(0, 3))}`);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    check(wide <= 0, `${where} is ${wide} px wider than the phone`);
  };
  await opened(page, context, writtenCard(maslin));
  await grave("the kitchen");
  await describedKitchen(page);
  await grave("the card");
  await tap(page, "Bake it");
  await grave("the first step");
  await stepsTo(page, "First prove");
  await tap(page, "Begin");
  await tap(page, "Not moving");
  await grave("a prove");
  await tap(page, "Done, next");
  await stepsTo(page, "Bake");
  await tap(page, "Begin");
  await grave("the bake");
  await tap(page, "Close");
  await tap(page, "Send it home");
  await grave("the way home");
}

async function byKeys({ page, context, maslin }) {
  await opened(page, context, writtenCard(maslin));
  const press = async (key, until, most = 40) => {
    for (let i = 0; i < most && !(await page.evaluate(until)); ++i) {
      await page.keyboard.press(key);
    }
    check(await page.evaluate(until), `${until} was not reached with ${key}`);
  };
  await press("Tab", `document.activeElement?.name === "means"`);
  await page.keyboard.press("Space");
  await press("Tab", `document.activeElement?.name === "oven"`);
  await page.keyboard.press("ArrowDown");
  await press("Tab", `document.activeElement?.textContent === "Show the recipe"`);
  await page.keyboard.press("Enter");
  await press("Tab", `document.activeElement?.textContent === "Bake it"`);
  await page.keyboard.press("Enter");
  await press("Tab", `document.activeElement?.textContent === "Begin"`);
  await page.keyboard.press("Enter");
  await press("Tab", `document.activeElement?.textContent === "Sticky"`);
  await page.keyboard.press("Enter");
  await page.locator(".said", { hasText: "sticky" }).waitFor();
}

/**
 * Chromium throttles a page's own thread and refuses to throttle a worker ("only supported for
 * pages, not workers"), so at a quarter of the speed the engine works where a card without a
 * worker has it: on the page's own thread.
 */
async function quick({ page, context, maslin }) {
  const file = writtenCard(maslin);
  const timed = async (where, words) => {
    const times = [];
    for (const oven of ["Wood", "Gas", "Electric", "Wood", "Gas", "Electric", "Wood", "Gas", "Electric"]) {
      await where.evaluate(() => performance.clearMarks());
      await choose(where, oven);
      await where.waitForFunction(() => performance.getEntriesByName("re-weighed").length > 0, undefined, { timeout: 60_000 });
      times.push(await where.evaluate(() => {
        const at = (name) => performance.getEntriesByName(name).at(-1).startTime;
        return { all: at("re-weighed") - at("re-weigh"), forecast: at("re-weighed") - at("carried") };
      }));
    }
    const sorted = (key) => times.map((time) => Math.round(time[key])).sort((a, b) => a - b);
    const told = (key) => `${sorted(key)[4]} ms (${sorted(key)[0]} to ${sorted(key)[8]})`;
    console.log(`        ${words}: 256 draws in ${told("forecast")}; with the recipe carried anew ${told("all")}; medians of 9`);
  };
  await opened(page, context, file);
  await timed(page, "at full speed");
  const slow = await context.newPage();
  await slow.addInitScript(() => delete globalThis.Worker);
  await slow.goto(`file://${file}`);
  await weighed(slow);
  await slow.getByRole("button", { name: /^Your kitchen/ }).click();
  await timed(slow, "on the page's own thread");
  await (await context.newCDPSession(slow)).send("Emulation.setCPUThrottlingRate", { rate: 4 });
  await timed(slow, "there at a quarter of the speed");
}

const small = { size: smallPhone };
export const journeys = [
  { name: "card: described, baked and sent home with the network off", run: bakedAway, ...small, options: { deviceScaleFactor: 2 } },
  { name: "card: hostile text in a card cannot run", run: hostileCard, ...small, expectsErrors: true },
  { name: "card: a changed card says so, a changed script does not run", run: changedCard, ...small, expectsErrors: true },
  { name: "card: everything can be reached, read and touched", run: reachable, ...small },
  { name: "card: by keyboard alone", run: byKeys, ...small },
];
export const measured = [{ name: "card: how fast it re-weighs, measured", run: quick, ...small }];
