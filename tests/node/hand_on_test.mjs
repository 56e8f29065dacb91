// Cards keep to their schema for the demo and found recipes in unequal kitchens and every language;
// what cannot be carried is answered with one sentence; a hostile recipe stays text on the page.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const demo = join(root, "data/demo/pamphlet.txt");
const friend = join(root, "data/demo/friend.kitchen.json");
const folder = mkdtempSync(join(tmpdir(), "maslin-hand-on-"));
const found = join(root, "tests/reading/found");
const recipes = [demo, ...readdirSync(found).filter((name) => name.endsWith(".txt")).slice(0, process.env.MASLIN_ALL_CASES ? 20 : 10).map((name) => join(found, name))];
const ajv = new Ajv2020({ strict: false, allErrors: true });
const schema = JSON.parse(readFileSync(join(root, "docs/schema/hand_on.schema.json"), "utf8"));
const valid = ajv.compile(schema);

const kitchen = (name, document) => {
  const file = join(folder, `${name}.json`);
  writeFileSync(file, JSON.stringify(document));
  return file;
};
const kitchens = [
  friend,
  kitchen("jar", { room_celsius: 36, fridge: false, oven: { kind: "pot" }, measures: [{ name: "jar", ml: 370 }, { name: "spoon", ml: 9 }] }),
  kitchen("empty", {}),
  kitchen("pan", { oven: { kind: "none" }, equipment: ["steamer"], at_hand: ["plain flour", "lard", "sugar", "salt", "milk powder"] }),
];
const handOn = (...words) => spawnSync(program, ["hand-on", "--draws", "8", ...words], { encoding: "utf8" });

for (const to of kitchens) {
  test(`cards for ${to.split("/").pop()} keep to hand_on.schema.json`, () => {
    let carried = 0;
    for (const file of recipes) {
      const run = handOn("--json", "--to", to, file);
      if (run.status === 0) {
        carried += 1;
        assert.ok(valid(JSON.parse(run.stdout)), `${file}: ${ajv.errorsText(valid.errors)}`);
      } else {
        assert.equal(run.status, 1, `${file}: ${run.stderr}`);
        assert.match(run.stderr, /\.\n$/, `${file}: one sentence`);
      }
    }
    assert.ok(carried > recipes.length / 2, `${carried} of ${recipes.length} carried`);
  });
}

test("a card in every language names the flour in it and holds no unfilled place", () => {
  const flour = { "en-GB": "strong white flour", "en-US": "bread flour", es: "harina de fuerza", fr: "farine de gruau", de: "Weizenmehl backstark", tr: "ekmeklik un", it: "farina di forza" };
  const table = readFileSync(join(root, "data/words/languages.tsv"), "utf8").split("\n");
  const tags = table.filter((line) => line !== "" && !line.startsWith("#")).slice(1).map((line) => line.split("\t")[0]);
  assert.deepEqual(Object.keys(flour), tags);
  // What asks for a language, and what tells it, names the same ones.
  assert.deepEqual(schema.properties.language.enum, tags);
  const api = readFileSync(join(root, "docs/schema/openapi.json"), "utf8");
  assert.deepEqual(JSON.parse(/"language":\s*\{\s*"enum":\s*(\[[^\]]*\])/.exec(api)[1]), tags);
  for (const [language, name] of Object.entries(flour)) {
    for (const as of ["text", "html"]) {
      const run = handOn("--to", friend, "--as", as, "--language", language, demo);
      assert.equal(run.status, 0, run.stderr);
      assert.ok(run.stdout.includes(name), `${language} ${as}`);
      assert.doesNotMatch(run.stdout.replace(/<style>[^]*<\/style>/, ""), /\{\d\}|note_|why_|unit_|step_/, `${language} ${as}`);
    }
  }
});

test("a text card, carried with a scale, reads back to the same weights", () => {
  const scale = kitchen("scale", { measures: ["scale"] });
  const card = JSON.parse(handOn("--json", "--to", scale, demo).stdout);
  const text = handOn("--to", scale, demo).stdout;
  const read = JSON.parse(spawnSync(program, ["read", "--json", "-"], { encoding: "utf8", input: text }).stdout);
  assert.equal(read.parts.length, card.recipe.parts.length);
  read.parts.forEach((part, p) => {
    assert.equal(part.kind, card.recipe.parts[p].kind);
    part.lines.forEach((line, i) => {
      const was = card.recipe.parts[p].lines[i];
      assert.equal(line.id, was.id);
      assert.ok(Math.abs(line.grams.p50 - was.grams.p50) <= 0.005 * was.grams.p50 + 0.005, line.text);
    });
    assert.deepEqual(part.steps.map((step) => step.kind), card.recipe.parts[p].steps.map((step) => step.kind));
  });
});

test("a hostile recipe and kitchen stay text on the page", () => {
  const document = JSON.parse(spawnSync(program, ["read", "--json", demo], { encoding: "utf8" }).stdout);
  document.title = "<script>alert(1)</script> buns & \u0007bells";
  document.found_at = "javascript:alert(1)\"><img src=x onerror=alert(1)>";
  document.parts[0].name = "</h3><script>alert(1)</script>";
  document.parts[0].lines[0].note = "<img src=x onerror=alert(1)>";
  document.parts[0].lines[1].ingredient = "\"><svg onload=alert(1)>";
  document.parts[0].lines[1].id = "";
  document.parts[0].steps[0].text = "<b>Mix</b> '\"{1}";
  const hostile = join(folder, "hostile.json");
  writeFileSync(hostile, JSON.stringify(document));
  const to = kitchen("hostile-kitchen", { name: "</style><script>x", measures: [{ name: "<b>cup</b>\u0000", ml: 200 }, { name: "a&b spoon", ml: 10 }] });
  const run = handOn("--to", to, "--as", "html", hostile);
  assert.equal(run.status, 0, run.stderr);
  const page = run.stdout;
  assert.ok(page.startsWith("<!doctype html>"));
  assert.doesNotMatch(page, /<script|<img|<svg|<b>cup|<b>Mix|\u0007|\u0000/);
  assert.equal(page.match(/<style>/g).length, 1);
  assert.match(page, /default-src 'none'/);
});

test("what cannot be done is said in one sentence", () => {
  const empty = join(folder, "empty.txt");
  writeFileSync(empty, "Only words here, and nothing to weigh.\n");
  for (const [words, says] of [
    [["--to", friend, "--as", "papyrus", demo], /use one of .*text/],
    [["--to", friend, "--language", "tlh", demo], /use en-GB/],
    [["--to", join(folder, "nowhere.json"), demo], /nowhere/],
    [["--to", friend, empty], /ingredient/],
  ]) {
    const run = handOn(...words);
    assert.equal(run.status, 1, run.stderr);
    assert.match(run.stderr, says);
    assert.equal(run.stderr.trim().split("\n").length, 1);
  }
  assert.equal(handOn(demo).status, 2);
});
