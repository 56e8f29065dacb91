// Figures as the reader writes them.

import type { LowHigh, Range } from "./api.ts";

/** The reader's. */
export const language = typeof navigator === "undefined" ? "en" : navigator.language;
/** "1 May 2026". */
export const dayWords = (at: string | number): string => new Date(at).toLocaleDateString(language, { dateStyle: "long" });

/** What stands before the decimals for this reader: a point or a comma. */
export const decimalMark = new Intl.NumberFormat(language).format(1.5).includes(",") ? "," : ".";

const formats = new Map<number, Intl.NumberFormat>();

/** A figure with at most `decimals` digits after the point, in the reader's locale. */
export function figure(value: number, decimals = 0): string {
  let format = formats.get(decimals);
  if (!format) {
    format = new Intl.NumberFormat(language, { maximumFractionDigits: decimals });
    formats.set(decimals, format);
  }
  return format.format(value);
}

/** Grams: whole above 20, one decimal below, two below 2. */
export const gramsFigure = (grams: number): string =>
  figure(grams, grams >= 20 ? 0 : grams >= 2 ? 1 : 2);

/** The same for a field to type in: no marks between thousands. */
export const gramsTyped = (grams: number): string =>
  gramsFigure(grams).replaceAll(decimalMark === "." ? "," : ".", "").replace(/\s/g, "");

/** True when p10 and p90 print as the same figure. */
export const isExact = (range: Range, print: (value: number) => string = gramsFigure): boolean =>
  print(range.p10) === print(range.p90);

/** "412 to 498", or one figure when the range is too narrow to print. */
export function rangeWords(range: Range, print: (value: number) => string = gramsFigure): string {
  return isExact(range, print) ? print(range.p50) : `${print(range.p10)} to ${print(range.p90)}`;
}

/** How sure an amount is, in a word, from half its spread against its middle. */
export function sureness(range: Range): string {
  if (!(range.p50 > 0)) {
    return "";
  }
  const spread = (range.p90 - range.p10) / 2 / range.p50;
  return spread < 0.005 ? "exact" : spread < 0.05 ? "close" : spread < 0.15 ? "rough" : "a wide guess";
}

// Figure and unit stay on one line.
const nb = "\u00a0";

/** Minutes as "48 min", "1 h 5 min", "2 days 3 h". */
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) {
    return `${figure(whole)}${nb}min`;
  }
  if (whole < 24 * 60) {
    const rest = whole % 60;
    return `${Math.floor(whole / 60)}${nb}h${rest === 0 ? "" : `${nb}${rest}${nb}min`}`;
  }
  const hours = Math.round(whole / 60);
  const days = Math.floor(hours / 24);
  return `${days}${nb}${days === 1 ? "day" : "days"}${hours % 24 === 0 ? "" : `${nb}${hours % 24}${nb}h`}`;
}

/** The longest rise that is worked through; a time this long was not reached. */
export const longestMinutes = 2880;

/** Long times are rounded as a baker would say them: to 5 minutes above an hour. */
export function saidDuration(minutes: number): string {
  if (minutes >= longestMinutes) {
    return `over${nb}2${nb}days`;
  }
  return duration(minutes >= 60 ? Math.round(minutes / 5) * 5 : minutes);
}

/** "16 to 22 min", "50 min to 1 h 5 min": the unit once where both share it. */
export function saidDurations(low: number, high: number): string {
  const from = saidDuration(low);
  const to = saidDuration(high);
  return from === to
    ? to
    : high < 59.5 ? `${figure(Math.round(low))} to ${to}` : `${from} to ${to}`;
}

/** "20 to 25 min" from a stated range; empty when nothing was stated. */
export function statedMinutes(stated: LowHigh | null | undefined): string {
  const low = stated?.low;
  const high = stated?.high ?? low;
  if (low === null || low === undefined || high === null || high === undefined) {
    return "";
  }
  return saidDurations(low, high);
}

const fractions: readonly [number, string][] = [
  [1 / 8, "⅛"], [1 / 4, "¼"], [1 / 3, "⅓"], [3 / 8, "⅜"], [1 / 2, "½"],
  [5 / 8, "⅝"], [2 / 3, "⅔"], [3 / 4, "¾"], [7 / 8, "⅞"],
];

/** A measured number as spoons and cups are marked: 2.25 is "2¼", 0.5 is "½". */
export function kitchenFigure(value: number): string {
  const whole = Math.floor(value + 1e-9);
  const rest = value - whole;
  const fraction = fractions.find(([part]) => Math.abs(part - rest) < 0.004);
  if (rest < 0.004) {
    return figure(whole);
  }
  return fraction ? `${whole === 0 ? "" : figure(whole)}${fraction[1]}` : figure(value, 2);
}
