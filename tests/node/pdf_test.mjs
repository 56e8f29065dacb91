// The PDF card, read by poppler: the right paper, and nothing of the card lost on the way to it.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, test } from "node:test";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const program = process.env.MASLIN ?? join(root, "build/release/maslin");
const found = join(root, "tests/reading/found");
const folder = mkdtempSync(join(tmpdir(), "maslin-pdf-"));
after(() => rmSync(folder, { recursive: true }));
const squeezed = (text) => text.normalize("NFKC").replace(/\s+/g, "").replace(/-/g, "");

function printed(recipe, kitchen, ...more) {
  const file = join(folder, "card.pdf");
  const args = ["hand-on", recipe, "--to", join(root, `data/demo/${kitchen}.kitchen.json`), "--draws", "32", ...more];
  const run = spawnSync(program, [...args, "--as", "pdf", "--out", file], { encoding: "utf8" });
  if (run.status === 1) return undefined;
  assert.equal(run.status, 0, run.stderr);
  return {
    info: execFileSync("pdfinfo", [file], { encoding: "utf8" }),
    text: execFileSync("pdftotext", [file, "-"], { encoding: "utf8" }),
    card: JSON.parse(execFileSync(program, [...args, "--as", "json"], { encoding: "utf8", maxBuffer: 1 << 26 })),
  };
}

test("A4 in Britain, Letter in America", () => {
  assert.match(printed(join(root, "data/demo/pamphlet.txt"), "flat").info, /Page size: .*\(A4\)/);
  assert.match(printed(join(root, "data/demo/pamphlet.txt"), "friend").info, /Page size: .*\(letter\)/);
});

test("every ingredient and step stands on the pages", () => {
  const files = readdirSync(found).filter((name) => name.endsWith(".txt")).slice(0, process.env.MASLIN_ALL_CASES ? 12 : 6);
  let pages = 0;
  for (const name of files) {
    const page = printed(join(found, name), "friend");
    if (page === undefined) continue;
    pages += 1;
    const text = squeezed(page.text);
    for (const part of page.card.parts) {
      for (const line of part.lines) assert.ok(text.includes(squeezed(line.ingredient).slice(0, 12)), `${name}: ${line.ingredient}`);
      for (const step of part.steps) assert.ok(text.includes(squeezed(step.words).slice(0, 20)), `${name}: ${step.words}`);
    }
  }
  assert.ok(pages > files.length / 2, `${pages} of ${files.length} printed`);
});

test("a card in Turkish keeps its letters", () => {
  const { text } = printed(join(root, "data/demo/pamphlet.txt"), "friend", "--language", "tr");
  assert.match(text, /Yapılışı/);
});
