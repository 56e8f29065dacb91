// A curve over time as a band, with the line to reach and the stretch in which it likely is.

import type { Curves, Range } from "../api.ts";

export interface BandCurveProps {
  minutes: readonly number[];
  curves: Curves;
  target?: number | undefined;
  reached?: Range | null | undefined;
  /** The last minute worth showing. */
  until: number;
  most?: number | undefined;
  label: string;
  print: (value: number) => string;
  time: (minutes: number) => string;
}

const width = 340;
const height = 150;
const left = 8;
const foot = 24;

export function BandCurve({ minutes, curves, target, reached, until, most, label, print, time }: BandCurveProps) {
  const count = Math.max(2, minutes.filter((minute) => minute <= until).length);
  const shown = minutes.slice(0, count);
  const values = [...curves.p10.slice(0, count), ...curves.p90.slice(0, count)];
  const low = Math.min(...values, target ?? Infinity);
  const top = Math.min(Math.max(...values, target ?? -Infinity), most ?? Infinity);
  const last = shown.at(-1) ?? 1;
  const x = (minute: number): number => left + (Math.min(minute, last) / last) * (width - left - 8);
  const y = (value: number): number =>
    8 + (1 - (Math.min(value, top) - low) / Math.max(1e-9, top - low)) * (height - foot - 8);
  const line = (curve: readonly number[]): string =>
    shown.map((minute, i) => `${x(minute).toFixed(1)} ${y(curve[i] ?? low).toFixed(1)}`).join(" L");
  const back = [...shown].map((minute, i) => ({ minute, i })).reverse()
    .map(({ minute, i }) => `${x(minute).toFixed(1)} ${y(curves.p10[i] ?? low).toFixed(1)}`).join(" L");
  return (
    <svg class="band-curve" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      {reached && reached.p10 <= last && (
        <rect class="reach" x={x(reached.p10)} width={Math.max(2, x(reached.p90) - x(reached.p10))} y="8" height={height - foot - 8} />
      )}
      <path class="band" d={`M${line(curves.p90)} L${back} Z`} />
      <path class="middle" d={`M${line(curves.p50)}`} />
      {target !== undefined && <line class="target" x1={left} x2={width - 8} y1={y(target)} y2={y(target)} />}
      {target !== undefined && <text class="on-band" x={left + 2} y={y(target) - 5}>{print(target)}</text>}
      <line class="axis" x1={left} x2={width - 8} y1={height - foot} y2={height - foot} />
      {reached && reached.p50 <= last && (
        <text x={Math.max(40, Math.min(width - 50, x(reached.p50)))} y={height - 6} text-anchor="middle">{time(reached.p50)}</text>
      )}
    </svg>
  );
}
