// The typefaces of the page and of the cards, cut to what they set: Latin letters and the signs of a
// recipe, three kinds of figures, and of the weights those between plain and half bold.
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import subsetFont from "subset-font";

const modules = fileURLToPath(new URL("node_modules/", import.meta.url));
const files = {
  "vollkorn.woff2": "@fontsource-variable/vollkorn/files/vollkorn-latin-wght-normal.woff2",
  "alegreya-sans-400.woff2": "@fontsource/alegreya-sans/files/alegreya-sans-latin-400-normal.woff2",
  "alegreya-sans-700.woff2": "@fontsource/alegreya-sans/files/alegreya-sans-latin-700-normal.woff2",
};
export const typefaces = Object.keys(files);

const letters = String.fromCodePoint(...Array.from({ length: 0x230 }, (_, i) => 0x20 + i))
  + "–—‘’‚“”„‹›…•⁄−×÷≈≤≥°′″€™⅓⅔⅛⅜⅝⅞←↑→↓\u2009\u2011\u2012\u202f\u2212";
const features = ["kern", "liga", "calt", "locl", "ccmp", "mark", "mkmk", "onum", "lnum", "pnum", "tnum"];

/** The bytes of one of them. */
export const cut = async (name) => subsetFont(await readFile(modules + files[name]), letters, {
  targetFormat: "woff2", keepFeatures: features, noHinting: true,
  ...(name.startsWith("vollkorn") ? { variationAxes: { wght: { min: 400, max: 600 } } } : {}),
});
