// Other devices: joining by code, being refused without, being removed.
import { execFileSync } from "node:child_process";
import { check, noViolations, phone, plainDough, startServer } from "./bench.mjs";
import { networkInterfaces, tmpdir } from "node:os";
import { mkdtemp, rm } from "node:fs/promises";
import { join } from "node:path";

const own = () => Object.values(networkInterfaces()).flat()
  .find((one) => one && !one.internal && one.family === "IPv4")?.address;

/** Runs with a server that other devices may join; left out where the machine has no network. */
function onNetwork(run) {
  return async (given) => {
    if (!own()) {
      return;
    }
    const folder = await mkdtemp(join(tmpdir(), "maslin-lan-"));
    const server = await startServer(given.maslin, ["--lan", "--store", join(folder, "store.sqlite")]);
    try {
      await run({ ...given, url: server.url, far: server.url.replace("127.0.0.1", own()) });
    } finally {
      await server.stop();
      await rm(folder, { recursive: true, force: true });
    }
  };
}

async function joins({ page, url, far, context }) {
  await page.goto(url);
  await page.getByRole("button", { name: "Devices" }).click();
  await page.locator("p.join-code").waitFor();
  await noViolations(page, "the devices");
  const code = await page.locator("p.join-code").innerText();
  const other = await context.newPage();
  await other.goto(far);
  await other.getByLabel("Join this kitchen").waitFor();
  await noViolations(other, "joining");
  check((await other.request.get(`${far}/api/v1/kitchen`)).status() === 401, "an unpaired device must get 401");
  await other.getByLabel("Join this kitchen").fill("2222-2222");
  await other.keyboard.press("Enter");
  await other.getByRole("alert").filter({ hasText: "not the code" }).waitFor();
  await other.getByLabel("Join this kitchen").fill(code.toLowerCase());
  await other.keyboard.press("Enter");
  await other.getByLabel(/Lay it here/).waitFor();
  // The computer hears of it at once.
  await page.locator(".devices li").waitFor();
  check((await other.request.get(`${far}/api/v1/kitchen`)).status() === 200, "a paired device must be let in");
  check((await other.request.get(`${far}/api/v1/devices`)).status() === 403, "only the computer looks after devices");
  await page.getByRole("button", { name: /^Remove/ }).click();
  await page.getByText("Only this computer so far.").waitFor();
  check((await other.request.get(`${far}/api/v1/kitchen`)).status() === 401, "a removed device must be refused");
}

async function joinsByAddress({ page, url, far, context }) {
  await page.goto(url);
  await page.getByRole("button", { name: "Devices" }).click();
  const code = await page.locator("p.join-code").innerText();
  check((await page.locator("svg.qr path").getAttribute("d")).length > 500, "the code must be shown as squares");
  const other = await context.newPage();
  await other.goto(`${far}/#pair=${code}`);
  await other.getByLabel(/Lay it here/).waitFor();
  check(!(other.url().includes("pair")), "the code must not stay in the address");
  await other.reload();
  await other.getByLabel(/Lay it here/).waitFor();
}

async function guessingEnds({ far, page }) {
  const statuses = [];
  for (let i = 0; i < 6; ++i) {
    const answer = await page.request.post(`${far}/api/v1/pair`, { data: { code: `2222-222${i}` } });
    statuses.push(answer.status());
  }
  check(statuses.slice(0, 4).every((status) => status === 403) && statuses.slice(4).every((status) => status === 429),
    `guesses were answered ${statuses}`);
  const elsewhere = await page.request.get(`${far}/`, { headers: { Host: "kitchen.example" } });
  check(elsewhere.status() === 421, `a foreign Host was answered ${elsewhere.status()}`);
  const foreign = await page.request.post(`${far}/api/v1/pair`, { data: { code: "x" }, headers: { Origin: "http://elsewhere.example" } });
  check(foreign.status() === 403, `a foreign Origin was answered ${foreign.status()}`);
}

/** Over plain HTTP a browser keeps no page for later; a page that stays open keeps the notes. */
async function awayAndBack({ context, maslin }) {
  if (!own()) {
    return;
  }
  const folder = await mkdtemp(join(tmpdir(), "maslin-lan-"));
  const store = join(folder, "store.sqlite");
  const port = 20000 + Math.floor(Math.random() * 12000);
  const serve = () => startServer(maslin, ["--lan", "--port", String(port), "--store", store]);
  let server = await serve();
  try {
    const computer = await context.newPage();
    await computer.goto(server.url);
    await computer.getByRole("button", { name: "Devices" }).click();
    const code = await computer.locator("p.join-code").innerText();
    await computer.close();
    const far = await context.newPage();
    await far.goto(`${server.url.replace("127.0.0.1", own())}/#pair=${code}`);
    await far.getByLabel(/Lay it here/).fill(plainDough);
    check(!(await far.evaluate(() => isSecureContext)), "another machine's plain HTTP is no secure context");
    await far.getByRole("button", { name: "Weigh it" }).click();
    await far.locator(".weighed h1").waitFor();
    const tap = (words) => far.getByRole("button", { name: words, exact: true }).click();
    await tap("Bake it");
    for (let i = 0; i < 20 && (await far.locator(".step-in-hand h1").innerText()) !== "First prove"; ++i) {
      await far.locator(".baking-foot button").click();
    }
    await tap("Begin");
    await far.locator(".baking-waiting").waitFor({ state: "detached" });
    await server.stop("SIGKILL");
    await tap("Barely moved");
    await far.locator(".baking-waiting", { hasText: "1 entry waits here" }).waitFor();
    await tap("Risen by half");
    await far.locator(".baking-waiting", { hasText: "2 entries wait here" }).waitFor();
    server = await serve();
    await far.locator(".baking-waiting").waitFor({ state: "detached" });
    const { notes } = JSON.parse(execFileSync(maslin, ["trial", "show", "1", "--store", store, "--json"], { encoding: "utf8" }));
    const texts = notes.map(({ text }) => text.replace(/ at \d+ min/, ""));
    check(JSON.stringify(texts) === JSON.stringify(["first prove barely moved", "first prove risen by half"]), `the notes are ${JSON.stringify(texts)}`);
  } finally {
    await server.stop();
    await rm(folder, { recursive: true, force: true });
  }
}

export const journeys = [
  { name: "a phone on the network notes while the program is away", run: awayAndBack, expectsErrors: true, elsewhere: true, size: phone },
  { name: "a device joins by its code and is removed", run: onNetwork(joins), expectsErrors: true, elsewhere: true },
  { name: "a phone joins by the address in the squares", run: onNetwork(joinsByAddress), expectsErrors: true, elsewhere: true, size: phone },
  { name: "guessing codes, foreign hosts and origins are refused", run: onNetwork(guessingEnds), expectsErrors: true, elsewhere: true },
];
