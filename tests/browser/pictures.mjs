// The pictures of docs/pictures/, at the sizes of a laptop and of a phone.
import { execFileSync } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { forecastDrawn, gramsOf, phone, root, startServer, still } from "./bench.mjs";
import { drawnBuns } from "./drawn_buns.mjs";
import { bakedAs, choosePicture } from "./notes_journeys.mjs";
import { choose, describedKitchen, stepsTo, tap, weighed, writtenCard } from "./card.mjs";

const folder = join(root, "docs/pictures");

/** The pamphlet on the bench, its forecast drawn in full. */
async function bench({ page, url }) {
  await page.goto(url);
  await page.evaluate(() => document.fonts.ready);
  await page.getByRole("button", { name: /parish pamphlet/ }).click();
  await forecastDrawn(page, "1");
  // The day is planned once it comes into view.
  await page.locator(".day-picture, .day-waiting").first().scrollIntoViewIfNeeded();
  await page.locator(".day-line").waitFor();
  await page.mouse.move(0, 0);
  await page.evaluate(() => scrollTo(0, 0));
  await still(page);
}

/** Brings a picture of the forecast to the top of its column, or of the phone. */
async function show(page, selector) {
  await page.evaluate((wanted) => {
    const column = document.querySelector(".pictures");
    const picture = document.querySelector(wanted);
    if (getComputedStyle(column).overflowY === "auto") {
      column.scrollTop = picture.offsetTop - column.offsetTop - 20;
    } else {
      picture.scrollIntoView();
    }
  }, selector);
  await still(page);
}

async function keep(page, why, place) {
  await page.getByLabel("because").fill(why);
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.getByText(`, version ${place}.`).waitFor();
}
async function set(page, ingredient, grams) {
  await gramsOf(page, ingredient).first().fill(grams);
  await gramsOf(page, ingredient).first().press("Enter");
}

const shotsLoaded = (page) => page.waitForFunction(() =>
  [...document.querySelectorAll(".shot img")].filter((one) => one.getBoundingClientRect().top < innerHeight)
    .every((one) => one.complete && one.naturalWidth > 0));

/** The pamphlet's bake up to its first prove, ten minutes in. */
async function baking(given) {
  const { page } = given;
  await bench(given);
  await page.clock.install();
  await tap(page, "Bake it");
  await page.locator(".baking h1").waitFor();
  await stepsTo(page, "First prove");
  await tap(page, "Begin");
  await page.clock.fastForward(25 * 60_000);
  await tap(page, "Barely moved");
  await page.locator(".said", { hasText: /sooner|longer|stay/ }).waitFor();
}

/** A card of the pamphlet in a kitchen with a mug, a charcoal drum and 31 °C, high up. */
async function card(given, until) {
  const { page, maslin } = given;
  await page.goto(`file://${writtenCard(maslin)}`);
  await weighed(page);
  if (until !== "untold") {
    await choose(page, "High mountains");
    await describedKitchen(page);
    await weighed(page);
    await page.evaluate(() => scrollTo(0, 0));
  }
}

/** What stands on each picture, from an empty page. */
const views = {
  "first-visit": async ({ page, url }) => {
    await page.goto(url);
    await page.getByRole("button", { name: /parish pamphlet/ }).waitFor();
    await page.evaluate(() => document.fonts.ready);
  },
  bench,
  forecast: async (given) => {
    await bench(given);
    await show(given.page, ".bake-picture");
  },
  kitchen: async (given) => {
    await bench(given);
    await given.page.getByRole("button", { name: /^Kitchen/ }).click();
    await still(given.page);
  },
  wants: async (given) => {
    const { page } = given;
    await bench(given);
    await page.getByRole("button", { name: "Want it different?" }).click();
    for (const words of ["stiffer", "less sugar"]) {
      await page.getByRole("list", { name: "Often wanted" }).getByRole("button", { name: words, exact: true }).click();
    }
    await page.getByRole("button", { name: /^Keep as it is: Whole milk/i }).click();
    await page.locator(".changes li").first().waitFor();
    await page.locator(".wants .effect").waitFor();
    await page.evaluate(() => document.querySelector(".wants").scrollIntoView());
    await still(page);
  },
  day: async (given) => {
    const { page } = given;
    await bench(given);
    await show(page, ".day-picture");
    await page.locator(".day-line").waitFor();
    await page.locator("#ready-at").fill("2027-05-01T16:00");
    await page.getByText("in 100 in time").waitFor();
    await page.waitForFunction(() => document.querySelector(".day-picture")?.getAttribute("aria-busy") === "false");
    await page.getByText("Other ways through the day").click();
    await show(page, ".day-picture");
  },
  keeping: async (given) => {
    await bench(given);
    await show(given.page, ".facts:has(.band-plot)");
  },
  kept: async (given) => {
    const { page, context } = given;
    await bench(given);
    const name = `Pumpkin knots ${page.viewportSize().width < 500 ? "for the phone" : ""}`.trim();
    await page.getByLabel("Keep it as").fill(name);
    await keep(page, "as the pamphlet has it", 1);
    await set(page, "whole milk", "110");
    await keep(page, "a little stiffer, for plaiting", 2);
    await page.getByRole("button", { name: "Kept", exact: true }).click();
    await page.getByRole("button", { name: /^Lay on the bench.*version 1/ }).click();
    await set(page, "brown sugar", "40");
    await keep(page, "less sweet under the coffee glaze", 3);
    await set(page, "soft butter", "70");
    await keep(page, "richer", 4);
    await bakedAs(page, { version: `${name}@1` }, ["done at 22 min", "crumb 6/9"], await drawnBuns(context, 0.7));
    await bakedAs(page, { version: `${name}@3` }, ["done at 20 min", "crumb 8/9"], await drawnBuns(context));
    await page.getByRole("button", { name: "Kept", exact: true }).click();
    await page.locator(".version-tree li").nth(3).waitFor();
    await page.getByRole("button", { name: /^Compare.*version 1/ }).click();
    await page.getByRole("button", { name: /^with this.*version 4/ }).click();
    await page.locator(".compared table").nth(1).waitFor();
    await shotsLoaded(page);
    await page.mouse.move(0, 0);
    await page.evaluate(() => scrollTo(0, 0));
    await still(page);
  },
  baking,
  noting: async (given) => {
    const { page, context } = given;
    await baking(given);
    await tap(page, "Done, next");
    await stepsTo(page, "Bake");
    await tap(page, "Begin");
    await page.clock.fastForward(22 * 60_000);
    await page.locator(".noting summary").click();
    await choosePicture(page, await drawnBuns(context));
    await page.locator(".spot").focus();
    for (let i = 0; i < 6; ++i) {
      await page.keyboard.press("ArrowUp");
    }
    await tap(page, "Note the colour");
    await page.locator(".said", { hasText: "Read as" }).waitFor();
    await page.getByLabel("In your own words").evaluate((field) => {
      field.blur();
      scrollBy(0, field.getBoundingClientRect().top - (innerHeight < 880 ? 60 : 90));
    });
  },
  "two-bakes": async (given) => {
    const { page, url, context } = given;
    await page.goto(url);
    const name = page.viewportSize().width < 500 ? "Milk buns in the hand" : "Milk buns";
    const text = `${name}\n\n500 g plain flour\n300 ml milk\n50 g caster sugar\n60 g butter\n7 g instant yeast\n8 g salt\n\n` +
      "Knead 10 minutes. Leave to rise until doubled. Shape into 12 buns. Bake at 200C for 18 minutes.\n";
    const start = { text, name, kitchen: { name: "the flat", room_celsius: 21 } };
    await bakedAs(page, start, ["first prove doubled at 70 min", "crust #6f3f18 at 18 min", "done at 18 min", "crust 4/9", "crumb 6/9"], await drawnBuns(context, 0.6));
    await bakedAs(page, { ...start, text: text.replace("200C", "185C").replace("50 g caster", "35 g caster") },
      ["first prove doubled at 62 min", "crust #b06e2b at 17 min", "done at 17 min", "crust 8/9", "crumb 7/9"], await drawnBuns(context));
    await page.getByRole("button", { name: "Kept", exact: true }).click();
    await page.getByRole("button", { name: new RegExp(`^${name}\\W*\\d`) }).click();
    await page.locator(".bakes > li").nth(1).waitFor();
    for (const [at, words] of [[0, /^Compare/], [1, /^with this/]]) {
      await page.locator(".bakes > li").nth(at).getByRole("button", { name: words }).click();
    }
    await page.locator(".compared table").first().waitFor();
    await page.locator(".compared").evaluate((one) => innerWidth < 500 ? one.scrollIntoView() : scrollTo(0, 0));
    await page.mouse.move(0, 0);
    await shotsLoaded(page);
  },
  "looked-back": async (given) => {
    const { page, context } = given;
    await baking(given);
    await tap(page, "Done, next");
    await stepsTo(page, "Bake");
    await tap(page, "Begin");
    await page.clock.fastForward(26 * 60_000);
    await tap(page, "Dark");
    await page.locator(".said", { hasText: /sooner|longer|stay/ }).waitFor();
    await page.locator(".noting summary").click();
    await choosePicture(page, await drawnBuns(context, 0.7));
    await tap(page, "Keep the picture");
    await tap(page, "Done: out of the oven");
    await stepsTo(page, "Done");
    await page.locator(".baking-waiting").waitFor({ state: "detached" });
    await tap(page, "Close the bake");
    await page.getByRole("heading", { name: /^Learnt by/ }).first().waitFor();
    await page.getByRole("button", { name: /^What went wrong/ }).first().click();
    await page.locator(".bakes .faults, .bakes p.quiet").first().waitFor();
    await page.locator(".bakes").first().evaluate((bakes) => bakes.closest("section").scrollIntoView());
    await shotsLoaded(page);
  },
  "hand-on": async (given) => {
    const { page } = given;
    await bench(given);
    await page.getByText("Hand it on").click();
    await page.locator("#their-oven").selectOption("charcoal_drum");
    await page.locator("#their-altitude").fill("2600");
    await page.locator("#their-altitude").press("Tab");
    await page.locator("#their-measures").selectOption("mug");
    await tap(page, "Show their card");
    await page.locator(".their-card").waitFor();
    await page.evaluate(() => document.querySelector(".hand-on .ask-ways").scrollIntoView());
  },
  "card-kitchen": async (given) => {
    await card(given, "untold");
    await choose(given.page, "A mug and a spoon");
    await choose(given.page, "Charcoal drum");
    await weighed(given.page);
  },
  "card-amounts": (given) => card(given),
  "card-outcome": async (given) => {
    await card(given);
    await given.page.evaluate(() => document.querySelector(".outcome").scrollIntoView());
  },
  "card-step": async (given) => {
    const { page } = given;
    await card(given);
    await tap(page, "Bake it");
    await stepsTo(page, "First prove");
    await tap(page, "Begin");
    await page.locator(".step-clock .quiet").waitFor();
  },
  devices: async ({ page, maslin }) => {
    const store = await mkdtemp(join(tmpdir(), "maslin-picture-"));
    const server = await startServer(maslin, ["--lan", "--store", join(store, "store.sqlite")]);
    await page.goto(server.url);
    await page.getByRole("button", { name: "Devices" }).click();
    await page.locator("svg.qr").waitFor();
    await page.evaluate(() => document.fonts.ready);
    await still(page);
    return async () => {
      await server.stop();
      await rm(store, { recursive: true, force: true });
    };
  },
};

/** To 256 colours, which these pictures do with, where pngquant is installed. */
function slimmed(path) {
  try {
    execFileSync("pngquant", ["--force", "--skip-if-larger", "--quality", "60-95", "--output", path, path]);
  } catch (error) {
    if (error.code !== "ENOENT" && error.status !== 98 && error.status !== 99) {
      throw error;
    }
  }
}

function picture(view, name, options = {}, size = undefined) {
  return {
    name: `picture ${name}`,
    size,
    elsewhere: view === "devices",
    options: { deviceScaleFactor: 1, ...options },
    run: async (given) => {
      const end = await views[view](given);
      const path = join(folder, `${name}.png`);
      await still(given.page);
      await given.page.screenshot({ path, animations: "disabled" });
      slimmed(path);
      await end?.();
    },
  };
}

export const journeys = Object.keys(views).flatMap((view) => [
  picture(view, `${view}-1440`),
  picture(view, `${view}-390`, {}, phone),
  ...(view === "bench" ? [picture(view, "bench-dark-1440", { colorScheme: "dark" })] : []),
]);
