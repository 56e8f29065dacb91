// What the journeys share: the server, the browser library, and ways to use the page.
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../../", import.meta.url));
const require = createRequire(join(root, "web/package.json"));
export const { chromium } = require("playwright-core");
const axeSource = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

/** Starts `maslin serve`, on a free port unless told one; gives its address and a way to stop it. */
export function startServer(maslin, further = []) {
  const port = further.includes("--port") ? [] : ["--port", "0"];
  const child = spawn(maslin, ["serve", ...port, ...further], { stdio: ["ignore", "pipe", "inherit"] });
  return new Promise((resolve, reject) => {
    let said = "";
    child.on("error", reject);
    child.on("exit", (code) => reject(new Error(`maslin serve ended with ${code}: ${said}`)));
    child.stdout.on("data", (bytes) => {
      said += bytes;
      const url = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0];
      if (url) {
        child.removeAllListeners("exit");
        resolve({
          url,
          stop: (signal = "SIGTERM") => new Promise((done) => {
            if (child.exitCode !== null || child.signalCode !== null) {
              done();
              return;
            }
            child.on("exit", done);
            child.kill(signal);
          }),
        });
      }
    });
  });
}

export function check(condition, sentence) {
  if (!condition) {
    throw new Error(sentence);
  }
}

export const plainDough =
  "White tin loaf\n\n500 g strong white flour\n325 g water\n10 g salt\n7 g instant yeast\n20 g butter\n\n" +
  "Knead for 10 minutes.\nLeave to rise for 1 hour until doubled.\n" +
  "Shape into one loaf and prove for 45 minutes.\nBake at 220C for 30 minutes.\n";

/** Pastes text into the empty bench and waits for the recipe. */
export async function pasted(page, url, text) {
  await page.goto(url);
  await page.getByLabel(/Lay it here/).fill(text);
  await page.getByRole("button", { name: "Weigh it" }).click();
  await page.locator(".weighed h1").waitFor();
}

export const forecastDrawn = (page, draws = "") =>
  page.waitForFunction(
    (wanted) =>
      document.querySelector(".forecast-words strong") !== null &&
      (wanted === "" || document.querySelector(".draws")?.textContent?.replace(/\D/g, "").startsWith(wanted)),
    draws,
    { timeout: 120_000 },
  );

export const gramsOf = (page, name) => page.getByRole("textbox", { name: new RegExp(`${name}.*, grams`, "i") });

export const phone = { width: 390, height: 844 };

/** Waits until the typefaces are there, what was fading or sliding is done, and two frames were drawn. */
export const still = (page) => page.evaluate(async () => {
  await document.fonts.ready;
  const frame = () => new Promise((done) => requestAnimationFrame(done));
  await frame();
  await Promise.all(document.getAnimations()
    .filter((one) => one.effect?.getComputedTiming().endTime !== Infinity)
    .map((one) => one.finished.catch(() => undefined)));
  await frame();
});

/** Waits until a picture that is not there has failed, as one that an attack had made before would have. */
export const attacksOver = (page) => page.evaluate(() => new Promise((done) => {
  const picture = new Image();
  picture.onerror = () => requestAnimationFrame(() => requestAnimationFrame(done));
  picture.src = "/no-such-picture";
}));

/** Waits until the browser keeps the bench with these words in it. */
export const benchKept = (page, words) =>
  page.waitForFunction((wanted) => localStorage.getItem("maslin bench 1")?.includes(wanted), words);

export async function noViolations(page, where) {
  // What is still fading in has not the contrast it will have.
  await still(page);
  // Through the debugger, so that the page's own policy stays as strict as it is.
  const found = await page.evaluate(`${axeSource}; axe.run(document, {resultTypes: ["violations"]})`);
  const grave = found.violations.filter((v) => v.impact === "serious" || v.impact === "critical");
  check(
    grave.length === 0,
    `${where}: ${grave.map((v) => `${v.id} at ${v.nodes.map((n) => n.target.join(" ")).slice(0, 4).join(", ")}`).join("; ")}`,
  );
}
