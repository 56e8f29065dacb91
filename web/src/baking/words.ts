// The words of the baking view and of the card in the reader's language. English words are
// their own key; a table of another language has what stands for them.

import { entryOf } from "../words.ts";

export type WordTable = Readonly<Record<string, string>>;

/** Says English words in the reader's language; {name} is filled in. */
export type Say = (words: string, fill?: Readonly<Record<string, string | number>>) => string;

export const sayer = (table: WordTable = {}): Say => (words, fill = {}) =>
  (entryOf(table, words) ?? words).replace(/\{(\w+)\}/g, (_, name: string) => String(fill[name] ?? ""));

export const inEnglish: Say = sayer();
