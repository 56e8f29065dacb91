// How long it keeps, as strips over days: sure to last, then fading to the last that may.

import type { FinishEntry, Range } from "./api.ts";
import { rangeAt } from "./finish_words.ts";
import { figure } from "./numbers.ts";
import { placeOf, roundTicks, type Scale, within } from "./plot_scale.ts";

const rows: readonly { field: string; word: string }[] = [
  { field: "fresh_days", word: "soft in the room" },
  { field: "fresh_days_in_fridge", word: "soft in the fridge" },
  { field: "fresh_days_after_refreshing", word: "soft, warmed again" },
  { field: "mould_free_days", word: "no mould seen" },
];
const width = 560;
const left = 176;
const right = width - 16;
const step = 30;
const longestDays = 21;

const days = (value: number): string => figure(value, value < 3 ? 1 : 0);

export function KeepingStrip({ entry }: { entry: FinishEntry }) {
  const known = rows.flatMap((row) => {
    const range = rangeAt(entry, row.field);
    return range && range.p90 > 0 ? [{ ...row, range }] : [];
  });
  if (known.length === 0) {
    return null;
  }
  const last = within(Math.max(...known.map(({ range }) => range.p90)) * 1.05, 2, longestDays);
  const x: Scale = { low: 0, high: last, from: left, to: right };
  const at = (value: number): number => placeOf(x, within(value, 0, last));
  const ticks = roundTicks(0, last, 7);
  const foot = known.length * step + 6;
  const said = (word: string, { p10, p90 }: Range): string => `${word} for ${days(p10)} to ${days(p90)} days`;
  return (
    <svg class="keeping-strip" viewBox={`0 0 ${width} ${foot + 26}`} role="img"
      aria-label={`${known.map(({ word, range }) => said(word, range)).join("; ")}.`}>
      {ticks.map((day, i) => (
        <g key={day}>
          <line class="axis" x1={at(day)} x2={at(day)} y1="2" y2={foot} />
          <text x={at(day)} y={foot + 20} text-anchor="middle">
            {figure(day, 1)}{i === ticks.length - 1 && " days"}
          </text>
        </g>
      ))}
      {known.map(({ field, word, range }, i) => {
        const y = i * step + 8;
        return (
          <g key={field} class={field === "mould_free_days" ? "strip mould" : "strip"}>
            <text x={left - 12} y={y + 15} text-anchor="end">{word}</text>
            <rect class="perhaps" x={left} y={y} width={at(range.p90) - left} height="18" rx="3" />
            <rect class="surely" x={left} y={y} width={at(range.p10) - left} height="18" rx="3" />
            <line class="likely-end" x1={at(range.p50)} x2={at(range.p50)} y1={y - 3} y2={y + 21} />
          </g>
        );
      })}
    </svg>
  );
}
