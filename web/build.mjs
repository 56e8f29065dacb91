// Builds the page into dist/: one script, one style sheet, the page itself, and the
// typefaces as base64 text, ready to be embedded into the program. Fails when the
// page outgrows its weight.
import { build, transform } from "esbuild";
import { mkdir, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import subsetFont from "subset-font";
import { elements } from "./elements.mjs";
import { tongues } from "./tongues.mjs";

const here = fileURLToPath(new URL(".", import.meta.url));
const dist = `${here}dist/`;
const mostBytes = 250_000;

const typefaces = {
  "vollkorn.woff2": "@fontsource-variable/vollkorn/files/vollkorn-latin-wght-normal.woff2",
  "alegreya-sans-400.woff2": "@fontsource/alegreya-sans/files/alegreya-sans-latin-400-normal.woff2",
  "alegreya-sans-700.woff2": "@fontsource/alegreya-sans/files/alegreya-sans-latin-700-normal.woff2",
};

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
// Of a typeface goes along what the page sets: Latin letters and the signs of a recipe, three kinds of
// figures, and of the weights those between plain and half bold.
const letters = String.fromCodePoint(...Array.from({ length: 0x230 }, (_, i) => 0x20 + i))
  + "–—‘’‚“”„‹›…•⁄−×÷≈≤≥°′″€™⅓⅔⅛⅜⅝⅞←↑→↓\u2009\u2011\u2012\u202f\u2212";
const features = ["kern", "liga", "calt", "locl", "ccmp", "mark", "mkmk", "onum", "lnum", "pnum", "tnum"];
for (const [name, source] of Object.entries(typefaces)) {
  const bytes = await subsetFont(await readFile(`${here}node_modules/${source}`), letters, {
    targetFormat: "woff2", keepFeatures: features, noHinting: true,
    ...(name.startsWith("vollkorn") ? { variationAxes: { wght: { min: 400, max: 600 } } } : {}),
  });
  await writeFile(`${dist}${name}.base64`, bytes.toString("base64") + "\n");
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
