// Which words of the found text each line and step of the recipe came from.

import type { Recipe } from "./api.ts";

export type TieKey = string;

/** The key of a line or step: "line 0 3" is the fourth line of the first part. */
export const lineKey = (part: number, line: number): TieKey => `line ${part} ${line}`;
export const stepKey = (part: number, step: number): TieKey => `step ${part} ${step}`;

/** A stretch of found text; `key` is empty for words that became nothing. */
export interface Stretch {
  text: string;
  key: TieKey;
}

interface Tie {
  key: TieKey;
  start: number;
  end: number;
}

// The found text with every run of spaces as one, and where each character stood.
function squeezed(text: string): { text: string; at: number[] } {
  let out = "";
  const at: number[] = [];
  for (let i = 0; i < text.length; ++i) {
    const character = text.charAt(i);
    if (/\s/.test(character)) {
      if (out !== "" && !out.endsWith(" ")) {
        out += " ";
        at.push(i);
      }
    } else {
      out += character;
      at.push(i);
    }
  }
  return { text: out, at };
}

/**
 * Cuts `found` into stretches so that each line and step of the recipe owns its words.
 * Looks for each text after the one before it, then anywhere that is still free.
 */
export function tied(found: string, recipe: Recipe): Stretch[] {
  const { text, at } = squeezed(found);
  const ties: Tie[] = [];
  let from = 0;
  const free = (start: number, end: number): boolean =>
    ties.every((tie) => end <= tie.start || start >= tie.end);
  const tie = (key: TieKey, words: string): void => {
    const wanted = words.replace(/\s+/g, " ").trim();
    if (wanted === "") {
      return;
    }
    for (const begin of [from, 0]) {
      let start = text.indexOf(wanted, begin);
      while (start >= 0 && !free(start, start + wanted.length)) {
        start = text.indexOf(wanted, start + 1);
      }
      if (start >= 0) {
        ties.push({ key, start, end: start + wanted.length });
        from = start + wanted.length;
        return;
      }
    }
  };
  recipe.parts.forEach((part, p) => part.lines.forEach((line, l) => tie(lineKey(p, l), line.text)));
  from = 0;
  recipe.parts.forEach((part, p) =>
    (part.steps ?? []).forEach((step, s) => tie(stepKey(p, s), step.text)),
  );
  ties.sort((a, b) => a.start - b.start);

  const stretches: Stretch[] = [];
  let done = 0;
  for (const { key, start, end } of ties) {
    const first = at[start] ?? 0;
    const last = (at[end - 1] ?? 0) + 1;
    if (first > done) {
      stretches.push({ text: found.slice(done, first), key: "" });
    }
    stretches.push({ text: found.slice(first, last), key });
    done = last;
  }
  if (done < found.length) {
    stretches.push({ text: found.slice(done), key: "" });
  }
  return stretches;
}

/** The key of the line or step that a doubt is about; empty when it is about the whole. */
export function doubtPlace(recipe: Recipe, about: string): TieKey {
  const wanted = about.replace(/\s+/g, " ").trim().toLowerCase();
  if (wanted === "") {
    return "";
  }
  let found = "";
  const look = (key: TieKey, text: string): void => {
    const has = text.replace(/\s+/g, " ").toLowerCase();
    if (found === "" && (has.includes(wanted) || (has.length > 3 && wanted.includes(has)))) {
      found = key;
    }
  };
  recipe.parts.forEach((part, p) => {
    part.lines.forEach((line, l) => look(lineKey(p, l), line.text));
  });
  recipe.parts.forEach((part, p) => {
    (part.steps ?? []).forEach((step, s) => look(stepKey(p, s), step.text));
  });
  return found;
}
