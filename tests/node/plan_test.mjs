// Plans keep to their schema for found recipes, to the clock, and their calendar is
// read by a calendar library as it was meant.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import Ajv2020 from "ajv/dist/2020.js";
import ICAL from "ical.js";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const found = join(root, "tests/reading/found");
const pamphlet = join(root, "data/demo/pamphlet.txt");
// The usual check plans every eightieth of the found recipes, ./check --all every eighth.
const every = process.env.MASLIN_ALL_CASES ? 8 : 80;
const wanted = "2026-05-01T16:00";

const ajv = new Ajv2020({ strict: false, allErrors: true });
const read = (name) => JSON.parse(readFileSync(join(root, `docs/schema/${name}.schema.json`), "utf8"));
ajv.addSchema(read("recipe"), "recipe.schema.json");
const valid = ajv.compile(read("plan"));

function plan(...args) {
  return spawnSync(program, ["plan", "--draws", "64", ...args], { encoding: "utf8", maxBuffer: 1 << 28 });
}
function day(...args) {
  const run = plan("--json", ...args);
  assert.equal(run.status, 0, run.stderr);
  return JSON.parse(run.stdout);
}

function assertOneAtATime(document, takes) {
  let free = "";
  for (const step of document.steps.filter((one) => one[takes])) {
    assert.ok(step.start >= free, `${document.title}: ${step.name} overlaps in its ${takes}`);
    free = step.end;
  }
}

test("plans of found recipes keep to plan.schema.json, one thing at a time", () => {
  const files = readdirSync(found).filter((name) => name.endsWith(".txt")).filter((_, i) => i % every === 0);
  for (const name of files) {
    const run = plan("--json", "--ready-at", wanted, join(found, name));
    if (run.status !== 0) {
      assert.equal(run.status, 1, name);
      assert.match(run.stderr, /\.\n$/, `${name}: one sentence`);
      continue;
    }
    const document = JSON.parse(run.stdout);
    assert.ok(valid(document), `${name}: ${ajv.errorsText(valid.errors)}`);
    assertOneAtATime(document, "hands");
    assertOneAtATime(document, "oven");
    const end = new Map(document.steps.map((step) => [step.name, step.end]));
    for (const step of document.steps) {
      for (const before of step.after) assert.ok(end.get(before) <= step.start, `${name}: ${step.name}`);
    }
  }
});

test("a day is ready at the wanted hour, or says the nearest", () => {
  const easy = day("--ready-at", wanted, pamphlet);
  assert.ok(easy.met);
  assert.ok(easy.steps.every((step) => step.end <= wanted));
  assert.ok(easy.chance_in_time >= 0.9);
  assert.ok(easy.alternatives.length >= 3);
  const tight = day("--ready-at", wanted, "--now", "2026-05-01T14:30", pamphlet);
  assert.ok(!tight.met && tight.nearest > wanted && tight.chance_in_time < 0.1);
  assert.ok(tight.steps.every((step) => step.start >= "2026-05-01T14:30"));
  const forwards = day("--now", "2026-05-01T09:00", pamphlet);
  assert.equal(forwards.wanted_at, null);
  assert.ok(forwards.met && forwards.begin === "2026-05-01T09:00");
});

test("what is done moves what is to come", () => {
  const at = ["--ready-at", wanted, "--now", "2026-05-01T13:30"];
  const before = day("--ready-at", wanted, pamphlet);
  const names = before.steps.map((step) => step.name);
  const done = ["weigh and mix the dough=11:00/11:10", "knead=11:10/11:20", "make the filling=11:30/12:00",
    "filling cools=12:00/12:40", "first prove=11:20/13:20"];
  done.forEach((one) => assert.ok(names.includes(one.split("=")[0]), one));
  const now = day(...at, ...done.flatMap((one) => ["--done", one]), pamphlet);
  assert.equal(now.steps.find((step) => step.name === "first prove").state, "done");
  assert.ok(now.steps.filter((step) => step.state === "to_do").every((step) => step.start >= "2026-05-01T13:30"));
  assert.ok(!now.alternatives.some((one) => /yeast/.test(one.name)), "the yeast is in the dough");
});

test("bad hours and steps get one clear sentence", () => {
  for (const args of [["--ready-at", "teatime"], ["--ready-at", "2026-02-30T10:00"],
    ["--ready-at", "2026-05-01T16:00+02:00"], ["--ready-at", wanted, "--done", "knead"],
    ["--ready-at", wanted, "--now", wanted, "--done", "dance=10:00/"]]) {
    const run = plan(...args, pamphlet);
    assert.equal(run.status, 1, args.join(" "));
    assert.match(run.stderr, /\.\n$/, args.join(" "));
    assert.equal(run.stderr.trim().split("\n").length, 1);
  }
  assert.equal(plan("--ready-at", wanted, "--chance", "2", pamphlet).status, 2);
});

test("a forecast says what the rise would do otherwise", () => {
  const run = spawnSync(program, ["forecast", "--json", "--draws", "64", "--rise-in", "150", pamphlet], { encoding: "utf8" });
  const document = JSON.parse(run.stdout);
  const forecast = new Ajv2020({ strict: false, allErrors: true }).compile(read("forecast"));
  assert.ok(forecast(document), JSON.stringify(forecast.errors));
  const one = (what) => document.what_if.others.find((other) => other.what.includes(what));
  assert.ok(one("half the yeast").rise_minutes.p50 > document.what_if.as_it_is.rise_minutes.p50);
  assert.ok(one("16 °C").rise_minutes.p50 > one("24 °C").rise_minutes.p50);
  assert.ok(one("16 °C").same_time_yeast_grams > one("24 °C").same_time_yeast_grams);
  assert.ok(Math.abs(one("by the yeast").rise_minutes.p50 - 150) < 20);
});

test("the calendar is RFC 5545 and says what the plan says", () => {
  const text = plan("--ready-at", wanted, "--as", "ics", pamphlet).stdout;
  for (const line of text.split("\r\n")) assert.ok(Buffer.byteLength(line) <= 75, line);
  assert.ok(!text.replaceAll("\r\n", "").includes("\n"), "lines end with CR LF");
  const calendar = new ICAL.Component(ICAL.parse(text));
  const events = calendar.getAllSubcomponents("vevent").map((one) => new ICAL.Event(one));
  const document = day("--ready-at", wanted, pamphlet);
  assert.equal(events.length, document.steps.length);
  assert.equal(new Set(events.map((one) => one.uid)).size, events.length);
  document.steps.forEach((step, i) => {
    assert.equal(events[i].summary, `${document.title}: ${step.name}`);
    assert.equal(events[i].startDate.toString(), `${step.start}:00`);
    assert.ok(events[i].startDate.zone.tzid === "floating");
    assert.equal(events[i].component.getAllSubcomponents("valarm").length, step.hands ? 1 : 0);
  });
});
