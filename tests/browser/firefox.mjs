// The living card in a second browser engine: Debian's Firefox, spoken to over its own remote
// control (Marionette: a length, a colon and JSON, over TCP), so that no driver is needed.
// Usage: node tests/browser/firefox.mjs [--maslin FILE]
// Ends with 77 where there is no Firefox, which ctest reports as skipped.
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createConnection } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { check, root } from "./bench.mjs";
import { writtenCard } from "./card.mjs";

const firefox = process.env.FIREFOX ?? "/usr/bin/firefox-esr";
if (!existsSync(firefox)) {
  console.log("skipped: there is no firefox-esr here");
  process.exit(77);
}
const at = process.argv.indexOf("--maslin");
const card = writtenCard(at < 0 ? join(root, "build/release/maslin") : process.argv[at + 1]);

const profile = mkdtempSync(join(tmpdir(), "maslin-firefox-"));
const port = 20000 + Math.floor(Math.random() * 12000);
// Every address resolves to nothing: the card must not need one.
writeFileSync(join(profile, "user.js"), [
  ["marionette.port", port], ["network.dns.disabled", true], ["app.update.enabled", false],
  ["datareporting.policy.dataSubmissionEnabled", false], ["browser.shell.checkDefaultBrowser", false],
].map(([name, value]) => `user_pref("${name}", ${JSON.stringify(value)});`).join("\n"));
const child = spawn(firefox, ["--headless", "--marionette", "--profile", profile, "--no-remote"], { stdio: "ignore" });

/** Commands over one connection; each is answered in turn. */
async function connected() {
  for (let i = 0; i < 120; ++i) {
    const socket = createConnection({ port, host: "127.0.0.1" });
    const open = await new Promise((done) => {
      socket.once("connect", () => done(true));
      socket.once("error", () => done(false));
    });
    if (open) {
      return socket;
    }
    await new Promise((done) => setTimeout(done, 500));
  }
  throw new Error("Firefox did not open its remote control");
}

async function remote() {
  const socket = await connected();
  let held = Buffer.alloc(0);
  const waiting = new Map();
  socket.on("data", (bytes) => {
    held = Buffer.concat([held, bytes]);
    for (;;) {
      const colon = held.indexOf(":");
      const length = Number(held.subarray(0, Math.max(0, colon)).toString());
      if (colon < 0 || held.length < colon + 1 + length) {
        return;
      }
      const message = JSON.parse(held.subarray(colon + 1, colon + 1 + length).toString());
      held = held.subarray(colon + 1 + length);
      if (Array.isArray(message)) {
        const [, id, error, value] = message;
        const { done, failed } = waiting.get(id);
        error ? failed(new Error(error.message)) : done(value);
      }
    }
  });
  let last = 0;
  return (name, parameters = {}) => new Promise((done, failed) => {
    const id = ++last;
    waiting.set(id, { done, failed });
    const text = JSON.stringify([0, id, name, parameters]);
    socket.write(`${Buffer.byteLength(text)}:${text}`);
  });
}

let status = 0;
try {
  const ask = await remote();
  await ask("WebDriver:NewSession", { capabilities: { alwaysMatch: { acceptInsecureCerts: false } } });
  await ask("WebDriver:SetTimeouts", { script: 120_000, pageLoad: 120_000 });
  const run = async (script, args = []) => (await ask("WebDriver:ExecuteScript", { script, args })).value;
  const until = async (script, words) => {
    for (let i = 0; i < 240; ++i) {
      if (await run(script)) {
        return;
      }
      await new Promise((done) => setTimeout(done, 250));
    }
    throw new Error(`${words}; the card says: ${await run("return document.body.innerText.slice(0, 400)")}`);
  };
  const weighed = () => until(`return document.querySelector("[data-weighed='yes']") !== null`, "the card was not weighed");
  const tap = (words) => run(`const one = [...document.querySelectorAll("button, label")].find((b) => b.textContent.trim() === arguments[0]);
    if (!one) throw new Error("no " + arguments[0]); one.click()`, [words]);
  await ask("WebDriver:Navigate", { url: `file://${card}` });
  await weighed();
  const words = () => run("return document.querySelector('.live-line').innerText");
  const untold = await words();
  await tap("A mug and a spoon");
  await tap("Charcoal drum");
  await tap("Hot");
  await weighed();
  const times = await run(`const at = (name) => performance.getEntriesByName(name).at(-1).startTime;
    return Math.round(at("re-weighed") - at("carried"))`);
  const told = await words();
  check(told !== untold, `a charcoal drum in a hot room changes nothing: ${told}`);
  await tap("Show the recipe");
  await until(`return document.body.innerText.includes("This card is as it was written.")`, "the card must be whole");
  await tap("Bake it");
  await until(`return document.querySelector(".step-said") !== null`, "the baking view must open");
  await tap("Begin");
  await until(`return document.querySelector(".sight") !== null`, "what is seen must be asked");
  await tap("Sticky");
  await until(`return /sooner|longer|stay/.test(document.querySelector(".said")?.innerText ?? "")`, "the note must be weighed");
  // What was noted is kept in the browser, also at a file: address.
  await ask("WebDriver:Refresh");
  await until(`return /sticky/i.test(document.body.innerText) && document.querySelector(".step-said") !== null`, "the note must be kept");
  const version = await run("return navigator.userAgent");
  console.log(`ok      firefox: described, weighed and noted (${times} ms for 256 draws; ${version.split(" ").at(-1)})`);
} catch (error) {
  status = 1;
  console.log(`FAILED  firefox: ${error.message}`);
}
const ended = new Promise((done) => child.once("exit", done));
child.kill("SIGTERM");
await ended;
rmSync(profile, { recursive: true, force: true });
process.exit(status);
