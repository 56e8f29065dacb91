// Bad input gets one clear sentence or a doubt, never a fall: the program from outside.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");

function maslin(args, input = "") {
  const run = spawnSync(program, args, { input, encoding: "utf8", maxBuffer: 1 << 28, timeout: 60_000 });
  assert.equal(run.signal, null, `killed by ${run.signal}: ${args}`);
  assert.notEqual(run.status, 3, `the program is at fault: ${run.stderr}`);
  return run;
}

/** Exit status 1 and one sentence on standard error. */
function refuses(args, input, about) {
  const run = maslin(args, input);
  assert.equal(run.status, 1, `${args}: ${run.stdout.slice(0, 200)}${run.stderr}`);
  assert.match(run.stderr.trim(), /^[^\n]+[.!?]$/, `one sentence: ${run.stderr}`);
  assert.match(run.stderr, about);
}

const buns = "Buns\n\n500 g plain flour\n300 ml milk\n7 g instant yeast\n8 g salt\n\nKnead 10 minutes. Bake at 190C for 20 minutes.\n";

test("empty, blank and binary text", () => {
  refuses(["read", "-"], "", /empty|nothing/i);
  refuses(["read", "-"], "  \n\n\t \n", /empty|nothing/i);
  refuses(["read", "-"], Buffer.from(Array.from({ length: 4000 }, (_, i) => (i * 7919) % 256)), /text/i);
  refuses(["forecast", "-"], "", /empty|nothing/i);
});

test("ten megabytes of text", () => {
  refuses(["read", "-"], "500 g flour\n".repeat(900_000), /MB|large|long|bytes/i);
});

test("a file that is not there, and a folder", () => {
  refuses(["read", "/no/such/recipe.txt"], "", /read/);
  refuses(["read", root], "", /read/);
});

test("a recipe with no flour is read with a doubt and forecast with a doubt or a sentence", () => {
  const text = "Punch\n\n1 l water\n200 g sugar\n2 lemons\n";
  const read = maslin(["read", "--json", "-"], text);
  assert.equal(read.status, 0);
  assert.ok(JSON.parse(read.stdout).doubts.some((doubt) => /flour/.test(doubt.why)));
  assert.ok([0, 1].includes(maslin(["forecast", "--json", "--draws", "16", "-"], text).status));
});

test("negative and absurd amounts are doubted, and forecast without falling", () => {
  for (const line of ["-5 g salt", "900 kg salt", "1e30 g salt", "99999999999999999999 cups sugar", "0 g salt", "1/0 cup milk"]) {
    const text = `${buns.replace("8 g salt", line)}`;
    const read = maslin(["read", "--json", "-"], text);
    assert.equal(read.status, 0, line);
    const document = JSON.parse(read.stdout);
    assert.ok(document.doubts.length > 0, `${line}: no doubt`);
    const forecast = maslin(["forecast", "--json", "--draws", "16", "-"], text);
    assert.ok([0, 1].includes(forecast.status), `${line}: ${forecast.stderr}`);
  }
});

test("nothing of the text is lost", () => {
  const text = `${buns}\nzzyzx grumbleflux\n~~~ 3 snorkels of mystery ~~~\n`;
  const document = JSON.parse(maslin(["read", "--json", "-"], text).stdout);
  const kept = JSON.stringify(document);
  for (const word of ["zzyzx", "snorkels", "grumbleflux"]) assert.ok(kept.includes(word), word);
});

test("bad recipe documents and kitchens", () => {
  const folder = mkdtempSync(join(tmpdir(), "maslin-"));
  const kitchen = join(folder, "kitchen.json");
  writeFileSync(kitchen, '{"room_celsius": 400}');
  refuses(["forecast", "--kitchen", kitchen, "-"], buns, /room_celsius/);
  refuses(["forecast", "--room", "warm at night", "-"], buns, /no room/);
  refuses(["forecast", "--begins", "25:00", "-"], buns, /no hour/);
  writeFileSync(kitchen, "not json");
  refuses(["forecast", "--kitchen", kitchen, "-"], buns, /JSON/);
  refuses(["forecast", "-"], '{"parts": []}', /parts/);
  refuses(["forecast", "-"], `{"parts": ${"[".repeat(100_000)}`, /JSON/);
  refuses(["forecast", "-"], '{"parts":[{"kind":"dough","name":"a","lines":[{"part":"a"}]}]}', /ring/);
});

test("wrong usage is status 2", () => {
  assert.equal(maslin(["bake-me-a-cake"]).status, 2);
  assert.equal(maslin(["read"]).status, 2);
  assert.equal(maslin(["forecast", "--draws", "0", "-"], buns).status, 2);
});

test("several files at once give a document a line, and a bad one does not stop the others", () => {
  const folder = mkdtempSync(join(tmpdir(), "maslin-"));
  const good = join(folder, "good.txt");
  const empty = join(folder, "empty.txt");
  writeFileSync(good, buns);
  writeFileSync(empty, "");
  const run = maslin(["read", "--json", good, empty, good]);
  assert.equal(run.status, 1);
  assert.equal(run.stdout.trimEnd().split("\n").length, 2);
});
