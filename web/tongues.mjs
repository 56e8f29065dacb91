// The languages that a card is written in, for the builds of the page and of its tests.
import { readFileSync } from "node:fs";

const table = readFileSync(new URL("../data/words/languages.tsv", import.meta.url), "utf8");
const rows = table.split("\n").filter((line) => line !== "" && !line.startsWith("#")).slice(1);

export const tongues = { cardTongues: JSON.stringify(Object.fromEntries(rows.map((row) => row.split("\t")))) };
