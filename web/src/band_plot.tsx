// A curve over time with its band, a line to reach, and the stretch of time in which
// it is likely reached. The words and the table beside it say the same.

import type { Curves, Range } from "./api.ts";
import { duration } from "./numbers.ts";
import { lineThrough, placeOf, roundTicks, type Scale, surface, timeTicks, within } from "./plot_scale.ts";
import { Table } from "./table.tsx";

export interface Band {
  minutes: number[];
  curves: Curves;
  /** The line to reach, in the unit of the curves. */
  target?: number | undefined;
  reached?: Range | null | undefined;
  print: (value: number) => string;
  label: string;
  unit: string;
  height?: number;
  /** A second line that goes along, with the word for it. */
  beside?: { values: number[]; word: string } | undefined;
  /** The last minute and the highest value worth showing. */
  until?: number | undefined;
  most?: number | undefined;
}

const width = 560;
const left = 62;
const right = width - 22;
const top = 12;

interface Shown {
  minutes: number[];
  curves: Curves;
  beside: number[];
}

/** The part of the curves up to the last minute worth showing, its end between two samples. */
function shown({ minutes, curves, until, beside }: Band): Shown {
  const last = minutes.at(-1) ?? 0;
  const end = Math.min(until ?? last, last);
  const count = minutes.filter((minute) => minute < end).length;
  const [before, after] = [minutes[count - 1], minutes[count]];
  if (before === undefined || after === undefined) {
    return { minutes, curves, beside: beside?.values ?? [] };
  }
  const share = (end - before) / (after - before);
  const cut = (values: number[]): number[] => {
    const [from, to] = [values[count - 1] ?? 0, values[count] ?? 0];
    return [...values.slice(0, count), from + share * (to - from)];
  };
  return {
    minutes: [...minutes.slice(0, count), end],
    curves: { p10: cut(curves.p10), p50: cut(curves.p50), p90: cut(curves.p90) },
    beside: beside ? cut(beside.values) : [],
  };
}

function scales(band: Band, part: Shown, bottom: number): { x: Scale; y: Scale } {
  const values = [...part.curves.p10, ...part.curves.p90, ...part.beside].filter(Number.isFinite);
  const goal = band.target === undefined ? [] : [band.target];
  const low = Math.min(...values, ...goal);
  const high = Math.min(Math.max(...values, ...goal), band.most ?? Infinity);
  return {
    x: { low: part.minutes[0] ?? 0, high: part.minutes.at(-1) ?? 1, from: left, to: right },
    y: { low, high: high + (high - low) * 0.08, from: bottom, to: top },
  };
}

export function BandPlot(band: Band) {
  const height = band.height ?? 176;
  const bottom = height - 30;
  const part = shown(band);
  const { x, y } = scales(band, part, bottom);
  const xs = part.minutes.map((minute) => placeOf(x, minute));
  // What rises beyond the frame stays at its upper edge.
  const line = (values: readonly number[]): number[] =>
    values.map((value) => within(placeOf(y, value), top, bottom));
  const goal = band.target === undefined ? null : placeOf(y, band.target);
  const reached = band.reached
    ? [band.reached.p10, band.reached.p90].map((minute) => within(placeOf(x, minute), left, right))
    : null;
  const [from = 0, to = 0] = reached ?? [];
  return (
    <svg class="band-plot" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={band.label}>
      {roundTicks(y.low, y.high, 5).map((value) => (
        <g key={`y${value}`}>
          <line class="axis" x1={left} x2={right} y1={placeOf(y, value)} y2={placeOf(y, value)} />
          <text x={left - 8} y={placeOf(y, value) + 5} text-anchor="end">{band.print(value)}</text>
        </g>
      ))}
      {timeTicks(x.low, x.high, 6).map((minute) => (
        <text key={`x${minute}`} x={placeOf(x, minute)} y={height - 6}
          text-anchor={minute === x.low ? "start" : placeOf(x, minute) > right - 30 ? "end" : "middle"}>{duration(minute)}</text>
      ))}
      {reached && <rect class="when" x={from} y={top} width={Math.max(to - from, 2)} height={bottom - top} />}
      <path class="spread-band" d={surface(xs, line(part.curves.p10), line(part.curves.p90))} />
      <path class="middle-line" d={lineThrough(xs, line(part.curves.p50))} />
      {band.beside && (
        <>
          <path class="beside-line" d={lineThrough(xs, line(part.beside))} />
          <text x={(xs[3] ?? left) + 12} y={(line(part.beside)[3] ?? 0) + 2}>{band.beside.word}</text>
        </>
      )}
      {goal !== null && <line class="goal" x1={left} x2={right} y1={goal} y2={goal} />}
      {reached && <rect class="when-foot" x={from} y={bottom - 3} width={Math.max(to - from, 2)} height={3} />}
    </svg>
  );
}

/** The same curve as a table of about eight rows. */
export function BandTable({ minutes, curves, print, unit, until }: Band) {
  const rows = minutes.filter((minute) => minute <= (until ?? Infinity));
  const step = Math.max(1, Math.ceil(rows.length / 8));
  return (
    <Table of={["After", `Likely ${unit}`, "Eight in ten"]} rows={rows.flatMap((minute, i) => i % step !== 0 ? [] : [[
      duration(minute), print(curves.p50[i] ?? 0), `${print(curves.p10[i] ?? 0)} to ${print(curves.p90[i] ?? 0)}`,
    ]])} />
  );
}
