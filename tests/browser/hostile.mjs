// Found text that tries to run as script, in every place the page shows it.
import { attacks } from "./attacks.mjs";
import { attacksOver, check, forecastDrawn, pasted } from "./bench.mjs";

async function textCannotRun({ page, url }) {
  const title = attacks[1];
  const lines = attacks.map((attack, i) => `${100 + i} g flour ${attack}`);
  const steps = attacks.map((attack) => `Bake ${attack} at 200C for 20 minutes.`);
  await pasted(page, url, `${title}\n\nDough ${attacks[0]}:\n${lines.join("\n")}\n\n${steps.join("\n")}\n`);
  check((await page.locator(".paper").innerText()).includes("onerror"), "the attack must be seen as text");
  await forecastDrawn(page).catch(() => undefined);
  for (const tie of await page.locator(".tie").all()) {
    const href = await tie.getAttribute("href");
    check(href?.startsWith("#"), `a found word became a link to ${href}`);
  }
  check((await page.evaluate(() => window.hurt)) === undefined, "found text ran as script");
  const made = await page.evaluate(() =>
    document.querySelectorAll("#page script, #page iframe, #page img, #page style, #page math").length);
  check(made === 0, `found text made ${made} elements`);
}

async function storeCannotRun({ page, url }) {
  // Before the page's own script: what a hostile bench would have left in the browser.
  await page.addInitScript((attack) => {
    const line = { text: attack, ingredient: attack, id: "__proto__", grams: { p10: 1, p50: 2, p90: 3 }, note: attack };
    localStorage.setItem("maslin bench 1", JSON.stringify({
      found: attack, name: attack, amounts: {}, settled: [], kitchen: { oven: { kind: "constructor" } },
      recipe: { title: attack, parts: [{ kind: attack, name: attack, lines: [line], steps: [{ kind: attack, text: attack }] }],
        doubts: [{ text: attack, why: attack }], remarks: [attack] },
    }));
  }, attacks[1]);
  await page.goto(url);
  await page.locator(".weighed h1", { hasText: "onerror" }).waitFor();
  await attacksOver(page);
  check((await page.evaluate(() => window.hurt)) === undefined, "kept text ran as script");
  check((await page.locator("#page img").count()) === 0, "kept text made an element");
}

async function nothingLost({ page, url }) {
  await page.addInitScript(() => {
    if (localStorage.getItem("maslin bench 1") === null) {
      localStorage.setItem("maslin bench 1", JSON.stringify({
        found: "grandmother's words", name: "", amounts: {}, settled: [], kitchen: {},
        recipe: { parts: [{ kind: "dough", name: "dough", lines: [null] }] },
      }));
    }
  });
  await page.goto(url);
  check((await page.getByLabel("Found text").inputValue()) === "grandmother's words",
    "the words of a bench that cannot be drawn must be shown");
  await page.getByRole("button", { name: "Start afresh" }).click();
  await page.getByLabel(/Lay it here/).waitFor();
}

async function policyHolds({ page, url }) {
  await page.goto(url);
  const ran = await page.evaluate(() => {
    const script = document.createElement("script");
    script.setAttribute("nonce", "x");
    try {
      script.textContent = "window.hurt = 1";
      document.body.append(script);
    } catch {
      return "refused";
    }
    return window.hurt === 1 ? "ran" : "refused";
  });
  check(ran === "refused", "an inline script ran");
  const answer = await page.request.get(url);
  const policy = answer.headers()["content-security-policy"] ?? "";
  check(policy.includes("script-src 'self'") && !policy.includes("unsafe"), `the policy is ${policy}`);
}

export const journeys = [
  { name: "hostile text is shown and cannot run", run: textCannotRun, expectsErrors: true },
  { name: "a hostile kept bench cannot run", run: storeCannotRun, expectsErrors: true },
  { name: "a bench that cannot be drawn loses no words", run: nothingLost, expectsErrors: true },
  { name: "the policy refuses an inline script", run: policyHolds, expectsErrors: true },
];
