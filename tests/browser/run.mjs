// Journeys through the page in a real browser, against a running `maslin serve`.
// Usage: node tests/browser/run.mjs [--maslin FILE] [--pictures] [--measured] [--only WORD] [--part K/N]
//   --part      every Nth journey from the Kth on: each has a program of its own, so that parts can run side by side
//   --measured  the two that print how fast the page and the card are, and no other: no test of a check
//   --pictures  also writes the pictures of docs/pictures/
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, root, startServer } from "./bench.mjs";

const argument = (name) => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const maslin = argument("--maslin") ?? join(root, "build/release/maslin");
const only = argument("--only") ?? "";
const [part, of] = (argument("--part") ?? "1/1").split("/").map(Number);
const measured = [...(await import("./journeys.mjs")).measured, ...(await import("./card.mjs")).measured];
const journeys = (process.argv.includes("--measured") ? measured : [
  ...(await import("./journeys.mjs")).journeys,
  ...(await import("./wants_journeys.mjs")).journeys,
  ...(await import("./day_journeys.mjs")).journeys,
  ...(await import("./back_journeys.mjs")).journeys,
  ...(await import("./lan_journeys.mjs")).journeys,
  ...(await import("./hostile.mjs")).journeys,
  ...(await import("./card.mjs")).journeys,
  ...(await import("./baking_journeys.mjs")).journeys,
  ...(await import("./notes_journeys.mjs")).journeys,
  ...(await import("./whole_job.mjs")).journeys,
  ...(process.argv.includes("--pictures") ? (await import("./pictures.mjs")).journeys : []),
]).filter((journey, index) => journey.name.includes(only) && index % of === part - 1);

const profile = await mkdtemp(join(tmpdir(), "maslin-browser-"));
const server = await startServer(maslin, ["--store", join(profile, "store.sqlite")]);
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  headless: true,
  args: [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--lang=en-GB",
  ],
});
let failed = 0;
try {
  for (const journey of journeys) {
    const begun = Date.now();
    // Each journey has storage, workers and settings of its own, as in a new private window.
    const context = await browser.newContext({
      viewport: journey.size ?? { width: 1440, height: 900 },
      locale: "en-GB",
      ...(journey.options ?? {}),
    });
    const page = await context.newPage();
    const outside = [];
    const complaints = [];
    page.on("request", (request) => {
      if (!request.url().startsWith(server.url) && !/^(data|blob|about|chrome|file)/.test(request.url())) {
        outside.push(request.url());
      }
    });
    page.on("pageerror", (error) => journey.expectsErrors || complaints.push(error.message));
    page.on("console", (message) => {
      if (message.type() === "error" && !journey.expectsErrors) {
        complaints.push(message.text());
      }
    });
    page.setDefaultTimeout(60_000);
    try {
      await journey.run({ page, url: server.url, context, maslin });
      if (outside.length > 0 && !journey.elsewhere) {
        throw new Error(`asked elsewhere: ${outside.join(", ")}`);
      }
      if (complaints.length > 0) {
        throw new Error(`the browser complained: ${complaints.join(" | ")}`);
      }
      console.log(`ok      ${journey.name} (${((Date.now() - begun) / 1000).toFixed(1)} s)`);
    } catch (error) {
      failed += 1;
      console.log(`FAILED  ${journey.name}\n        ${error.message.split("\n").slice(0, 12).join("\n        ")}`);
    }
    await context.close();
  }
} finally {
  await browser.close();
  await server.stop();
  await rm(profile, { recursive: true, force: true });
}
console.log(`${journeys.length - failed} passed, ${failed} failed`);
process.exit(failed === 0 && journeys.length > 0 ? 0 : 1);
