// What the program prints keeps to the published schemas, for the found recipes
// of the reading tests and the demo.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const found = join(root, "tests/reading/found");
const texts = readdirSync(found).filter((name) => name.endsWith(".txt")).map((name) => join(found, name));
const files = [join(root, "data/demo/pamphlet.txt"), ...texts];
// A program for each forecast: the usual check takes every twentieth text, ./check --all all of them.
const forecast_of = process.env.MASLIN_ALL_CASES ? files : [files[0], ...texts.filter((_, i) => i % 20 === 0)];

const ajv = new Ajv2020({ strict: false, allErrors: true });
const schema = (name) => ajv.compile(JSON.parse(readFileSync(join(root, `docs/schema/${name}.schema.json`), "utf8")));

function documents(...args) {
  const out = execFileSync(program, args, { encoding: "utf8", maxBuffer: 1 << 28 });
  return out.trimEnd().split("\n").map((line) => JSON.parse(line));
}

test("read documents keep to recipe.schema.json", () => {
  const valid = schema("recipe");
  const all = documents("read", "--json", ...files);
  assert.equal(all.length, files.length, "one document a file, a line each");
  all.forEach((document, i) => assert.ok(valid(document), `${files[i]}: ${ajv.errorsText(valid.errors)}`));
});

test("forecast documents keep to forecast.schema.json", () => {
  const valid = schema("forecast");
  for (const file of forecast_of) {
    // Some found texts hold nothing that can be weighed: those are answered with a sentence.
    try {
      const [document] = documents("forecast", "--json", "--draws", "16", file);
      assert.ok(valid(document), `${file}: ${ajv.errorsText(valid.errors)}`);
    } catch (error) {
      if (error.status === undefined) throw error;
      assert.equal(error.status, 1, file);
      assert.match(error.stderr.toString(), /\.\n$/, `${file}: one sentence`);
    }
  }
});

test("the demo kitchens keep to kitchen.schema.json", () => {
  const valid = schema("kitchen");
  for (const name of ["flat", "friend"]) {
    const text = readFileSync(join(root, `data/demo/${name}.kitchen.json`), "utf8");
    assert.ok(valid(JSON.parse(text)), ajv.errorsText(valid.errors));
  }
});
