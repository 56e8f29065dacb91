// Labels and costs over HTTP are the terminal's, and keep to their schemas.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const pamphlet = join(root, "data/demo/pamphlet.txt");
const text = readFileSync(pamphlet, "utf8");
const ajv = new Ajv2020({ strict: false, allErrors: true });
const schema = (name) => ajv.compile(JSON.parse(readFileSync(join(root, `docs/schema/${name}.schema.json`), "utf8")));

let server;
let address;
before(async () => {
  server = spawn(program, ["serve", "--port", "0"]);
  address = await new Promise((found, failed) => {
    let said = "";
    server.stdout.on("data", (more) => {
      said += more;
      const at = said.match(/http:\/\/[\w.:]+/);
      if (at) found(at[0]);
    });
    server.on("exit", () => failed(new Error("the server ended")));
  });
});
after(() => server.kill());

async function ask(name, body) {
  const answer = await fetch(`${address}/api/v1/${name}`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body),
  });
  return { status: answer.status, document: await answer.json() };
}

test("a label is the terminal's", async () => {
  const { status, document } = await ask("label", { text, rules: "us", seed: 1, draws: 64 });
  assert.equal(status, 200);
  const valid = schema("label");
  assert.ok(valid(document), ajv.errorsText(valid.errors));
  const here = JSON.parse(execFileSync(program, ["label", "--json", "--rules", "us", "--draws", "64", pamphlet], { encoding: "utf8" }));
  assert.deepEqual(document, here);
  assert.equal((await ask("label", { text, rules: "mars" })).status, 422);
  assert.equal((await ask("label", { rules: "eu" })).status, 400);
});

test("a cost keeps to its schema, with prices and without", async () => {
  const valid = schema("cost");
  const prices = { packs: [{ item: "strong white flour", amount: 1.5, unit: "kg", price: 1.8 }] };
  for (const more of [{}, { prices, loads: 2 }]) {
    const { status, document } = await ask("cost", { text, draws: 64, ...more });
    assert.equal(status, 200);
    assert.ok(valid(document), ajv.errorsText(valid.errors));
    assert.equal(document.batch === null, more.prices === undefined);
  }
  assert.equal((await ask("cost", { text, prices: { packs: [{ item: "x" }] } })).status, 422);
});
