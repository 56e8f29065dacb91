// Builds what the living card is made of into dist_card/: its page, style and the engine as
// base64 of its gzip, for the program to set a recipe into. Without the engine
// (build/wasm/maslin_card_engine.wasm) nothing is written, and the program says so.
import { build } from "esbuild";
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdir, readFile, rm, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { elements } from "./elements.mjs";
import { cut } from "./typefaces.mjs";

const here = fileURLToPath(new URL(".", import.meta.url));
const dist = `${here}dist_card/`;
const engine = `${here}../build/wasm/maslin_card_engine.wasm`;
// Of the whole card, 1 500 000: a recipe and its pantry take less than 200 000 of it.
const mostBytes = 1_300_000;

const licensed = [
  "preact", "@preact/signals", "@preact/signals-core", "uqr",
  "@fontsource-variable/vollkorn", "@fontsource/alegreya-sans",
];

await rm(dist, { recursive: true, force: true });
if (!existsSync(engine)) {
  console.log("No card: build/wasm/maslin_card_engine.wasm is not there (cmake --build --preset wasm).");
  process.exit(0);
}
await mkdir(dist, { recursive: true });
const bundled = { bundle: true, minify: true, format: "iife", target: "es2022", charset: "ascii", legalComments: "none", logLevel: "warning" };
// The engine's own thread begins from a script that the page holds as text.
const worker = await build({ ...bundled, entryPoints: [`${here}src/card/engine_worker.ts`], write: false });
const built = await build({
  ...bundled,
  define: { engineWorkerText: JSON.stringify(worker.outputFiles[0].text.trim()) },
  entryPoints: { card: `${here}src/card/main.tsx` },
  outdir: dist,
  write: false,
  ...elements,
  plugins: [{
    name: "typefaces",
    setup({ onResolve, onLoad }) {
      onResolve({ filter: /^\/.*\.woff2$/ }, ({ path }) => ({ path: path.slice(1), namespace: "typeface" }));
      onLoad({ filter: /.*/, namespace: "typeface" }, async ({ path }) => ({ contents: await cut(path), loader: "dataurl" }));
    },
  }],
});
const textOf = (ending) => built.outputFiles.find(({ path }) => path.endsWith(ending)).text.trim();
const script = textOf(".js");
const style = textOf(".css");
if (/<\/(script|style)|<!--/i.test(script + style)) {
  throw new Error("The card's script or style would end its own element.");
}
const sha = (text) => createHash("sha256").update(text).digest("base64");
// Nothing but this script, this style and the engine may run, and nothing may be asked for.
const policy = [
  "default-src 'none'",
  `script-src 'sha256-${sha(script)}' 'wasm-unsafe-eval'`,
  `style-src 'sha256-${sha(style)}'`,
  "font-src data:",
  "img-src data: blob:",
  "base-uri 'none'",
  "form-action 'none'",
  // The engine's worker, made of text in the script above; its policy passes that one address.
  "worker-src blob:",
  "require-trusted-types-for 'script'",
  "trusted-types engine",
].join("; ");
const notices = await Promise.all(licensed.map(async (name) =>
  `${name}\n\n${await readFile(`${here}node_modules/${name}/LICENSE`, "utf8").catch(() => readFile(`${here}node_modules/${name}/LICENSE.md`, "utf8"))}\n`));
const licences = notices.join("\n").replace(/\r/g, "").replace(/&/g, "&amp;").replace(/</g, "&lt;");

// Words in double braces are set by the program.
const frame = `<!doctype html>
<html lang="en" data-sha256="{{sha256}}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="generator" content="maslin {{version}}">
<title>{{title}}</title>
<style id="style">{{style}}</style>
</head>
<body>
<div id="page"></div>
<noscript><pre>{{plain}}</pre></noscript>
<template id="licences">
${licences}</template>
<script type="application/json" id="card">{{card}}</script>
<script type="text/plain" id="engine">{{engine}}</script>
<script id="page-script">{{script}}</script>
</body>
</html>
`;
const packed = gzipSync(await readFile(engine), { level: 9 }).toString("base64");
const parts = { "card_frame.html": frame, "card.css": style, "card.js": script, "card_engine.txt": packed };
let total = 0;
for (const [name, text] of Object.entries(parts)) {
  await writeFile(dist + name, text);
  total += Buffer.byteLength(text);
  console.log(`${String(Buffer.byteLength(text)).padStart(8)}  ${name}`);
}
console.log(`${String(total).padStart(8)}  of an empty card, of ${mostBytes}`);
if (total > mostBytes) {
  console.error(`An empty card weighs ${total} bytes; ${mostBytes} is the most it may.`);
  process.exit(1);
}
