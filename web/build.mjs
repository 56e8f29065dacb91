// Builds the page into dist/: one script, one style sheet, the page itself, and the
// typefaces as base64 text, ready to be embedded into the program. Fails when the
// page outgrows its weight.
import { build, transform } from "esbuild";
import { mkdir, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { elements } from "./elements.mjs";
import { tongues } from "./tongues.mjs";
import { cut, typefaces } from "./typefaces.mjs";

const here = fileURLToPath(new URL(".", import.meta.url));
const dist = `${here}dist/`;
const mostBytes = 250_000;

await rm(dist, { recursive: true, force: true });
await mkdir(dist, { recursive: true });
await build({
  entryPoints: { maslin: `${here}src/main.tsx` },
  outdir: dist,
  bundle: true,
  minify: true,
  // Scripts that are modules, and the style sheet, are read as UTF-8: a sign takes two bytes, not six.
  charset: "utf8",
  format: "esm",
  target: "es2022",
  ...elements,
  define: tongues,
  // Served by the program itself, not found by the bundler.
  external: ["/*.woff2"],
  legalComments: "none",
  logLevel: "warning",
});
// The page's own inks and measures go by long names in the source and by short ones when built.
const [style, script] = await Promise.all(["css", "js"].map((end) => readFile(`${dist}maslin.${end}`, "utf8")));
const uses = new Map();
for (const [name] of style.matchAll(/--[a-z-]+/g)) {
  uses.set(name, (uses.get(name) ?? 0) + 1);
}
const often = [...uses.keys()].sort((one, other) => uses.get(other) - uses.get(one) || one.localeCompare(other));
const short = (name) => uses.has(name) ? `--${often.indexOf(name).toString(36)}` : name;
await writeFile(`${dist}maslin.css`, style.replace(/--[a-z-]+/g, short));
// In the script they stand at the beginning of a text, or in var().
await writeFile(`${dist}maslin.js`, script.replace(/(?<=["'`]|var\()--[a-z-]+/g, short));
for (const name of await readdir(`${here}assets`)) {
  const file = await readFile(`${here}assets/${name}`);
  await writeFile(dist + name, name.endsWith(".js") ? (await transform(file, { minify: true })).code
    : file.toString().replace(/\n\s*/g, ""));
}
for (const name of typefaces) {
  await writeFile(`${dist}${name}.base64`, (await cut(name)).toString("base64") + "\n");
}

// What the page is made with asks that its licence goes along.
const licensed = [
  "preact", "@preact/signals", "@preact/signals-core",
  "@fontsource-variable/vollkorn", "@fontsource/alegreya-sans",
];
const notices = licensed.map(async (name) =>
  `${name}\n\n${await readFile(`${here}node_modules/${name}/LICENSE`, "utf8")}\n\n`);

let total = 0;
for (const name of (await readdir(dist)).sort()) {
  const text = await readFile(dist + name);
  const bytes = name.endsWith(".base64") ? Buffer.from(text.toString(), "base64").length : text.length;
  total += bytes;
  console.log(`${String(bytes).padStart(8)}  ${name.replace(".base64", "")}`);
}
await writeFile(`${dist}licences.txt`, (await Promise.all(notices)).join(""));
console.log(`${String(total).padStart(8)}  in all, of ${mostBytes}`);
if (total > mostBytes) {
  console.error(`The page weighs ${total} bytes; ${mostBytes} is the most it may.`);
  process.exit(1);
}
