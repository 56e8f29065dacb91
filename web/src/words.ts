// British and American words and degrees. Only the page's own words: what was found
// is shown as it was found.

export type Tongue = "british" | "american";

/** What a table of ours says of a word from elsewhere; never what all objects inherit. */
export const entryOf = <Value>(table: Readonly<Record<string, Value>>, word: string): Value | undefined =>
  Object.hasOwn(table, word) ? table[word] : undefined;

const american: Record<string, string> = {
  prove: "rise",
  Prove: "Rise",
  "first prove": "first rise",
  "last prove": "last rise",
};

export const tongueOf = (language: string): Tongue =>
  /^en-(US|PH|PR|LR)\b/i.test(language) ? "american" : "british";

export const word = (british: string, tongue: Tongue): string =>
  tongue === "american" ? (entryOf(american, british) ?? british) : british;

/** A temperature of an oven, a dough or a room, in the reader's degrees. */
export function degrees(celsius: number, tongue: Tongue): string {
  return tongue === "american"
    ? `${Math.round(celsius * 1.8 + 32)}\u00a0°F`
    : `${Math.round(celsius)}\u00a0°C`;
}

/** "very_stiff" as words. */
export const plain = (name: string): string => name.replaceAll("_", " ");

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const localeNames: Readonly<Record<string, string>> = {
  us: "American",
  uk: "British",
  au: "Australian",
  nz: "New Zealand",
  ca: "Canadian",
  eu: "European",
  jp: "Japanese",
  old_uk: "old British",
  old_ca: "old Canadian",
  fr: "French",
  de: "German",
  es: "Spanish",
  it: "Italian",
  tr: "Turkish",
  br: "Brazilian",
  se: "Swedish",
  pl: "Polish",
  ru: "Russian",
};

// Units that are written alike for one and for many.
const unitsAlike = new Set(["g", "kg", "ml", "cl", "dl", "l", "oz", "lb", "floz", "tsp", "tbsp", "percent"]);
const unitWords: Readonly<Record<string, string>> = { floz: "fl oz", percent: "%" };
const plurals: Readonly<Record<string, string>> = {
  glass: "glasses", box: "boxes", pinch: "pinches", dash: "dashes", bunch: "bunches", loaf: "loaves",
};

/** A unit as found, for one or many: "cup" of 4 is "cups". */
export function unitWord(unit: string, count: number): string {
  const said = entryOf(unitWords, unit) ?? unit.replaceAll("_", " ");
  return count <= 1 || unit === "" || unitsAlike.has(unit) ? said : (entryOf(plurals, unit) ?? `${said}s`);
}
