// JSON-LD of recipes: expanded by a parser that is not ours, every property held to its domain and
// range in schema.org (schema_org_recipe.json), and read back to the same recipe.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import jsonld from "jsonld";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const kitchen = join(root, "data/demo/flat.kitchen.json");
const found = join(root, "tests/reading/found");
const files = [
  join(root, "data/demo/pamphlet.txt"),
  ...readdirSync(found).filter((name) => name.endsWith(".txt")).slice(0, 25).map((name) => join(found, name)),
];
const vocabulary = JSON.parse(readFileSync(join(here, "schema_org_recipe.json"), "utf8")).types;

/** The property as the type or one it inherits from declares it: the types it may take. */
function rangeOf(type, property) {
  const own = vocabulary[type];
  assert.ok(own, `${type} is not in the kept slice of schema.org`);
  if (own.properties[property]) return own.properties[property];
  for (const above of own.inherits) {
    const range = rangeOf(above, property);
    if (range) return range;
  }
  return undefined;
}

function isA(type, wanted) {
  return type === wanted || (vocabulary[type]?.inherits ?? []).some((above) => isA(above, wanted));
}

/** Text types of schema.org and what a plain string must look like for them. */
const texts = {
  Text: () => true,
  URL: (value) => /^https?:\/\/\S+$/.test(value),
  Duration: (value) => /^PT(\d+H)?(\d+M)?$/.test(value) && value !== "PT",
  Energy: (value) => /^[\d.]+ (kcal|kJ)$/.test(value),
  Mass: (value) => /^(<|less than )?[\d.]+ m?g$/.test(value),
};

function check(node, where) {
  const type = node["@type"];
  assert.equal(typeof type, "string", `${where} has a type`);
  for (const [property, value] of Object.entries(node)) {
    if (property.startsWith("@")) continue;
    const range = rangeOf(type, property);
    assert.ok(range, `${where}: ${type} has no property ${property}`);
    for (const one of Array.isArray(value) ? value : [value]) {
      if (typeof one === "object") {
        check(one, `${where}.${property}`);
        assert.ok(range.some((wanted) => isA(one["@type"], wanted)), `${where}.${property}: ${one["@type"]} is not among ${range}`);
      } else {
        assert.ok(
          range.some((wanted) => texts[wanted]?.(one)),
          `${where}.${property}: "${one}" is not among ${range}`,
        );
      }
    }
  }
}

function document(file) {
  const run = spawnSync(program, ["hand-on", "--to", kitchen, "--draws", "32", "--as", "jsonld", file], { encoding: "utf8", maxBuffer: 1 << 26 });
  if (run.status !== 0) {
    assert.equal(run.status, 1, `${file}: ${run.stderr}`);
    return undefined;
  }
  return run.stdout;
}

test("every property is one of schema.org's, on a type that has it, with a value it may take", () => {
  let checked = 0;
  for (const file of files) {
    const text = document(file);
    if (text === undefined) continue;
    check(JSON.parse(text), file);
    checked += 1;
  }
  assert.ok(checked > files.length / 2, `${checked} of ${files.length} checked`);
});

test("a JSON-LD parser expands it without dropping a property", async () => {
  // schema.org's own context maps every term to its vocabulary; no address is fetched.
  const documentLoader = async (url) => {
    assert.match(url, /^https:\/\/schema\.org\/?$/);
    return { contextUrl: null, documentUrl: url, document: { "@context": { "@vocab": "https://schema.org/" } } };
  };
  const source = JSON.parse(document(files[0]));
  const [recipe] = await jsonld.expand(source, { documentLoader, safe: true });
  assert.deepEqual(recipe["@type"], ["https://schema.org/Recipe"]);
  for (const property of Object.keys(source)) {
    if (!property.startsWith("@")) assert.ok(recipe[`https://schema.org/${property}`], property);
  }
  assert.equal(recipe["https://schema.org/recipeIngredient"].length, source.recipeIngredient.length);
});

test("read back, it is the recipe of the card", () => {
  const args = ["hand-on", "--to", kitchen, "--draws", "32", "--as", "json", files[0]];
  const was = JSON.parse(execFileSync(program, args, { encoding: "utf8" })).recipe;
  const is = JSON.parse(execFileSync(program, ["read", "--json", "-"], { encoding: "utf8", input: document(files[0]) }));
  assert.equal(is.title, was.title);
  assert.equal(is.locale, was.locale);
  const lines = (recipe) => recipe.parts.map((part) => [part.kind, ...part.lines.map((line) => line.id)]);
  assert.deepEqual(lines(is), lines(was));
  was.parts.forEach((part, p) =>
    part.lines.forEach((line, i) => {
      if (line.grams === null) return;
      const off = Math.abs(is.parts[p].lines[i].grams.p50 / line.grams.p50 - 1);
      assert.ok(off < 0.02, `${line.text}: ${line.grams.p50} g became ${is.parts[p].lines[i].grams.p50} g`);
    }),
  );
});
