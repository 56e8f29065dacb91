// Wanting it different: in words, by touch and by keyboard alone.
import { check, forecastDrawn, gramsOf, noViolations, pasted, phone, plainDough } from "./bench.mjs";

const open = (page) => page.getByRole("button", { name: "Want it different?" }).click();
const offer = (page, words) => page.getByRole("list", { name: "Often wanted" }).getByRole("button", { name: words, exact: true });
const changes = (page) => page.locator(".changes li");

async function takenLineByLine({ page, url }) {
  await pasted(page, url, plainDough);
  await forecastDrawn(page);
  await open(page);
  await offer(page, "softer").click();
  await changes(page).first().waitFor();
  const row = changes(page).filter({ hasText: "Water" });
  check((await row.innerText()).includes("325 g"), "the list must show the water as it was");
  const then = Number((await row.locator("strong").innerText()).replace(/\D/g, ""));
  check(then > 325, `a softer dough wants more water, not ${then} g`);
  await page.evaluate(() => performance.clearMarks());
  await row.getByRole("button", { name: /^Take/ }).click();
  check((await gramsOf(page, "water").inputValue()) === String(then), "the line taken must be set");
  await row.getByText("taken").waitFor();
  // Taking it is no reason to ask again: the answer still stands when the new dough is forecast.
  await page.waitForFunction(() => performance.getEntriesByName("full forecast drawn").length > 0);
  check((await row.getByText("taken").count()) === 1, "what was taken must stay in the list");
  await page.getByRole("button", { name: "Undo", exact: true }).click();
  check((await gramsOf(page, "water").inputValue()) === "325", "one undo must give back what was taken");
}

async function takenWhole({ page, url }) {
  await pasted(page, url, plainDough);
  await open(page);
  await page.getByLabel("What should be different?").fill("salt at most 1.5 %, 800 g");
  await page.getByRole("button", { name: "Want this" }).click();
  await changes(page).first().waitFor();
  await noViolations(page, "the wants");
  await page.getByRole("button", { name: /^Take (all|it)/ }).click();
  const sum = await page.evaluate(() =>
    [...document.querySelectorAll(".grams-field input")].reduce((all, field) => all + Number(field.value), 0));
  check(Math.abs(sum - 800) < 4, `800 g were wanted, ${sum} g came`);
  check((await changes(page).count()) === 0, "what is taken is no longer asked for");
}

async function heldByTouch({ page, url }) {
  await pasted(page, url, plainDough);
  await open(page);
  await offer(page, "softer").click();
  await changes(page).filter({ hasText: "Water" }).waitFor();
  await page.getByRole("button", { name: /^Keep as it is: water/i }).click();
  await page.waitForFunction(() =>
    [...document.querySelectorAll(".changes .change-name")].every((name) => name.textContent !== "Water") &&
    document.querySelector(".changes .change-name") !== null);
}

async function conflictSaid({ page, url }) {
  await pasted(page, url, plainDough);
  await open(page);
  for (const words of ["salt at least 3 %", "salt at most 1 %"]) {
    await page.getByLabel("What should be different?").fill(words);
    await page.keyboard.press("Enter");
  }
  await page.getByText("These exclude each other.").waitFor();
  await page.getByLabel("What should be different?").fill("wibble");
  await page.keyboard.press("Enter");
  await page.getByRole("alert").filter({ hasText: "not understood" }).waitFor();
}

async function byKeyboard({ page, url }) {
  await pasted(page, url, plainDough);
  await page.getByRole("button", { name: "Want it different?" }).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Tab");
  await page.keyboard.type("less salt");
  await page.keyboard.press("Enter");
  await changes(page).first().waitFor();
  for (let i = 0; i < 30; ++i) {
    await page.keyboard.press("Tab");
    if (await page.evaluate(() => document.activeElement?.getAttribute("aria-label")?.startsWith("Take:"))) {
      break;
    }
  }
  await page.keyboard.press("Enter");
  await page.locator(".changes .taken").first().waitFor();
  check(Number(await gramsOf(page, "salt").inputValue()) < 10, "less salt must be set");
}

export const journeys = [
  { name: "a want is answered and taken line by line", run: takenLineByLine },
  { name: "wants are taken whole, on a phone", run: takenWhole, size: phone },
  { name: "a line is held by touch", run: heldByTouch, expectsErrors: true },
  { name: "wants that exclude each other are said plainly", run: conflictSaid, expectsErrors: true },
  { name: "wants by keyboard alone", run: byKeyboard },
];
