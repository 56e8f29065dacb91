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

const tap = (page, words) => page.getByRole("button", { name: words, exact: true }).click();
const choose = (page, words) => page.getByRole("radio", { name: words, exact: true }).check();
const weighed = (page) =>
  page.waitForFunction(() => document.querySelector("[data-weighed='yes']") !== null, undefined, { timeout: 60_000 });

async function opened(page, context, file) {
  await context.setOffline(true);
  await page.goto(`file://${file}`);
  await weighed(page);
}

async function describedKitchen(page) {
  await choose(page, "A mug and a spoon");
  await choose(page, "Charcoal drum");
  await choose(page, "Hot");
  await weighed(page);
  check((await page.getByRole("group", { name: "How warm is the room?" }).last().innerText()).includes("31"),
    "hot must be 31 °C");
  await tap(page, "Show the recipe");
  await page.getByRole("heading", { name: "What goes in" }).waitFor();
}

/** Walks the checklist up to the step of a kind. */
async function stepsTo(page, heading) {
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
  await page.goto(`file://${writtenCard(maslin)}`);
  await context.setOffline(true);
  await weighed(page);
  await describedKitchen(page);
  await tap(page, "Bake it");
  await stepsTo(page, "First prove");
  await tap(page, "Begin");
  const before = await page.locator(".step-when").innerText();
  await page.clock.fastForward(24 * 60_000);
  // The phone locks, the browser is closed: all is there again.
  await page.reload();
  await page.getByRole("heading", { name: "First prove" }).waitFor();
  check((await page.getByRole("timer").innerText()).startsWith("24:"), "the timer must go on over a reload");
  await tap(page, "Risen by half");
  await page.getByText("first prove risen by half at 24 min").first().waitFor();
  await page.locator(".said", { hasText: /sooner|longer|stay/ }).waitFor();
  check((await page.locator(".step-when").innerText()) !== before || before === "", "a note must be able to move the times");
  await tap(page, "Doubled");
  await tap(page, "Undo");
  check((await page.getByText("first prove doubled at 24 min").count()) === 0, "undo must take the note back");
  await page.clock.fastForward(20 * 60_000);
  await tap(page, "Doubled");
  await tap(page, "Done, next");
  await stepsTo(page, "Bake");
  await tap(page, "Begin");
  await page.clock.fastForward(21 * 60_000);
  await tap(page, "Golden");
  await tap(page, "Done: out of the oven");
  await tap(page, "Close");
  await tap(page, "Send it home");
  const saved = page.waitForEvent("download");
  await tap(page, "Save the file");
  const file = join(folder, "home.baked.json");
  await (await saved).saveAs(file);
  readBack(maslin, file);
  const code = join(folder, "code.png");
  await page.locator(".code").screenshot({ path: code, scale: "device" });
  readCode(maslin, code);
}

function imported(maslin, file, store) {
  return JSON.parse(execFileSync(maslin, ["trial", "import", file, "--store", join(folder, store), "--json"], { encoding: "utf8" }));
}

function readBack(maslin, file) {
  const trial = imported(maslin, file, "home.sqlite");
  const seen = trial.notes.filter((note) => !note.corrected).flatMap((note) => note.observations);
  const ratios = seen.filter(({ kind }) => kind === "volume_ratio").map(({ value, at_minutes }) => [value, at_minutes]);
  check(JSON.stringify(ratios) === "[[1.5,24],[2,44]]", `the rises came home as ${JSON.stringify(ratios)}`);
  check(seen.some(({ kind, at_minutes }) => kind === "minutes_done" && at_minutes === 21), "the bake must come home");
  check(seen.some(({ kind, value }) => kind === "crust" && value === "golden"), "the colour must come home");
  check(trial.checklist.some((step) => step.kind === "prove" && step.done_at !== null), "the marks must come home");
  check(imported(maslin, file, "home.sqlite").added === 0, "the same bake twice must add nothing");
  const kitchen = JSON.parse(execFileSync(maslin,
    ["kitchen", "show", trial.kitchen, "--store", join(folder, "home.sqlite"), "--json"], { encoding: "utf8" }));
  check(kitchen.room_celsius === 31 && kitchen.oven.kind === "charcoal_drum", `the kitchen came home as ${JSON.stringify(kitchen)}`);
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
  check(trial.notes.length >= 4 && trial.title === "ROAST PUMPKIN KNOTS", "the code must come home as a trial");
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
  await page.goto(`file://${broken}`);
  await page.waitForTimeout(500);
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

async function quick({ page, context, maslin }) {
  await opened(page, context, writtenCard(maslin));
  const session = await context.newCDPSession(page);
  const timed = async (rate, words) => {
    await session.send("Emulation.setCPUThrottlingRate", { rate });
    const times = [];
    for (const oven of ["Gas", "Wood", "Electric", "Gas", "Wood"]) {
      await page.evaluate(() => performance.clearMarks());
      await choose(page, oven);
      await page.waitForFunction(() => performance.getEntriesByName("re-weighed").length > 0, undefined, { timeout: 60_000 });
      times.push(await page.evaluate(() => {
        const at = (name) => performance.getEntriesByName(name).at(-1).startTime;
        return { all: at("re-weighed") - at("re-weigh"), forecast: at("re-weighed") - at("carried") };
      }));
    }
    const middle = (key) => Math.round(times.map((time) => time[key]).sort((a, b) => a - b)[2]);
    console.log(`        ${words}: 256 draws in ${middle("forecast")} ms; with the recipe carried anew ${middle("all")} ms (medians of 5)`);
  };
  await timed(1, "at full speed");
  await timed(4, "at a quarter of it");
}

const small = { size: smallPhone };
export const journeys = [
  { name: "card: described, baked and sent home with the network off", run: bakedAway, ...small, options: { deviceScaleFactor: 2 } },
  { name: "card: hostile text in a card cannot run", run: hostileCard, ...small, expectsErrors: true },
  { name: "card: a changed card says so, a changed script does not run", run: changedCard, ...small, expectsErrors: true },
  { name: "card: everything can be reached, read and touched", run: reachable, ...small },
  { name: "card: by keyboard alone", run: byKeys, ...small },
  { name: "card: how fast it re-weighs, measured", run: quick, ...small },
];
