// The pictures of docs/pictures/, at the sizes of a laptop and of a phone.
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { forecastDrawn, gramsOf, phone, root, startServer } from "./bench.mjs";

const folder = join(root, "docs/pictures");

/** The pamphlet on the bench, its forecast drawn in full. */
async function bench({ page, url }) {
  await page.goto(url);
  await page.evaluate(() => document.fonts.ready);
  await page.getByRole("button", { name: /parish pamphlet/ }).click();
  await forecastDrawn(page, "1");
  await page.mouse.move(0, 0);
  await page.evaluate(() => scrollTo(0, 0));
  await page.waitForTimeout(500);
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
  await page.waitForTimeout(500);
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
    await given.page.waitForTimeout(200);
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
    await page.waitForTimeout(300);
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
    const { page } = given;
    await bench(given);
    await page.getByLabel("Keep it as").fill(`Pumpkin knots ${page.viewportSize().width < 500 ? "for the phone" : ""}`.trim());
    await keep(page, "as the pamphlet has it", 1);
    await set(page, "whole milk", "110");
    await keep(page, "a little stiffer, for plaiting", 2);
    await page.getByRole("button", { name: "Kept", exact: true }).click();
    await page.getByRole("button", { name: /^Lay on the bench.*version 1/ }).click();
    await set(page, "brown sugar", "40");
    await keep(page, "less sweet under the coffee glaze", 3);
    await set(page, "soft butter", "70");
    await keep(page, "richer", 4);
    await page.getByRole("button", { name: "Kept", exact: true }).click();
    await page.locator(".version-tree li").nth(3).waitFor();
    await page.getByRole("button", { name: /^Compare version 1/ }).click();
    await page.getByRole("button", { name: /^with this.*version 4/ }).click();
    await page.locator(".compared table").nth(1).waitFor();
    await page.mouse.move(0, 0);
    await page.waitForTimeout(300);
  },
  devices: async ({ page, maslin }) => {
    const store = await mkdtemp(join(tmpdir(), "maslin-picture-"));
    const server = await startServer(maslin, ["--lan", "--store", join(store, "store.sqlite")]);
    await page.goto(server.url);
    await page.getByRole("button", { name: "Devices" }).click();
    await page.locator("svg.qr").waitFor();
    await page.evaluate(() => document.fonts.ready);
    await page.waitForTimeout(200);
    return async () => {
      await server.stop();
      await rm(store, { recursive: true, force: true });
    };
  },
};

function picture(view, name, options = {}, size = undefined) {
  return {
    name: `picture ${name}`,
    size,
    elsewhere: view === "devices",
    options: { deviceScaleFactor: 1, ...options },
    run: async (given) => {
      const end = await views[view](given);
      await given.page.screenshot({ path: join(folder, `${name}.png`) });
      await end?.();
    },
  };
}

export const journeys = Object.keys(views).flatMap((view) => [
  picture(view, `${view}-1440`),
  picture(view, `${view}-390`, {}, phone),
  ...(view === "bench" ? [picture(view, "bench-dark-1440", { colorScheme: "dark" })] : []),
]);
