// On-screen conversions, read by parsers that are not ours: WebVTT and SRT tracks are well formed,
// in order, and say each amount while it is spoken of.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, test } from "node:test";
import { fileURLToPath } from "node:url";
import { parseSync } from "subtitle";
import webvtt from "webvtt-parser";

const { WebVTTParser } = webvtt;
const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const kitchen = join(root, "data/demo/flat.kitchen.json");
const folder = mkdtempSync(join(tmpdir(), "maslin-clip-"));
after(() => rmSync(folder, { recursive: true }));

// Our own invention: a clip of a swirl loaf.
const said = [
  [2, 6, "hello, today it is the swirl loaf"],
  [6, 11, "in my mixer I have one and a half cups of warm milk"],
  [11, 15, "and I'm adding two and a quarter teaspoons of yeast"],
  [15, 18, "and two tablespoons of sugar"],
  [24, 29, "now one egg, a quarter cup of melted butter, a teaspoon and a half of salt"],
  [29, 34, "and then four cups of bread flour"],
  [70, 74, "let that knead for eight minutes, cover it up, one hour"],
  [180, 186, "bake it at 350 for forty minutes"],
];
const clock = (seconds, mark) => new Date(seconds * 1000).toISOString().slice(11, 23).replace(".", mark);
const vtt = "WEBVTT\n\n" + said.map(([from, to, words]) => `${clock(from, ".")} --> ${clock(to, ".")}\n${words}\n`).join("\n");
const srt = said.map(([from, to, words], i) => `${i + 1}\n${clock(from, ",")} --> ${clock(to, ",")}\n${words}\n`).join("\n");
const clip = join(folder, "clip.vtt");
writeFileSync(clip, vtt);
const clipSrt = join(folder, "clip.srt");
writeFileSync(clipSrt, srt);

function track(form, captions) {
  const run = spawnSync(program, ["hand-on", clip, "--to", kitchen, "--draws", "32", "--as", form, "--captions", captions], { encoding: "utf8" });
  assert.equal(run.status, 0, run.stderr);
  return run.stdout;
}

/** The cue of the clip that says these words. */
const spoken = (words) => said.find(([, , text]) => text.includes(words));

function holds(cues) {
  cues.forEach((cue, i) => {
    assert.ok(cue.start < cue.end, `cue ${i} ends after it starts`);
    if (i > 0) assert.ok(cues[i - 1].end <= cue.start + 1e-6, `cue ${i} begins when the last is over`);
  });
  for (const [words, shown] of [
    ["warm milk", /milk: \d+ g = 1 1\/2 cups/],
    ["yeast", /yeast: [\d.]+ g = 2 1\/4 tsp/],
    ["sugar", /sugar: \d+ g = 2 tbsp/],
    ["melted butter", /butter: \d+ g = 1\/4 cup/],
    ["bread flour", /strong white flour: \d+ g = 4 cups/], // in the words of the kitchen it goes to
    ["350", /oven 175 °C = fan 155 °C = 350 °F = gas 4/],
  ]) {
    const [from, to] = spoken(words);
    const cue = cues.find((one) => shown.test(one.text));
    assert.ok(cue, `${words} is shown`);
    assert.ok(cue.start >= from && cue.start <= to, `${words} is shown at ${cue.start}, said from ${from} to ${to}`);
  }
}

for (const [form, captions] of [["WebVTT", clip], ["SRT", clipSrt]]) {
  test(`a WebVTT track from ${form} captions parses without an error`, () => {
    const { cues, errors } = new WebVTTParser().parse(track("vtt", captions), "subtitles");
    assert.deepEqual(errors, []);
    holds(cues.map((cue) => ({ start: cue.startTime, end: cue.endTime, text: cue.text })));
  });

  test(`an SRT track from ${form} captions parses`, () => {
    const nodes = parseSync(track("srt", captions));
    assert.ok(nodes.every((node) => node.type === "cue"));
    holds(nodes.map(({ data }) => ({ start: data.start / 1000, end: data.end / 1000, text: data.text })));
  });
}

test("a list of times alone takes the amounts in turn", () => {
  const list = join(folder, "times.txt");
  writeFileSync(list, "0:05\n0:09\n0:14\n0:20\n0:26\n0:31\n0:40\n2:00\n");
  const { cues, errors } = new WebVTTParser().parse(track("vtt", list), "subtitles");
  assert.deepEqual(errors, []);
  assert.deepEqual(cues.map((cue) => cue.startTime), [5, 9, 14, 20, 26, 31, 40, 120]);
});

test("captions without times, or none, are answered with a sentence", () => {
  const none = join(folder, "none.txt");
  writeFileSync(none, "no times here\n");
  for (const more of [[], ["--captions", none]]) {
    const run = spawnSync(program, ["hand-on", clip, "--to", kitchen, "--as", "vtt", ...more], { encoding: "utf8" });
    assert.equal(run.status, 1);
    assert.match(run.stderr, /\.\n$/);
  }
});
