// Pictures of a trial over HTTP: kept without what the camera wrote into them, once however often
// they are sent, given back as they are kept, and refused with the right status.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const plain = readFileSync(join(root, "tests/store/pictures/bun.jpg"));
const ajv = new Ajv2020({ strict: false, allErrors: true });
ajv.addSchema(JSON.parse(readFileSync(join(root, "docs/schema/trial.schema.json"), "utf8")), "trial");

// An APP1 segment as a phone writes it, with a place in it (EXIF 2.3, section 4.5.4).
const place = Buffer.from("Exif\0\0II*\0\x08\0\0\0\0\0\0\0\0\0GPS 51.5N 0.1W");
const head = Buffer.from([0xff, 0xe1, 0, place.length + 2]);
const fromPhone = Buffer.concat([plain.subarray(0, 2), head, place, plain.subarray(2)]);

const folder = mkdtempSync(join(tmpdir(), "maslin-pictures-"));
const store = join(folder, "store.sqlite");
let server;
let address;
before(async () => {
  execFileSync(program, ["trial", "start", join(root, "data/demo/pamphlet.txt"), "--store", store]);
  server = spawn(program, ["serve", "--port", "0", "--store", store]);
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
after(() => {
  server.kill();
  rmSync(folder, { recursive: true });
});

const send = (body, { type = "image/jpeg", query = "", trial = 1, headers = {} } = {}) =>
  fetch(`${address}/api/v1/trials/${trial}/pictures${query}`, { method: "POST", headers: { "Content-Type": type, ...headers }, body });

test("a picture is kept without its place, and given back", async () => {
  const answer = await send(fromPhone, { query: "?text=crust%20%23a0622d&key=k1&at=2026-05-01T10:00:00.500Z" });
  assert.equal(answer.status, 200);
  const note = await answer.json();
  assert.ok(ajv.validate("trial#/$defs/written_note", note), ajv.errorsText());
  assert.equal(note.at, "2026-05-01T10:00:00.500Z");
  assert.deepEqual(note.read_as, ["crust lightness 48 L*"]);
  assert.equal(note.pictures.length, 1);
  const given = await fetch(`${address}/api/v1/pictures/${note.pictures[0]}`);
  assert.equal(given.status, 200);
  assert.equal(given.headers.get("content-type"), "image/jpeg");
  assert.equal(given.headers.get("x-content-type-options"), "nosniff");
  assert.match(given.headers.get("cache-control"), /private.*immutable/);
  const bytes = Buffer.from(await given.arrayBuffer());
  assert.ok(!bytes.includes("GPS") && !bytes.includes("Exif"), "the place must be gone");
  assert.ok(bytes.length > 500 && bytes.subarray(-2).equals(Buffer.from([0xff, 0xd9])));
  // The terminal keeps the same picture under the same id.
  const same = JSON.parse(execFileSync(program, ["trial", "note", "1", "again", "--no-forecast", "--json", "--store", store,
    "--picture", join(root, "tests/store/pictures/bun.jpg")], { encoding: "utf8" }));
  assert.equal(same.pictures[0], note.pictures[0]);
});

test("the same key is kept once, however often it is sent", async () => {
  const [first, second] = [await (await send(plain, { query: "?key=twice" })).json(), await (await send(plain, { query: "?key=twice" })).json()];
  assert.equal(first.note, second.note);
});

test("what is no picture, too large or not for this trial is refused", async () => {
  assert.equal((await send("hello")).status, 422);
  assert.equal((await send(fromPhone.subarray(0, 300))).status, 422);
  for (const type of ["text/html", "image/svg+xml", "application/json", "image/jpeg; charset=utf-8"]) {
    assert.equal((await send(plain, { type })).status, 415, type);
  }
  assert.equal((await send(plain, { trial: 99 })).status, 422);
  assert.equal((await send(plain, { trial: "x" })).status, 404);
  assert.equal((await send(plain, { query: `?key=${"k".repeat(101)}` })).status, 400);
  assert.equal((await send(plain, { query: "?at=noon" })).status, 422);
  assert.equal((await send(Buffer.alloc(4 * 1024 * 1024 + 1))).status, 413);
  assert.equal((await send(plain, { headers: { Origin: "http://elsewhere.example" } })).status, 403);
  assert.equal((await send(plain, { headers: { "Sec-Fetch-Site": "cross-site" } })).status, 403);
  for (const id of ["0".repeat(64), "abc", "../../etc/passwd", `${"0".repeat(63)}g`]) {
    assert.equal((await fetch(`${address}/api/v1/pictures/${encodeURIComponent(id)}`)).status, 404, id);
  }
});

test("another name for this machine is refused", async () => {
  const { hostname, port } = new URL(address);
  const status = await new Promise((done, failed) => {
    request({ hostname, port, path: `/api/v1/pictures/${"0".repeat(64)}`, headers: { Host: "rebound.example" } }, (answer) => {
      answer.resume();
      done(answer.statusCode);
    }).on("error", failed).end();
  });
  assert.equal(status, 421);
});
