// Notes in a baker's own words, a score, a colour and a picture: in the baking view, through a
// reload and a killed program, and afterwards; by the keyboard alone.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { check, forecastDrawn, noViolations, pasted, phone, plainDough, startServer } from "./bench.mjs";
import { drawnBuns } from "./drawn_buns.mjs";

/** Presses a button with the keyboard, as one who has no mouse does. */
async function press(page, what) {
  const button = typeof what === "string" ? page.getByRole("button", { name: what, exact: true }) : what;
  await button.focus();
  await page.keyboard.press("Enter");
}
const say = async (page, words) => {
  await page.getByLabel("In your own words").fill(words);
  await page.keyboard.press("Enter");
};
const sent = (page) => page.locator(".baking-waiting").waitFor({ state: "detached" });
const said = (page, words) => page.locator(".said", { hasText: words }).waitFor();

export async function toTheBake(page) {
  await press(page, "Bake it");
  await page.locator(".baking h1").waitFor();
  for (let i = 0; i < 20 && (await page.locator(".step-in-hand h1").innerText()) !== "Bake"; ++i) {
    await press(page, page.locator(".baking-foot button"));
  }
  await press(page, "Begin");
}

/** Opens the picture on its canvas. */
export async function choosePicture(page, file) {
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), press(page, "Take or choose a picture")]);
  await chooser.setFiles(file);
  await page.locator(".spot canvas").waitFor();
}

const colourNow = (page) => page.getByLabel("Colour of the crust").inputValue();

/** `end`: what is looked at once the bake is closed. */
async function whileItBakes({ page, maslin, context }, end = lookedBack) {
  const store = join(mkdtempSync(join(tmpdir(), "maslin-notes-")), "store.sqlite");
  const told = (...words) => JSON.parse(execFileSync(maslin, [...words, "--store", store, "--json"], { encoding: "utf8" }));
  const buns = await drawnBuns(context);
  const port = 20000 + Math.floor(Math.random() * 12000);
  const serve = () => startServer(maslin, ["--store", store, "--port", String(port)]);
  let server = await serve();
  try {
    await page.clock.install();
    await pasted(page, server.url, plainDough);
    await forecastDrawn(page);
    await toTheBake(page);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await page.clock.fastForward(26 * 60_000);

    // A doubtful note is questioned, and may be written anew.
    await say(page, "core 205");
    await said(page, "If you meant 205 °F");
    await noViolations(page, "a question");
    await press(page, page.locator(".said").getByRole("button", { name: "Write it anew" }));
    check((await page.getByLabel("In your own words").inputValue()) === "core 205", "the words to write anew stand in the field");
    await say(page, "core 205 F");
    await said(page, "Read as core 96 °C");
    await said(page, /sooner|longer|stay/);

    await page.locator(".noting summary").focus();
    await page.keyboard.press("Enter");
    await page.getByLabel("What you score").fill("crumb");
    // Undone and done again by the keyboard too.
    await press(page, "Undo");
    await page.locator(".noted li", { hasText: "core 205 F" }).waitFor({ state: "detached" });
    await press(page, "Redo");
    await page.locator(".noted li", { hasText: "core 205 F" }).waitFor();
    await press(page, "Score: more");
    await press(page, page.getByRole("group", { name: "Score" }).getByRole("button", { name: "Note it" }));
    await said(page, "Crumb 8/9");

    await choosePicture(page, buns);
    await noViolations(page, "a picture to pick from");
    const middle = await colourNow(page);
    await page.locator(".spot").focus();
    for (let i = 0; i < 5; ++i) {
      await page.keyboard.press("ArrowUp");
    }
    const bun = await colourNow(page);
    check(bun !== middle, `the arrow keys move the spot: ${middle}`);
    const [red, green, blue] = [1, 3, 5].map((at) => Number.parseInt(bun.slice(at, at + 2), 16));
    check(red > green && green > blue && red > 120, `the spot lies on a bun, of the colour ${bun}`);
    await press(page, "Note the colour");
    await said(page, "Read as crust lightness");
    await sent(page);

    // Without the program the picture waits here, also through a reload, and is sent once.
    await server.stop("SIGKILL");
    await press(page, "Keep the picture");
    await page.locator(".baking-waiting", { hasText: "1 entry waits here" }).waitFor();
    await page.reload();
    await page.getByRole("heading", { name: "Bake", exact: true }).waitFor();
    await page.locator(".noted img").waitFor();
    check((await page.locator(".noted img").getAttribute("src")).startsWith("data:image/jpeg"), "the picture is on this device");
    await say(page, "smells of malt");
    server = await serve();
    await page.clock.fastForward(4000);
    await sent(page);
    await noViolations(page, "the notes of a bake");
    await press(page, page.getByRole("button", { name: "Done: out of the oven" }));
    for (let i = 0; i < 5 && (await page.locator(".baking h1").innerText()) !== "Done"; ++i) {
      await press(page, page.locator(".baking-foot button"));
    }
    await sent(page);
    const { notes } = told("trial", "show", "1");
    const standing = notes.filter((note) => !note.corrected && note.text !== "taken back").map((note) => note.text.replace(/#\w+/, "#"));
    check(JSON.stringify(standing) === JSON.stringify(["core 205 F", "crumb 8/9", "crust colour #", "picture", "smells of malt", "done at 26 min"]),
      `the notes are ${JSON.stringify(standing)}`);
    const shown = notes.filter((note) => note.pictures.length > 0);
    check(shown.length === 1 && shown[0].text === "picture", "the picture came once");
    const out = join(tmpdir(), `maslin-out-${port}.jpg`);
    execFileSync(maslin, ["trial", "picture", shown[0].pictures[0], "--out", out, "--store", store]);
    const bytes = readFileSync(out);
    check(bytes[0] === 0xff && bytes[1] === 0xd8 && bytes.length < 600_000, `a JPEG of ${bytes.length} bytes`);

    await press(page, "Close the bake");
    await end(page, told, buns);
  } finally {
    await server.stop();
  }
}

/** On a phone what was noted is looked for once; adding to a closed bake is no other than above. */
const whileItBakesOnAPhone = (journey) => whileItBakes(journey, async (page) => {
  const bake = page.locator(".bakes > li").first();
  await bake.locator("img").first().waitFor();
  await noViolations(page, "a bake looked back on, on a phone");
});

/** The bake looked back on: what was noted is there, and more is added after it is closed. */
async function lookedBack(page, told, buns) {
  const bake = page.locator(".bakes > li").first();
  await bake.waitFor();
  for (const words of ["core 205 F", "crumb 8/9", "smells of malt"]) {
    await bake.getByText(words).first().waitFor();
  }
  await bake.locator(".swatch").waitFor();
  await bake.locator("img").first().waitFor();
  await page.locator(".version-tree img").waitFor();
  const loaded = () => page.waitForFunction(() => [...document.querySelectorAll(".shot img")].every((one) => one.complete && one.naturalWidth > 0));
  await loaded();
  check((await page.locator(".shot img").evaluateAll((all) => all.every((one) => one.loading === "lazy"))), "pictures load as they come into view");

  const adding = bake.locator("details").first();
  await adding.locator("summary").first().focus();
  await page.keyboard.press("Enter");
  await adding.getByLabel("In your own words").fill("flavour 6/9");
  await page.keyboard.press("Enter");
  await bake.locator(".notes li", { hasText: "flavour 6/9" }).waitFor();
  check(told("trial", "show", "1").closed_at !== null, "a score leaves the bake closed");
  // What teaches the kitchen is learnt anew, and the bake is closed again.
  await adding.getByLabel("In your own words").fill("crust a shade dark");
  await page.keyboard.press("Enter");
  await bake.locator(".notes li", { hasText: "crust a shade dark" }).waitFor();
  await bake.locator(".learnt").first().waitFor();
  const trial = told("trial", "show", "1");
  check(trial.closed_at !== null && trial.learnt.length > 0, "and a note of the crust too, once it has taught");
  await adding.locator("details summary").focus();
  await page.keyboard.press("Enter");
  await choosePicture(page, buns);
  await press(page, "Keep the picture");
  // The same picture again is one picture in the store, and two notes that show it.
  await page.waitForFunction(() => document.querySelectorAll(".bakes .shots img").length === 2);
  await loaded();
  await noViolations(page, "a bake looked back on");

  // What it taught can be taken back.
  await press(page, bake.getByRole("button", { name: /^Unlearn it/ }));
  await bake.locator(".learnt").first().waitFor({ state: "detached" });
  check(told("trial", "show", "1").learnt.length === 0, "the kitchen has unlearnt it");
  await press(page, "Undo");
  await bake.locator(".learnt").first().waitFor();
  check(told("trial", "show", "1").learnt.length > 0, "and learns it again when that is undone");
  await press(page, "Redo");
  await bake.locator(".learnt").first().waitFor({ state: "detached" });

  await press(page, bake.locator(".notes li", { hasText: "flavour 6/9" }).getByRole("button", { name: /^Take it back/ }));
  await bake.locator(".notes li", { hasText: "flavour 6/9" }).waitFor({ state: "detached" });
}

/** A bake through the interface: begun as `start` says, noted, with a picture of it, and closed. */
export async function bakedAs(page, start, notes, picture) {
  await page.evaluate(async ([start, notes, picture]) => {
    const post = async (path, type, body) => {
      const answer = await fetch(`/api/v1/${path}`, { method: "POST", headers: { "Content-Type": type }, body });
      return answer.ok ? answer.json() : Promise.reject(new Error(await answer.text()));
    };
    const { trial } = await post("trials", "application/json", JSON.stringify(start));
    for (const text of notes) {
      await post(`trials/${trial}/notes`, "application/json", JSON.stringify({ text }));
    }
    const bytes = Uint8Array.from(atob(picture), (sign) => sign.charCodeAt(0));
    await post(`trials/${trial}/pictures?text=picture`, "image/jpeg", bytes);
    await post(`trials/${trial}/close`, "application/json", "{}");
  }, [start, notes, readFileSync(picture).toString("base64")]);
}

/** Two bakes beside each other, each with its picture and what was noted. */
async function twoBakes({ page, url, context }) {
  await page.goto(url);
  // Words of its own: what other journeys bake of the same recipe is listed with its version.
  const start = { text: `${plainDough}\n1 tsp caraway seeds`, name: "Two loaves" };
  await bakedAs(page, start, ["done at 30 min", "crust #6b4423 at 30 min"], await drawnBuns(context, 0.6));
  await bakedAs(page, start, ["done at 26 min", "crust #b57a3a at 26 min"], await drawnBuns(context));
  await press(page, "Kept");
  await press(page, page.getByRole("button", { name: /Two loaves/ }));
  await page.locator(".bakes > li").nth(1).waitFor();
  const [one, other] = [0, 1].map((at) => page.locator(".bakes > li").nth(at));
  await press(page, one.getByRole("button", { name: /^Compare/ }));
  await press(page, other.getByRole("button", { name: /^with this/ }));
  await page.locator(".compared table").first().waitFor();
  await page.locator(".compared .shot img").nth(1).waitFor();
  check((await page.locator(".compared .shot img").count()) === 2, "each bake has its picture");
  const words = await page.locator(".compared").innerText();
  check(/done at 30 min/.test(words) && /done at 26 min/.test(words), `what was noted stands beside the forecast: ${words}`);
  await noViolations(page, "two bakes side by side");
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  check(wide <= 0, `looking back is ${wide} px wider than the screen`);
}

export const journeys = [
  { name: "notes: words, a score, a colour and a picture while it bakes, and after", run: whileItBakes, expectsErrors: true, elsewhere: true },
  { name: "notes: the same on a phone", run: whileItBakesOnAPhone, expectsErrors: true, elsewhere: true, size: phone },
  { name: "notes: two bakes side by side with their pictures", run: twoBakes },
];
