// Labels keep to their schema for the demo and every found recipe that can be labelled, under every
// set of rules; what cannot be labelled is answered with one sentence.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const found = join(root, "tests/reading/found");
const files = [
  join(root, "data/demo/pamphlet.txt"),
  ...readdirSync(found).filter((name) => name.endsWith(".txt")).slice(0, 30).map((name) => join(found, name)),
];
const ajv = new Ajv2020({ strict: false, allErrors: true });
const valid = ajv.compile(JSON.parse(readFileSync(join(root, "docs/schema/label.schema.json"), "utf8")));

// The usual check labels each recipe by one of the rules, ./check --all by all of them.
const all = ["eu", "uk", "us", "codex"];
for (const [k, rules] of all.entries()) {
  test(`labels by ${rules} rules keep to label.schema.json`, () => {
    let labelled = 0;
    const of_these = process.env.MASLIN_ALL_CASES ? files : files.filter((_, i) => i % all.length === k);
    for (const file of of_these) {
      const run = spawnSync(program, ["label", "--json", "--draws", "8", "--rules", rules, file], { encoding: "utf8" });
      if (run.status === 0) {
        labelled += 1;
        const label = JSON.parse(run.stdout);
        assert.ok(valid(label), `${file}: ${ajv.errorsText(valid.errors)}`);
        assert.ok(label.notes.some((note) => note.includes("Local codes")), file);
      } else {
        assert.equal(run.status, 1, file);
        assert.match(run.stderr, /\.\n$/, `${file}: one sentence`);
      }
    }
    assert.ok(labelled > of_these.length / 2, `${labelled} of ${of_these.length} labelled`);
  });
}

test("rules that are none are refused with a sentence", () => {
  const run = spawnSync(program, ["label", "--rules", "mars", files[0]], { encoding: "utf8" });
  assert.equal(run.status, 1);
  assert.match(run.stderr, /use eu, uk, us or codex/);
});
