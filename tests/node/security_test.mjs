// docs/security.md names a test on every line of its tables, and each is there.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";

const root = new URL("../../", import.meta.url);
const text = (path) => readFileSync(new URL(path, root), "utf8");

const rows = text("docs/security.md").split("\n").filter((line) => line.startsWith("| "))
  .map((line) => line.split("|").slice(1, -1).map((cell) => cell.trim()))
  .filter((cells) => !/^(-+|what it tries|what happens)$/.test(cells[0]));

test("every line of the threat model names a test", () => {
  assert.ok(rows.length > 20);
  for (const cells of rows) {
    assert.equal(cells.length, 3, cells[0]);
    assert.match(cells[2], /`(src|tests|tools|bench)\//, `no test: ${cells[0]}`);
  }
});

test("every test that the threat model names is there", () => {
  for (const [tries, , tests] of rows) {
    for (const [, path, words] of tests.matchAll(/`((?:src|tests|tools|bench)\/[^`]+)`(?: "([^"]+)")?/g)) {
      // A name may run over two lines of source.
      const source = text(path).replace(/"\s*\n\s*"/g, "");
      assert.ok(words === undefined || source.includes(words), `${tries}: ${path} has no "${words}"`);
    }
  }
});
