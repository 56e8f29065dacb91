// The engine of the living card, driven as a card drives it: its figures are the program's for
// 200 recipes in eight kitchens, it plans the day the program plans, what a card saves keeps to its
// schema, and nothing that is put to it stops it.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, test } from "node:test";
import { fileURLToPath, pathToFileURL } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";
import { attacks } from "../browser/attacks.mjs";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const modulePath = join(root, "build/wasm/maslin_card_engine.wasm");
const pamphlet = join(root, "data/demo/pamphlet.txt");
const folder = mkdtempSync(join(tmpdir(), "maslin-engine-"));
after(() => rmSync(folder, { recursive: true, force: true }));

const draws = 16;
const seed = 1;
// Both compute with the same additions and multiplications; what is left is the rounding of
// figures that are written into the documents between them.
const tolerance = 1e-6;

const tableNames = [
  "ingredients", "flours", "yeasts", "densities", "portions", "measures", "ovens", "fillings", "heaps", "locales", "pieces",
];
const wholePantry = Object.fromEntries(
  tableNames.map((name) => [name, readFileSync(join(root, `data/${name}.tsv`), "utf8")]));

function native(...args) {
  const out = execFileSync(program, args, { encoding: "utf8", maxBuffer: 1 << 29 });
  return out.trimEnd().split("\n").map((line) => JSON.parse(line));
}

const compiled = WebAssembly.compile(readFileSync(modulePath));
async function engine(tables = wholePantry) {
  const module = await compiled;
  const wasi = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    assert.equal(from, "wasi_snapshot_preview1", `unexpected import ${from}.${name}`);
    wasi[name] = () => {
      throw new Error(`the engine called ${name}`);
    };
  }
  const { exports: face } = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi });
  face._initialize();
  const ask = (text, call) => {
    const bytes = typeof text === "string" ? new TextEncoder().encode(text) : text;
    const at = face.maslin_text(bytes.length);
    new Uint8Array(face.memory.buffer, at, bytes.length).set(bytes);
    call();
    const answer = new Uint8Array(face.memory.buffer, face.maslin_answer(), face.maslin_answer_bytes());
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(answer));
  };
  ask(JSON.stringify(tables), () => face.maslin_card_tables());
  return {
    face,
    ask,
    forecast(question, count = draws) {
      const begun = ask(JSON.stringify(question), () => face.maslin_card_begin(count, seed));
      if (begun.problem) {
        return begun;
      }
      while (face.maslin_card_run(1) > 0);
      return ask("", () => face.maslin_card_forecast());
    },
    day: (now) => ask("", () => face.maslin_card_day(now)),
    carry: (question, count = draws) => ask(JSON.stringify(question), () => face.maslin_card_carry(count, seed)),
    seen: (question, count = draws) => ask(JSON.stringify(question), () => face.maslin_card_seen(count, seed)),
    note: (text) => ask(text, () => face.maslin_card_note()),
  };
}

function assertClose(ours, theirs, where) {
  if (typeof theirs === "number" && typeof ours === "number") {
    const size = Math.max(Math.abs(ours), Math.abs(theirs), 1e-9);
    assert.ok(Math.abs(ours - theirs) / size <= tolerance, `${where}: ${ours} against ${theirs}`);
  } else if (theirs !== null && typeof theirs === "object") {
    assert.deepEqual(Object.keys(ours ?? {}), Object.keys(theirs), where);
    for (const key of Object.keys(theirs)) assertClose(ours[key], theirs[key], `${where}.${key}`);
  } else {
    assert.equal(ours, theirs, where);
  }
}

/** The same numbers in every run: a small generator of 32 bits (Marsaglia's xorshift). */
function dice(start) {
  let state = start;
  return (list) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return list[(state >>> 0) % list.length];
  };
}

function recipeText(number) {
  const pick = dice(0x9e3779b9 ^ ((number + 1) * 2654435761));
  for (let i = 0; i < 8; ++i) pick([0]);
  const flour = pick([300, 400, 500, 650, 1000]);
  const share = (pct) => Math.max(1, Math.round((flour * pct) / 100));
  const buns = pick([1, 6, 8, 12, 16]);
  const lines = [
    `${share(pick([70, 85, 100]))} g ${pick(["strong white flour", "plain flour", "bread flour"])}`,
    pick(["", `${share(15)} g wholemeal flour`, `${share(10)} g rye flour`]),
    `${share(pick([38, 50, 58, 65]))} g ${pick(["water", "whole milk", "water"])}`,
    `${share(pick([0.6, 1, 1.4]))} g ${pick(["instant yeast", "dried yeast", "fresh yeast"])}`,
    `${share(pick([1, 1.8, 2.2]))} g salt`,
    pick(["", `${share(6)} g caster sugar`, `${share(14)} g brown sugar`, `${share(4)} g honey`]),
    pick(["", `${share(5)} g butter`, `${share(12)} g soft butter`, `${share(4)} g olive oil`]),
    pick(["", "1 egg", "2 eggs"]),
    pick(["", `${share(10)} g raisins`, "1 tsp ground cardamom", "1/2 cup milk"]),
  ].filter((line) => line !== "");
  return [
    `Dough ${number}`, "", ...lines, "",
    `Knead for ${pick([6, 8, 12])} minutes.`,
    pick(["Leave to rise for 1 hour until doubled.", "Leave to rise until doubled.", "Prove for 90 minutes."]),
    buns === 1 ? "Shape into one loaf and prove for 45 minutes." : `Divide into ${buns} and shape into buns. Prove for 40 minutes.`,
    `Bake at ${pick([170, 190, 200, 220])}C for ${buns === 1 ? 35 : 18} minutes.`, "",
  ].join("\n");
}

const kitchens = [
  {},
  { country: "uk", room_celsius: 18, oven: { kind: "fan" } },
  { country: "us", room_celsius: 24, oven: { kind: "gas", offset_celsius: 10 } },
  { room_celsius: 31, oven: { kind: "charcoal_drum" }, altitude_m: 2600, measures: [{ name: "mug", ml: 300 }, { name: "spoon", ml: 15 }] },
  { room_celsius: 14, oven: { kind: "wood" }, humidity_pct: 85 },
  { room_celsius: 27, oven: { kind: "conventional" }, yeast: { kind: "fresh" }, altitude_m: 1500 },
  { room_celsius: 21, oven: { kind: "pot" }, measures: [{ name: "cup", ml: 250 }] },
  { room_celsius: 36, oven: { kind: "conventional", offset_celsius: -15 }, flour: { protein_pct: 12.5 }, humidity_pct: 30 },
];

function writtenKitchen(kitchen, name) {
  const file = join(folder, `${name}.kitchen.json`);
  writeFileSync(file, JSON.stringify(kitchen));
  return file;
}

/** Documents, so that both sides are given the same figures. */
function readRecipes(texts, name) {
  const files = texts.map((text, i) => {
    const file = join(folder, `${name}-${i}.txt`);
    writeFileSync(file, text);
    return file;
  });
  return native("read", "--json", ...files).map((document, i) => {
    const file = join(folder, `${name}-${i}.json`);
    writeFileSync(file, JSON.stringify(document));
    return { file, document };
  });
}

test("200 recipes in eight kitchens have the program's figures", async () => {
  const { forecast } = await engine();
  let compared = 0;
  for (const [k, kitchen] of kitchens.entries()) {
    const recipes = readRecipes(Array.from({ length: 25 }, (_, i) => recipeText(25 * k + i)), `many-${k}`);
    const theirs = native("forecast", "--json", "--draws", String(draws), "--seed", String(seed),
      "--kitchen", writtenKitchen(kitchen, `many-${k}`), ...recipes.map(({ file }) => file));
    assert.equal(theirs.length, recipes.length);
    recipes.forEach(({ document }, i) => {
      const ours = forecast({ recipe: document, kitchen });
      assert.equal(ours.problem, undefined, document.title);
      assert.ok(ours.bake?.minutes_to_done?.p50 > 0, `${document.title} was not baked`);
      assertClose(ours, theirs[i], `kitchen ${k}, ${document.title}`);
      ++compared;
    });
  }
  assert.equal(compared, 200);
});

const cardOf = (html) => JSON.parse(/<script type="application\/json" id="card">(.*?)<\/script>/s.exec(html)[1]);

test("with the rows that a card brings the recipe is carried as the program carries it", async () => {
  const texts = [readFileSync(pamphlet, "utf8"), ...Array.from({ length: 7 }, (_, i) => recipeText(300 + i))];
  const recipes = readRecipes(texts, "card");
  for (const [i, { file, document }] of recipes.entries()) {
    const out = join(folder, "card.html");
    native("hand-on", file, "--living", "--out", out, "--json");
    const card = cardOf(readFileSync(out, "utf8"));
    assert.deepEqual(card.recipe, document);
    const kitchen = kitchens[i % kitchens.length];
    const { carry } = await engine(card.tables);
    const ours = carry({ recipe: card.recipe, kitchen, home: card.home, language: "en-GB" });
    const [theirs] = native("hand-on", file, "--to", writtenKitchen(kitchen, "to"), "--language", "en-GB",
      "--draws", String(draws), "--seed", String(seed), "--json");
    assert.ok(theirs.differences.length > 0, "the program compares with home");
    delete theirs.differences; // a card shows its own kitchen alone
    delete ours.differences;
    assertClose(ours, theirs, `${document.title} carried`);
  }
});

test("the day is the program's, parts side by side", async () => {
  const [{ file, document }] = readRecipes([readFileSync(pamphlet, "utf8")], "day");
  // A kitchen in which no dough waits for the oven: see below.
  const kitchen = kitchens[1];
  const { forecast, day } = await engine();
  assert.match(day(0).problem, /No forecast/);
  forecast({ recipe: document, kitchen });
  const now = "2026-05-01T09:00";
  const ours = day(Date.parse(`${now}Z`) / 60_000);
  const [theirs] = native("plan", file, "--now", now, "--kitchen", writtenKitchen(kitchen, "day"),
    "--draws", String(draws), "--seed", String(seed), "--json");
  theirs.alternatives = []; // each would need a forecast of its own
  // The program follows a waiting dough through a night; the card as far as its own rise, so that it
  // may not see that what waits long grows too far.
  for (const step of [...ours.steps, ...theirs.steps]) {
    delete step.grown;
    step.note = step.note?.replace(/grows to ×[\d.]+/, "grows");
  }
  assertClose(ours, theirs, "the day");
  const busy = (key) => ours.steps.filter((step) => step[key] && step.start && step.end)
    .map(({ start, end, name }) => ({ start, end, name })).sort((a, b) => (a.start < b.start ? -1 : 1));
  for (const key of ["hands", "oven"]) {
    busy(key).forEach((step, i, all) => assert.ok(i === 0 || all[i - 1].end <= step.start,
      `${key}: ${step.name} begins at ${step.start}, before ${all[i - 1]?.name} ends at ${all[i - 1]?.end}`));
  }
  const side = ours.steps.some((one) => ours.steps.some((other) =>
    one.hands && !other.hands && one.start < other.end && other.start < one.end));
  assert.ok(side, "the filling is made while the dough rises");
});

test("what is seen moves the forecast as it moves the program's", async () => {
  // Sixteen draws are too few to be weighed by anything.
  const enough = 64;
  const [{ file, document }] = readRecipes([recipeText(7)], "seen");
  const kitchen = kitchens[1];
  const { note, seen, forecast } = await engine();
  const theirs = (words) => native("forecast", "--json", file, "--kitchen", writtenKitchen(kitchen, "seen"),
    "--draws", String(enough), "--seed", String(seed), "--seen", words)[0];
  const words = "first prove doubled at 140 min";
  const { observations, unread } = note(words);
  assert.deepEqual(unread, []);
  const ours = seen({ recipe: document, kitchen, observations }, enough);
  const before = forecast({ recipe: document, kitchen }, enough);
  assert.notDeepEqual(ours.proves[0].minutes_to_target, before.proves[0].minutes_to_target);
  assertClose(ours, theirs(words), "seen");
  // What needs no longer run is weighed on the draws of the forecast before it, and those alone.
  const sticky = note("sticky");
  const felt = seen({ recipe: document, kitchen, observations: sticky.observations }, enough);
  assert.notDeepEqual(felt.dough.effective_hydration, before.dough.effective_hydration);
  assertClose(felt, theirs("sticky"), "felt");
  const warmer = { ...kitchen, room_celsius: 33 };
  const elsewhere = seen({ recipe: document, kitchen: warmer, observations: [] }, enough);
  assert.notDeepEqual(elsewhere.proves[0].minutes_to_target, before.proves[0].minutes_to_target);
});

test("what a card saves keeps to baked.schema.json and is read by the program", async () => {
  // esbuild belongs to the page; the module is the one inside the card.
  const esbuild = createRequire(join(root, "web/package.json"))("esbuild");
  const bundle = join(folder, "trial_file.mjs");
  await esbuild.build({ entryPoints: [join(root, "web/src/card/trial_file.ts")], outfile: bundle, bundle: true, format: "esm", logLevel: "silent" });
  const { bakedFile, bakedCode } = await import(pathToFileURL(bundle));
  const ajv = new Ajv2020({ strict: false, allErrors: true });
  for (const name of ["recipe", "kitchen"]) {
    ajv.addSchema(JSON.parse(readFileSync(join(root, `docs/schema/${name}.schema.json`), "utf8")), `${name}.schema.json`);
  }
  const valid = ajv.compile(JSON.parse(readFileSync(join(root, "docs/schema/baked.schema.json"), "utf8")));
  const [{ document }] = readRecipes([readFileSync(pamphlet, "utf8")], "baked");
  const at = Date.parse("2026-05-01T09:00:00Z");
  const bake = {
    key: "0123456789abcdef01234567", started_at_ms: at, kitchen: kitchens[3],
    entries: [
      { key: "a1", at_ms: at, is: "begun", step: 1 },
      { key: "a2", at_ms: at + 60_000, is: "note", step: 3, text: "first prove doubled at 31 min" },
      { key: "a3", at_ms: at + 70_000, is: "note", step: null, text: attacks[0] },
      { key: "a4", at_ms: at + 80_000, is: "taken_back", note: "a3" },
      { key: "a5", at_ms: at + 90_000, is: "done", step: 1 },
    ],
  };
  const id = "0".repeat(64);
  const whole = bakedFile(bake, document.title, id, document);
  const code = JSON.parse(bakedCode(bake, document.title, id));
  assert.ok(valid(whole), ajv.errorsText(valid.errors));
  assert.ok(valid(code), ajv.errorsText(valid.errors));
  assert.ok(!valid({ ...whole, maslin_baked: 2 }) && !valid({ ...whole, entries: [{ is: "sung", at_ms: 1 }] }) &&
    !valid({ ...code, recipe_id: undefined }), "the schema must refuse what is no bake");
  const file = join(folder, "bake.json");
  writeFileSync(file, JSON.stringify(whole));
  const [trial] = native("trial", "import", file, "--store", join(folder, "store.sqlite"), "--json");
  assert.equal(trial.added, 3, "two marks and a note; what was taken back in the card never comes");
  assert.equal(trial.notes.filter((note) => !note.corrected && note.observations.length > 0).length, 1);
});

test("hostile text is text, and no question stops the engine", async () => {
  const here = await engine();
  const [{ document }] = readRecipes([recipeText(3)], "hostile");
  const whole = JSON.stringify({ recipe: document, kitchen: kitchens[3], home: {}, language: "en-GB", observations: [] });
  const odd = [
    "", "null", "[]", "{", "\u0000", "{\"recipe\":7}", "{\"recipe\":{\"parts\":7}}", "{\"recipe\":{}}", "[".repeat(100_000),
    new Uint8Array([0xff, 0xfe, 0xc0, 0x80, 0x22]), ...attacks,
    ...[0.1, 0.5, 0.9, 0.99].map((share) => whole.slice(0, Math.floor(whole.length * share))),
    JSON.stringify({ recipe: document, kitchen: { room_celsius: 1e308, oven: { kind: "moon" } } }),
  ];
  const calls = [
    () => here.face.maslin_card_carry(8, 1), () => here.face.maslin_card_begin(8, 1), () => here.face.maslin_card_seen(8, 1),
  ];
  for (const text of odd) {
    for (const call of calls) {
      const { problem } = here.ask(text, call);
      assert.ok(typeof problem === "string" && /^["\p{L}].*[.?]$/su.test(problem), `a sentence for ${String(text).slice(0, 40)}: ${problem}`);
    }
    assert.ok(Array.isArray(here.ask(text, () => here.face.maslin_card_note()).observations));
  }
  const late = here.seen({ recipe: document, observations: [{ kind: "volume_ratio", value: 1e300, at_minutes: 1e300 }, { kind: "moon" }, 7] });
  assert.ok(late.problem === undefined && late.proves.length > 0, "an absurd observation is outweighed");
  const dressed = structuredClone(document);
  dressed.title = attacks[1];
  dressed.parts.forEach((part) => {
    part.lines.forEach((line, i) => Object.assign(line, { text: attacks[i % attacks.length], note: attacks[0] }));
    (part.steps ?? []).forEach((step) => Object.assign(step, { text: attacks[2] }));
  });
  const carried = here.carry({ recipe: dressed, kitchen: kitchens[3], language: "de" });
  assert.equal(carried.title, attacks[1]);
  assert.equal(carried.parts[0].lines[0].note, attacks[0]);
  // Tables of nonsense make a pantry without food, and the right ones put it right again.
  here.ask(JSON.stringify({ ingredients: 7, flours: "x\ty\n\t\t", densities: "\u0000" }), () => here.face.maslin_card_tables());
  assert.ok(here.forecast({ recipe: document }).problem);
  here.ask(JSON.stringify(wholePantry), () => here.face.maslin_card_tables());
  assert.equal(here.forecast({ recipe: document }).problem, undefined);
});
