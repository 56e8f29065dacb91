import { readFileSync } from "node:fs";
import { join } from "node:path";
import { benchKept, check, forecastDrawn, gramsOf, noViolations, pasted, phone, plainDough, root, still } from "./bench.mjs";

const pamphlet = readFileSync(join(root, "data/demo/pamphlet.txt"), "utf8");
async function pasteSeeEdit({ page, url }) {
  await pasted(page, url, plainDough);
  check((await page.locator(".amount").count()) >= 5, "five lines were given, fewer were weighed");
  check((await gramsOf(page, "flour").inputValue()) === "500", "500 g of flour must be 500 g");
  await forecastDrawn(page);
  const before = await page.locator(".dough-picture svg").first().getAttribute("aria-label");
  await gramsOf(page, "water").fill("430");
  await gramsOf(page, "water").press("Enter");
  await page.waitForFunction(
    (old) => document.querySelector(".dough-picture svg")?.getAttribute("aria-label") !== old, before);
  await page.getByRole("button", { name: "Undo", exact: true }).click();
  check((await gramsOf(page, "water").inputValue()) === "325", "undo must bring back 325 g");
  await page.getByRole("button", { name: "Redo", exact: true }).click();
  check((await gramsOf(page, "water").inputValue()) === "430", "redo must bring back 430 g");
  await benchKept(page, '":430');
  await page.reload();
  await forecastDrawn(page);
  check((await gramsOf(page, "water").inputValue()) === "430", "a reload must keep the edit");
}

async function tiedByTouch({ page, url }) {
  await pasted(page, url, plainDough);
  await page.locator(".tie", { hasText: "10 g salt" }).click();
  check(await gramsOf(page, "salt").evaluate((field) => field === document.activeElement),
    "a touch on the found words must go to their weight");
  await gramsOf(page, "yeast").focus();
  check((await page.locator(".tie.at").innerText()).includes("yeast"),
    "a row in hand must light its found words");
}

async function keyboardAlone({ page, url }) {
  await page.goto(url);
  await page.getByLabel(/Lay it here/).waitFor();
  const press = async (key, until, most = 60) => {
    for (let i = 0; i < most; ++i) {
      if (await page.evaluate(until)) {
        return;
      }
      await page.keyboard.press(key);
    }
    check(await page.evaluate(until), `${until} was not reached with ${key}`);
  };
  await press("Tab", `document.activeElement?.id === "found-text"`);
  await page.keyboard.insertText(plainDough);
  await press("Tab", `document.activeElement?.textContent === "Weigh it"`);
  await page.keyboard.press("Enter");
  await page.locator(".weighed h1").waitFor();
  await press("Tab", `document.activeElement?.type === "range"`, 90);
  const before = await page.evaluate(`document.activeElement.getAttribute("aria-valuetext")`);
  await page.keyboard.press("ArrowRight");
  const after = await page.evaluate(`document.activeElement.getAttribute("aria-valuetext")`);
  check(before !== after, `an arrow key must change the weight: ${before}`);
  await page.keyboard.press("Control+z");
  check((await page.evaluate(`document.activeElement.getAttribute("aria-valuetext")`)) === before,
    "Ctrl Z must undo it");
  await press("Shift+Tab", `document.activeElement?.getAttribute("aria-controls") === "kitchen"`, 90);
  await page.keyboard.press("Enter");
  await press("Tab", `document.activeElement?.id === "room"`, 12);
  await page.keyboard.insertText("27");
  await page.keyboard.press("Tab");
  await page.getByRole("button", { name: /Kitchen 27/ }).waitFor();
}

async function dragRedraws({ page, url }) {
  await pasted(page, url, plainDough);
  await forecastDrawn(page);
  const slide = page.getByRole("slider", { name: /water/i });
  await slide.scrollIntoViewIfNeeded();
  const box = await slide.boundingBox();
  const y = box.y + box.height / 2;
  await page.mouse.move(box.x + box.width / 2, y);
  await page.mouse.down();
  for (let i = 1; i <= 12; ++i) {
    await page.mouse.move(box.x + box.width * (0.5 + i * 0.025), y);
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(drawn)));
  }
  await page.mouse.up();
  check(Number(await gramsOf(page, "water").inputValue()) > 380, "the drag must raise the water");
  await page.getByRole("button", { name: "Undo", exact: true }).click();
  check((await gramsOf(page, "water").inputValue()) === "325", "one undo must take back the whole drag");
}

async function firstVisit({ page, url }) {
  await page.goto(url);
  await page.getByRole("button", { name: /parish pamphlet/ }).click();
  await page.locator(".weighed h1").waitFor();
  await forecastDrawn(page);
  check((await page.locator(".found").innerText()).includes("St Alban"), "the pamphlet must be seen as found");
  await noViolations(page, "the bench");
  await page.getByRole("button", { name: /^Kitchen/ }).click();
  await page.locator("#room").waitFor();
  await noViolations(page, "the kitchen");
  for (const summary of await page.locator("summary").all()) {
    await summary.click();
  }
  await noViolations(page, "the figures");
}

/** What if is worked out when it is opened, and again when the bench changes. */
async function whatIf({ page, url }) {
  await pasted(page, url, `${plainDough}\n\nLeave to rise until doubled. Shape into 12 buns. Bake at 200C for 15 minutes.`);
  await forecastDrawn(page);
  await page.locator(".what-if summary").click();
  const row = (words) => page.locator(".what-if tr", { hasText: words }).first().innerText();
  await page.locator(".what-if tr", { hasText: "Twice the yeast" }).waitFor();
  const minutes = (words) => {
    const likely = words.split("\t")[1];
    return Number(/(\d+)\smin/.exec(likely)?.[1] ?? 0) + 60 * Number(/(\d+)\sh/.exec(likely)?.[1] ?? 0);
  };
  const usual = await row("As it is");
  check(minutes(await row("Twice the yeast")) < minutes(usual), "twice the yeast must be quicker");
  const light = await row("Half as heavy");
  check(minutes(light) < minutes(await row("Twice as heavy")), `a small piece must be done sooner: ${light}`);
  await noViolations(page, "what if");
  await gramsOf(page, "yeast").fill("3");
  await gramsOf(page, "yeast").press("Enter");
  await page.waitForFunction((was) => ![...document.querySelectorAll(".what-if tr")].some((one) => one.innerText === was), usual);
  check(minutes(await row("As it is")) > minutes(usual), "less yeast must be slower");
}

async function accessible({ page, url }) {
  await page.goto(url);
  await page.getByLabel(/Lay it here/).waitFor();
  await noViolations(page, "the empty bench");
  await pasted(page, url, pamphlet);
  await forecastDrawn(page);
  await noViolations(page, "the bench");
}

async function targets({ page, url }) {
  await pasted(page, url, pamphlet);
  await forecastDrawn(page);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("button, select, summary, input, a.summary")]
      .filter((one) => one.getClientRects().length > 0 && !one.closest(".percent"))
      .map((one) => ({ what: one.outerHTML.slice(0, 80), height: one.getBoundingClientRect().height }))
      .filter(({ height }) => height < 43.5));
  check(small.length === 0, `too small to touch: ${JSON.stringify(small.slice(0, 4))}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  check(wide <= 0, `the page is ${wide} px wider than the phone`);
}

async function errorsHelp({ page, url }) {
  await page.goto(url);
  await page.getByLabel(/Lay it here/).fill("\u0001\u0002\u0000");
  await page.getByRole("button", { name: "Weigh it" }).click();
  const said = page.getByRole("alert").filter({ hasText: /\w/ }).or(page.locator(".weighed"));
  await said.first().waitFor();
}

/** How far things have moved on the page so far; what was seen before is told in the first message. */
async function shifted(page) {
  await still(page);
  return page.evaluate(() => new Promise((done) => {
    const values = (list) => list.reduce((sum, entry) => sum + entry.value, 0);
    const observer = new PerformanceObserver((list) => done(values(list.getEntries())));
    observer.observe({ type: "layout-shift", buffered: true });
    // Where nothing moved there is no message.
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => done(values(observer.takeRecords())))));
  }));
}

async function staysPut({ page, url }) {
  await page.goto(url);
  await page.getByLabel(/Lay it here/).waitFor();
  check((await shifted(page)) < 0.01, "the empty bench moves while it loads");
  await pasted(page, url, plainDough);
  await forecastDrawn(page, "1");
  await benchKept(page, "strong white flour");
  await page.reload();
  await forecastDrawn(page);
  const sum = await shifted(page);
  check(sum < 0.05, `the bench moves by ${sum} while the forecast comes`);
}

async function quickEnough({ page, url }) {
  await page.goto(url);
  await page.getByLabel(/Lay it here/).waitFor();
  const usable = await page.evaluate(() =>
    performance.getEntriesByType("paint").find((p) => p.name === "first-contentful-paint")?.startTime ?? Infinity);
  check(usable < 1000, `first paint after ${Math.round(usable)} ms`);
  await pasted(page, url, plainDough.replace("one loaf", "12 buns"));
  await forecastDrawn(page, "1");
  const times = { first: [], full: [] };
  for (let i = 0; i < 15; ++i) {
    // From rest: the pictures of the last answer have come to a stop.
    await still(page);
    await page.evaluate(() => performance.clearMarks());
    await gramsOf(page, "water").fill(String(300 + 8 * i));
    await gramsOf(page, "water").press("Enter");
    // Asked seldom: a question at every frame would itself take the cores that are measured.
    await page.waitForFunction(() => performance.getEntriesByName("full forecast drawn").length > 0,
      undefined, { timeout: 120_000, polling: 100 });
    const [first, full] = await page.evaluate(() => {
      const at = (name) => performance.getEntriesByName(name)[0].startTime;
      return [at("first forecast drawn") - at("edit"), at("full forecast drawn") - at("edit")];
    });
    times.first.push(first);
    times.full.push(full);
  }
  const sorted = (list) => [...list].sort((a, b) => a - b);
  const middle = sorted(times.first)[Math.floor(times.first.length / 2)];
  const slow = sorted(times.full)[Math.ceil(times.full.length * 0.95) - 1];
  console.log(`        edit to first picture: median ${Math.round(middle)} ms; to the full draws: p95 ${Math.round(slow)} ms; first paint ${Math.round(usable)} ms`);
}

export const journeys = [
  { name: "paste, see the weights, forecast, edit, redraw, undo, reload", run: pasteSeeEdit },
  { name: "found words and weights are tied by touch", run: tiedByTouch },
  { name: "all of it by keyboard alone", run: keyboardAlone },
  { name: "a drag redraws and is one step to undo", run: dragRedraws },
  { name: "first visit with the pamphlet, no grave accessibility fault", run: firstVisit },
  { name: "no grave accessibility fault on a phone in the dark", run: accessible, size: phone, options: { colorScheme: "dark" } },
  { name: "everything on a phone is large enough to touch", run: targets, size: phone },
  { name: "text that is no recipe gets a sentence", run: errorsHelp, expectsErrors: true },
  { name: "nothing moves under the hand while it loads", run: staysPut },
  { name: "what if is answered, and again when the bench changes", run: whatIf },
];
export const measured = [{ name: "edit to redraw, measured", run: quickEnough }];
