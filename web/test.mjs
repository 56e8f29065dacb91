// Runs src/**/*.test.ts(x): each is bundled, then all go through Node's test runner.
import { build } from "esbuild";
import { spawnSync } from "node:child_process";
import { readdir, rm } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { tongues } from "./tongues.mjs";

const here = fileURLToPath(new URL(".", import.meta.url));
const out = `${here}node_modules/.tests/`;
await rm(out, { recursive: true, force: true });
const tests = (await readdir(`${here}src`, { recursive: true })).filter((name) => /\.test\.tsx?$/.test(name));
await build({
  entryPoints: tests.map((name) => `${here}src/${name}`),
  outdir: out,
  outExtension: { ".js": ".mjs" },
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node18",
  define: tongues,
  jsx: "automatic",
  jsxImportSource: "preact",
  logLevel: "warning",
});
const files = tests.map((name) => out + name.replace(/\.tsx?$/, ".mjs"));
process.exit(spawnSync(process.execPath, ["--test", ...files], { stdio: "inherit" }).status ?? 1);
