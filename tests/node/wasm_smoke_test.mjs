// The WebAssembly module reads and forecasts the demo as the native program does.
// Paths are taken from the root of the checkout.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const modulePath = join(root, "build/wasm/maslin_module.wasm");
const native = join(root, "build/release/maslin");
const recipePath = join(root, "data/demo/pamphlet.txt");
const kitchenPath = join(root, "data/demo/flat.kitchen.json");

// Every import is refused but the few that a C library needs to start; a call of one
// that was not expected is a failure, not a silent zero.
function imports(module) {
  const wasi = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    assert.equal(from, "wasi_snapshot_preview1", `unexpected import ${from}.${name}`);
    wasi[name] = () => {
      throw new Error(`the computation called ${name}`);
    };
  }
  return { wasi_snapshot_preview1: wasi };
}

async function start() {
  const module = await WebAssembly.compile(readFileSync(modulePath));
  const instance = await WebAssembly.instantiate(module, imports(module));
  instance.exports._initialize();
  return instance.exports;
}

function ask(face, text, call) {
  const bytes = new TextEncoder().encode(text);
  const at = face.maslin_text(bytes.length);
  new Uint8Array(face.memory.buffer, at, bytes.length).set(bytes);
  call();
  const answer = new Uint8Array(face.memory.buffer, face.maslin_answer(), face.maslin_answer_bytes());
  return JSON.parse(new TextDecoder().decode(answer));
}

function nativeAnswer(args, input = "") {
  return JSON.parse(execFileSync(native, args, { input, encoding: "utf8", maxBuffer: 1 << 26 }));
}

function assertClose(ours, theirs, where) {
  if (typeof theirs === "number" && typeof ours === "number") {
    const size = Math.max(Math.abs(ours), Math.abs(theirs), 1e-9);
    assert.ok(Math.abs(ours - theirs) / size < 1e-6, `${where}: ${ours} against ${theirs}`);
  } else if (theirs !== null && typeof theirs === "object") {
    assert.deepEqual(Object.keys(ours), Object.keys(theirs), where);
    for (const key of Object.keys(theirs)) assertClose(ours[key], theirs[key], `${where}.${key}`);
  } else {
    assert.equal(ours, theirs, where);
  }
}

test("the module reads the demo as the program does", async () => {
  const face = await start();
  const ours = ask(face, readFileSync(recipePath, "utf8"), () => face.maslin_read());
  const theirs = nativeAnswer(["read", "--json", recipePath]);
  delete theirs.found_at; // the module is given no file name
  assertClose(ours, theirs, "read");
});

test("the module forecasts the demo with the program's figures", async () => {
  const face = await start();
  const recipe = nativeAnswer(["read", "--json", recipePath]);
  const kitchen = JSON.parse(readFileSync(kitchenPath, "utf8"));
  const ours = ask(face, JSON.stringify({ recipe, kitchen }), () => face.maslin_forecast(64, 1));
  // Both are given the document: its settings are rounded to six figures on the way.
  const theirs = nativeAnswer(
    ["forecast", "--json", "--draws", "64", "--kitchen", kitchenPath, "-"],
    JSON.stringify(recipe),
  );
  assertClose(ours, theirs, "forecast");
});

test("a question without a recipe gets a sentence", async () => {
  const face = await start();
  assert.match(ask(face, "{}", () => face.maslin_forecast(8, 1)).problem, /no recipe/);
});
