// A bake kept from its start to its close, from outside: what the commands print keeps to
// the published schemas and says what was done.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, test } from "node:test";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const pamphlet = join(root, "data/demo/pamphlet.txt");
const flat = join(root, "data/demo/flat.kitchen.json");
const picture = join(root, "tests/store/pictures/bun.jpg");

const folder = mkdtempSync(join(tmpdir(), "maslin-keeping-"));
after(() => rmSync(folder, { recursive: true }));

const ajv = new Ajv2020({ strict: false, allErrors: true });
const schema = (name) => JSON.parse(readFileSync(join(root, `docs/schema/${name}.schema.json`), "utf8"));
ajv.addSchema(schema("recipe"), "recipe.schema.json");
for (const name of ["trial", "keeping", "library", "compare", "next", "plan"]) ajv.addSchema(schema(name), name);

/** Runs a command on a store of this test's own. */
function run(store, args, input = "") {
  return spawnSync(program, [...args, "--store", join(folder, store)], { input, encoding: "utf8", cwd: folder });
}
/** The one document a command prints; held to a part of a schema. */
function answer(store, part, ...args) {
  const done = run(store, [...args, "--json"]);
  assert.equal(done.status, 0, `${args}: ${done.stderr}`);
  const document = JSON.parse(done.stdout);
  assert.ok(ajv.validate(part, document), `${args}: ${ajv.errorsText()}`);
  return document;
}

test("a trial from its start to its close", () => {
  const ask = (part, ...args) => answer("trial", part, ...args);
  ask("keeping#/$defs/kept", "kitchen", "add", flat);
  assert.equal(ask("keeping#/$defs/kitchens", "kitchen", "list").kitchens[0].name, "small flat");

  const started = ask("trial#/$defs/started", "trial", "start", pamphlet, "--kitchen", "small flat", "--at", "2026-05-01T08:00Z");
  assert.equal(started.trial, 1);
  assert.equal(started.kitchen, "small flat");
  assert.equal(started.started_at, "2026-05-01T08:00:00.000Z");

  const note = ask("trial#/$defs/written_note", "trial", "note", "1", "doubled at 48 min");
  assert.deepEqual(note.observations, [{ kind: "volume_ratio", value: 2, at_minutes: 48, text: "doubled at 48 min" }]);

  // Said without a time, it is timed by the clock from the step that is under way.
  const bake = started.checklist.find((step) => step.kind === "bake").step;
  ask("trial#/$defs/marked_step", "trial", "step", "1", String(bake), "begun", "--at", "2026-05-01T10:00Z");
  const done = ask("trial#/$defs/written_note", "trial", "note", "1", "done, a shade dark", "--at", "2026-05-01T10:22:30Z");
  assert.deepEqual(
    done.observations.map((one) => [one.kind, one.value, one.at_minutes, one.step]),
    [["minutes_done", 22.5, 22.5, bake], ["crust", "dark", 22.5, bake]],
  );

  const odd = ask("trial#/$defs/written_note", "trial", "note", "1", "core 205");
  assert.match(odd.questions[0], /205 °F/);
  assert.equal(odd.observations[0].meant, 96.11);
  const mended = ask("trial#/$defs/written_note", "trial", "note", "1", "core 205 F", "--instead-of", String(odd.note), "--picture", picture);
  assert.equal(mended.observations[0].value, 96.11);
  assert.equal(mended.pictures.length, 1);
  assert.deepEqual(ask("trial#/$defs/written_note", "trial", "note", "1", "core 30 C", "--sure").questions, []);

  const shown = ask("trial#/$defs/shown", "trial", "show", "1");
  assert.equal(shown.notes.length, 5);
  assert.deepEqual(shown.notes.map((one) => one.corrected), [false, false, true, false, false]);
  assert.equal(shown.checklist[bake - 1].begun_at, "2026-05-01T10:00:00.000Z");

  const closed = ask("trial#/$defs/closed", "trial", "close", "1");
  assert.equal(closed.observations.filter((one) => one.kind === "core_celsius").length, 2, "the corrected note does not count");
  assert.deepEqual(ask("trial#/$defs/list", "trial", "list", "--open").trials, []);
  ask("trial#/$defs/list", "trial", "reopen", "1");
  assert.equal(ask("trial#/$defs/list", "trial", "list", "--open").trials.length, 1);

  const out = join(folder, "photo.jpg");
  assert.equal(run("trial", ["trial", "picture", mended.pictures[0].slice(0, 10), "--out", out]).status, 0);
  assert.deepEqual(readFileSync(out), readFileSync(picture));
});

test("a recipe's versions, found again", () => {
  const ask = (part, ...args) => answer("library", part, ...args);
  const first = ask("keeping#/$defs/kept", "library", "save", pamphlet, "--name", "knots", "--tag", "bun", "--why", "as found");
  assert.ok(first.changed);
  assert.equal(ask("keeping#/$defs/kept", "library", "save", pamphlet, "--name", "knots").changed, false);
  const recipe = JSON.parse(run("library", ["library", "show", "knots", "--json"]).stdout);
  recipe.parts[0].lines[0].grams = 480;
  const changed = join(folder, "changed.json");
  writeFileSync(changed, JSON.stringify(recipe));
  assert.equal(ask("keeping#/$defs/kept", "library", "save", changed, "--name", "knots", "--why", "drier").place, 2);
  const history = ask("keeping#/$defs/history", "library", "history", "knots");
  assert.deepEqual(history.history.map((entry) => entry.why), ["drier", "as found"]);
  assert.deepEqual(history.history[0].parents, [first.version]);
  assert.deepEqual(ask("keeping#/$defs/recipes", "library", "list", "--tag", "bun").recipes.map((one) => one.name), ["knots"]);
  assert.equal(ask("keeping#/$defs/search", "library", "search", "cardam").recipes[0].name, "knots");
  ask("keeping#/$defs/recipes", "library", "tag", "knots", "sweet");
  ask("keeping#/$defs/check", "library", "check");
  ask("keeping#/$defs/backup", "library", "backup", join(folder, "copy"));
  assert.deepEqual(ask("keeping#/$defs/recipes", "library", "list"), answer("copy", "keeping", "library", "list"));

  // A kept name stands where a file's would.
  const kept = run("library", ["forecast", "knots@1", "--json", "--draws", "16"]);
  const read = run("library", ["read", pamphlet, "--json"]).stdout;
  const file = run("library", ["forecast", "-", "--json", "--draws", "16"], read);
  assert.equal(kept.status, 0, kept.stderr);
  assert.equal(kept.stdout, file.stdout);
});

test("bakes side by side, the next one, and the rest of the day", () => {
  const ask = (part, ...args) => answer("next", part, ...args);
  const buns = (sugar) => `Buns\n\n500 g plain flour\n300 ml milk\n${sugar} g caster sugar\n7 g instant yeast\n8 g salt\n\nKnead 10 minutes. Leave to rise until doubled. Shape into 8 buns. Bake at 190C for 20 minutes.\n`;
  [["20", "crumb 4/9"], ["40", "crumb 6/9, a shade dark"], ["60", "crumb 7/9"]].forEach(([sugar, note], at) => {
    const file = join(folder, `buns_${sugar}.txt`);
    writeFileSync(file, buns(sugar));
    ask("trial#/$defs/started", "trial", "start", file, "--kitchen", flat);
    ask("trial#/$defs/written_note", "trial", "note", String(at + 1), note);
  });
  const bakes = ask("compare", "compare", "1", "3", "--draws", "64");
  assert.deepEqual(bakes.lines.map(({ before, after }) => [before.grams, after.grams]), [[20, 60]]);
  assert.equal(bakes.outcome.find(({ figure }) => figure === "score").noted_after, "7/9");
  const kept = ask("compare", "compare", "Buns@1", "2", "--draws", "64");
  assert.equal(kept.after.trial, 2);

  const next = ask("next", "trial", "next", "Buns", "--limit", "sugar_pct_flour=4..14", "--draws", "64");
  assert.equal(next.scored, 3);
  assert.ok(next.next.changes.every(({ to, low, high }) => low <= to && to <= high), JSON.stringify(next.next.changes));
  assert.notEqual(run("next", ["trial", "next", "Buns", "--limit", "sugar=4"]).status, 0);

  const day = (...args) => ask("plan", "plan", "--trial", "3", "--now", "2026-05-01T10:00", "--done", "first prove=09:00/", "--draws", "128", ...args);
  const before = day();
  ask("trial#/$defs/written_note", "trial", "note", "3", "x1.1 after 60 minutes");
  assert.ok(day().ready > before.ready, `${before.ready} to ${day().ready}`);
  assert.equal(run("next", ["plan"]).status, 2);
});

test("what is written out keeps to its schema and comes back the same", () => {
  const ask = (part, ...args) => answer("trial", part, ...args);
  const one = join(folder, "one");
  const two = join(folder, "two");
  ask("keeping#/$defs/everything", "library", "export", one);
  const library = JSON.parse(readFileSync(join(one, "library.json"), "utf8"));
  assert.ok(ajv.validate("library", library), ajv.errorsText());
  answer("back", "keeping#/$defs/everything", "library", "import", one);
  answer("back", "keeping#/$defs/everything", "library", "export", two);
  assert.deepEqual(readFileSync(join(two, "library.json")), readFileSync(join(one, "library.json")));
  assert.deepEqual(readdirSync(join(two, "pictures")), readdirSync(join(one, "pictures")));
});

test("each line of standard input is a note of its own", () => {
  answer("lines", "trial", "trial", "start", pamphlet);
  const done = run("lines", ["trial", "note", "1", "-", "--json"], "tacky\n\n15 g flour left\n");
  assert.equal(done.status, 0, done.stderr);
  const notes = done.stdout.trimEnd().split("\n").map((line) => JSON.parse(line));
  assert.deepEqual(notes.map((note) => note.text), ["tacky", "15 g flour left"]);
});
