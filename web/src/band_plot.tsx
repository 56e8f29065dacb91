// A curve over time with its band, a line to reach, and the stretch of time in which
// it is likely reached. Drawn on a canvas; the words and the table beside it say the same.

import { useEffect, useRef } from "preact/hooks";
import uPlot from "uplot";
import type { Curves, Range } from "./api.ts";
import { duration } from "./numbers.ts";

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
  /** The last minute and the highest value worth showing. */
  until?: number | undefined;
  most?: number | undefined;
}

interface Inks {
  ink: string;
  quiet: string;
  rule: string;
  line: string;
  band: string;
  goal: string;
}

function inks(element: Element): Inks {
  const style = getComputedStyle(element);
  const ink = (name: string): string => style.getPropertyValue(name).trim();
  return {
    ink: ink("--ink"), quiet: ink("--quiet"), rule: ink("--rule"),
    line: ink("--crust"), band: ink("--dough-wash"), goal: ink("--goal"),
  };
}

// Ticks at times one would say.
const wholeTimes = [1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 240, 360, 720, 1440];

const face = '13px "Alegreya Sans", sans-serif';

function marks(plot: uPlot, band: Band, colours: Inks): void {
  const { ctx, bbox } = plot;
  const ratio = devicePixelRatio;
  ctx.save();
  if (band.reached) {
    const clamp = (x: number): number => Math.max(bbox.left, Math.min(bbox.left + bbox.width, x));
    const from = clamp(plot.valToPos(band.reached.p10, "x", true));
    const to = clamp(plot.valToPos(band.reached.p90, "x", true));
    ctx.fillStyle = colours.goal;
    ctx.globalAlpha = 0.14;
    ctx.fillRect(from, bbox.top, Math.max(to - from, 2 * ratio), bbox.height);
    ctx.globalAlpha = 1;
    ctx.fillRect(from, bbox.top + bbox.height - 3 * ratio, Math.max(to - from, 2 * ratio), 3 * ratio);
  }
  if (band.target !== undefined) {
    const y = plot.valToPos(band.target, "y", true);
    ctx.strokeStyle = colours.goal;
    ctx.lineWidth = 1.5 * ratio;
    ctx.setLineDash([5 * ratio, 4 * ratio]);
    ctx.beginPath();
    ctx.moveTo(bbox.left, y);
    ctx.lineTo(bbox.left + bbox.width, y);
    ctx.stroke();
  }
  ctx.restore();
}

function options(band: () => Band, colours: Inks, width: number, height: number): uPlot.Options {
  const axis: uPlot.Axis = {
    stroke: colours.quiet, font: face, grid: { show: false },
    ticks: { stroke: colours.rule, width: 1, size: 4 },
  };
  return {
    width, height,
    padding: [12, 24, 0, 0],
    cursor: { show: false },
    legend: { show: false },
    scales: {
      x: { time: false, range: (_plot, low, high) => [low, Math.min(high, band().until ?? high)] },
      y: {
        range: (_plot, low, high) => {
          const goal = band().target;
          const top = Math.min(Math.max(high, goal ?? high), band().most ?? Infinity);
          return [Math.min(low, goal ?? low), top + (top - low) * 0.08];
        },
      },
    },
    axes: [
      { ...axis, size: 34, space: 64, incrs: wholeTimes, values: (_plot, ticks) => ticks.map((tick) => duration(tick)) },
      { ...axis, size: 52, space: 36, values: (_plot, ticks) => ticks.map((tick) => band().print(tick)),
        grid: { show: true, stroke: colours.rule, width: 1 } },
    ],
    series: [
      {},
      { stroke: "transparent", points: { show: false } },
      { stroke: "transparent", points: { show: false } },
      { stroke: colours.line, width: 2.25, points: { show: false } },
    ],
    bands: [{ series: [2, 1], fill: colours.band }],
    hooks: { draw: [(plot) => marks(plot, band(), colours)] },
  };
}

const data = ({ minutes, curves }: Band): uPlot.AlignedData =>
  [minutes, curves.p10, curves.p90, curves.p50];

export function BandPlot(band: Band) {
  const place = useRef<HTMLDivElement>(null);
  const plot = useRef<uPlot | null>(null);
  const newest = useRef(band);
  newest.current = band;
  const height = band.height ?? 176;

  useEffect(() => {
    const element = place.current;
    if (!element) {
      return;
    }
    const build = (): void => {
      plot.current?.destroy();
      plot.current = new uPlot(
        options(() => newest.current, inks(element), element.clientWidth || 300, height),
        data(newest.current), element,
      );
    };
    build();
    const sized = new ResizeObserver(() => {
      const width = element.clientWidth;
      if (width > 0 && plot.current && plot.current.width !== width) {
        plot.current.setSize({ width, height });
      }
    });
    sized.observe(element);
    const dark = matchMedia("(prefers-color-scheme: dark)");
    dark.addEventListener("change", build);
    void document.fonts?.ready.then(build);
    return () => {
      sized.disconnect();
      dark.removeEventListener("change", build);
      plot.current?.destroy();
      plot.current = null;
    };
  }, [height]);

  useEffect(() => plot.current?.setData(data(band)), [band.minutes, band.curves]);

  return <div class="band-plot" ref={place} role="img" aria-label={band.label} />;
}

/** The same curve as a table of about eight rows. */
export function BandTable({ minutes, curves, print, unit, until }: Band) {
  const shown = minutes.filter((minute) => minute <= (until ?? Infinity));
  const step = Math.max(1, Math.ceil(shown.length / 8));
  const rows = shown.map((minute, i) => ({ minute, i })).filter(({ i }) => i % step === 0);
  return (
    <table>
      <thead>
        <tr><th scope="col">After</th><th scope="col">Likely {unit}</th><th scope="col">Eight in ten</th></tr>
      </thead>
      <tbody>
        {rows.map(({ minute, i }) => (
          <tr key={i}>
            <th scope="row">{duration(minute)}</th>
            <td>{print(curves.p50[i] ?? 0)}</td>
            <td>{print(curves.p10[i] ?? 0)} to {print(curves.p90[i] ?? 0)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
