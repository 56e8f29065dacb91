// The day as a line: planned, moved by the keys and by dragging, mended where it cannot be.
import { check, forecastDrawn, gramsOf, noViolations, pasted, phone, plainDough } from "./bench.mjs";

const handle = (page) => page.getByRole("slider", { name: "Ready at" });
const hour = (page) => page.locator("#ready-at").inputValue();

async function planned(page, url) {
  await pasted(page, url, plainDough.replace("one loaf", "12 buns"));
  await forecastDrawn(page);
  await page.locator(".day-picture").scrollIntoViewIfNeeded();
  await page.locator(".day-line").waitFor();
}
const replanned = (page, act) => Promise.all([
  page.waitForResponse((answer) => answer.url().endsWith("/plan") && answer.ok()), act(),
]);

async function movedByKeys({ page, url }) {
  await planned(page, url);
  check((await page.locator(".day-line .bar").count()) >= 6, "the day of a loaf has six steps and more");
  await handle(page).focus();
  const before = await handle(page).getAttribute("aria-valuetext");
  await replanned(page, () => page.keyboard.press("PageUp"));
  await page.waitForFunction((old) => document.querySelector(".day-handle")?.getAttribute("aria-valuetext") !== old, before);
  const first = await hour(page);
  await replanned(page, () => page.keyboard.press("ArrowRight"));
  const minutes = (text) => Date.parse(`${text}Z`) / 60000;
  check(minutes(await hour(page)) - minutes(first) === 5, "an arrow key must move the hour by five minutes");
  await noViolations(page, "the day");
}

async function movedByHand({ page, url }) {
  await planned(page, url);
  const box = await handle(page).boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height - 20];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 20, y, { steps: 4 });
  await replanned(page, async () => {
    await page.mouse.move(x + 30, y, { steps: 4 });
    await page.mouse.up();
  });
  check(/T/.test(await hour(page)), "dragging the end of the day must set its hour");
}

async function tooEarly({ page, url }) {
  await planned(page, url);
  const soon = await page.evaluate(() => {
    const now = new Date(Date.now() + 30 * 60000);
    return new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 16);
  });
  await replanned(page, () => page.locator("#ready-at").fill(soon));
  await replanned(page, () => page.getByRole("button", { name: /^Make it/ }).click());
  await page.getByText(/in 100 in time/).waitFor();
}

async function anotherWay({ page, url }) {
  await planned(page, url);
  const yeast = await gramsOf(page, "yeast").inputValue();
  await page.getByText("Other ways through the day").click();
  await noViolations(page, "other ways through the day");
  await replanned(page, () => page.getByRole("button", { name: /Do it so.*half the yeast/ }).click());
  check(Number(await gramsOf(page, "yeast").inputValue()) < Number(yeast), "half the yeast must be set");
  await page.getByRole("button", { name: "Undo", exact: true }).click();
  check((await gramsOf(page, "yeast").inputValue()) === yeast, "undo must bring the yeast back");
}

export const journeys = [
  { name: "the day is planned and moved by the keys", run: movedByKeys },
  { name: "the day is dragged to another hour", run: movedByHand },
  { name: "an hour that is too early gets the nearest that can be", run: tooEarly },
  { name: "another way through the day is taken and undone, on a phone", run: anotherWay, size: phone },
];
