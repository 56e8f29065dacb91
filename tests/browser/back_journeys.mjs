// Looking back: versions kept, branched, laid on the bench again and compared.
import { check, forecastDrawn, gramsOf, noViolations, pasted, phone, plainDough } from "./bench.mjs";

function keeper(page, name) {
  return async (why, place) => {
    await page.getByLabel("Keep it as").fill(name);
    await page.getByLabel("because").fill(why);
    await page.getByRole("button", { name: "Keep", exact: true }).click();
    await page.getByText(`Kept as ${name}, version ${place}.`).waitFor();
  };
}
async function set(page, ingredient, grams) {
  await gramsOf(page, ingredient).fill(grams);
  await gramsOf(page, ingredient).press("Enter");
}
const back = (page) => page.getByRole("button", { name: "Kept", exact: true }).click();
const version = (page, words) => page.locator(".version-tree li", { hasText: words });

async function branched({ page, url }, name) {
  await pasted(page, url, plainDough);
  const keep = keeper(page, name);
  await keep("as found", 1);
  await set(page, "water", "350");
  await keep("wetter", 2);
  await back(page);
  await version(page, "as found").getByRole("button", { name: /^Lay on the bench/ }).click();
  check((await gramsOf(page, "water").inputValue()) === "325", "the first version must lie there as it was kept");
  await set(page, "salt", "8");
  await keep("less salt", 3);
  await back(page);
  await version(page, "less salt").waitFor();
}

async function tree({ page, url }) {
  await branched({ page, url }, "Tree loaf");
  check((await version(page, "less salt").innerText()).includes("from 1"), "a branch must say where it comes from");
  const rails = await page.locator(".rails circle").evaluateAll((all) => new Set(all.map((one) => one.getAttribute("cx"))).size);
  check(rails === 2, `a branch takes a rail of its own; there are ${rails}`);
  await version(page, "wetter").getByRole("button", { name: /^Compare/ }).click();
  await version(page, "less salt").getByRole("button", { name: /^with this/ }).click();
  await page.locator(".compared table").nth(1).waitFor();
  const amounts = await page.locator(".compared table").first().innerText();
  check(/Water\s+350 g\s+325 g/i.test(amounts) && /Salt\s+10 g\s+8 g/i.test(amounts), `the amounts compared are ${amounts}`);
  await noViolations(page, "looking back");
}

async function onPhone({ page, url }) {
  await branched({ page, url }, "Phone loaf");
  await noViolations(page, "looking back on a phone");
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  check(wide <= 0, `looking back is ${wide} px wider than the phone`);
  await page.reload();
  await forecastDrawn(page);
  await page.getByText("Kept as Phone loaf, version 3.").waitFor();
}

async function otherPageHears({ page, url, context }) {
  await pasted(page, url, plainDough);
  const keep = keeper(page, "Shared loaf");
  await keep("as found", 1);
  const other = await context.newPage();
  await other.goto(url);
  await other.getByRole("button", { name: "Kept", exact: true }).click();
  await other.getByRole("button", { name: /Shared loaf/ }).click();
  await version(other, "as found").waitFor();
  await set(page, "water", "340");
  await keep("a little wetter", 2);
  await version(other, "a little wetter").waitFor();
}

export const journeys = [
  { name: "versions are kept, branched and compared", run: tree },
  { name: "looking back on a phone, and after a reload", run: onPhone, size: phone },
  { name: "a version kept on one page appears on another", run: otherPageHears },
];
