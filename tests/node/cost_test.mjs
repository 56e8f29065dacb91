// Costs keep to their schema with and without prices, and prices to theirs.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, test } from "node:test";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const pamphlet = join(root, "data/demo/pamphlet.txt");
const folder = mkdtempSync(join(tmpdir(), "maslin-cost-"));
after(() => rmSync(folder, { recursive: true }));

const ajv = new Ajv2020({ strict: false, allErrors: true });
const schema = (name) => ajv.compile(JSON.parse(readFileSync(join(root, `docs/schema/${name}.schema.json`), "utf8")));
const valid = schema("cost");
const validPrices = schema("prices");

function cost(...args) {
  return spawnSync(program, ["cost", "--json", "--draws", "64", ...args, pamphlet], { encoding: "utf8" });
}
function kept(name, text) {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
}

test("without prices: packs, and what is still to be said", () => {
  const run = cost();
  assert.equal(run.status, 0, run.stderr);
  const sheet = JSON.parse(run.stdout);
  assert.ok(valid(sheet), ajv.errorsText(valid.errors));
  assert.equal(sheet.batch, null);
  assert.ok(sheet.lines.every((line) => line.usual_pack && line.cost === null));
  for (const line of sheet.lines) assert.ok(sheet.asks.some((ask) => ask.includes(line.name)), line.name);
});

test("a table and a document of the same prices give the same sums", () => {
  const list = {
    currency: "GBP",
    packs: [
      { item: "strong white flour", amount: 1.5, unit: "kg", price: 1.8 },
      { item: "whole milk", amount: 2, unit: "pint", price: 1.2 },
      { item: "eggs", amount: 6, unit: "piece", price: 1.65 },
    ],
    energy_per_kwh: 0.27,
    oven_kw: 2.2,
  };
  assert.ok(validPrices(list), ajv.errorsText(validPrices.errors));
  const rows = list.packs.map((one) => [one.item, one.amount, one.unit, one.price].join("\t"));
  const table = ["item\tamount\tunit\tprice", ...rows, "currency\tGBP", "energy\t1\tkWh\t0.27", "oven\t2.2\tkW"].join("\n");
  const byDocument = JSON.parse(cost("--prices", kept("prices.json", JSON.stringify(list))).stdout);
  const byTable = JSON.parse(cost("--prices", kept("prices.tsv", table)).stdout);
  assert.ok(valid(byDocument), ajv.errorsText(valid.errors));
  assert.deepEqual(byTable, byDocument);
  assert.ok(byDocument.batch.p10 < byDocument.batch.p90, "cups of flour make a range");
});

test("prices that cannot be are answered with a sentence", () => {
  const run = cost("--prices", kept("bad.tsv", "item\tamount\tunit\tprice\nflour\tmuch\tkg\t1\n"));
  assert.equal(run.status, 1);
  assert.match(run.stderr, /line 2: "flour" has no amount; .*\.\n$/);
  assert.equal(cost("--prices", join(folder, "none.tsv")).status, 1);
});
