// The bake: a cut through the piece, coloured as it would look, and the heart's temperature
// over time until it is done.

import { useSignal } from "@preact/signals";
import type { Bake, Section } from "./api.ts";
import { type Band, BandPlot, BandTable } from "./band_plot.tsx";
import { Figures } from "./figures.tsx";
import { at, coldest, momentCount, momentNear, profileAt, shells } from "./cut.ts";
import { duration, figure, saidDurations } from "./numbers.ts";
import { Quiet } from "./plain.tsx";
import { tongue } from "./store.ts";
import { bakedWords } from "./forecast_words.tsx";
import { degrees, plain } from "./words.ts";

type Stops = readonly [number, string][];

// Raw dough to set crumb by heat; where the skin has browned, by its lightness.
const heatStops: Stops = [[25, "var(--cut-raw)"], [60, "var(--cut-warm)"], [95, "var(--cut-crumb)"]];
const crustStops: Stops = [
  [84, "var(--cut-crumb)"], [72, "var(--cut-light)"], [60, "var(--cut-gold)"],
  [48, "var(--cut-brown)"], [36, "var(--cut-burnt)"],
];

function between(stops: Stops, value: number): string {
  const down = (stops[0]?.[0] ?? 0) > (stops.at(-1)?.[0] ?? 0);
  for (let i = 1; i < stops.length; ++i) {
    const [from, fromInk] = stops[i - 1] ?? [0, ""];
    const [to, toInk] = stops[i] ?? [0, ""];
    if (down ? value >= to : value <= to) {
      const share = Math.round(Math.max(0, Math.min(1, (value - from) / (to - from))) * 100);
      return `color-mix(in oklab, ${toInk} ${share}%, ${fromInk})`;
    }
  }
  return stops.at(-1)?.[1] ?? "";
}

/** What a place in the piece looks like at this heat and lightness (L*). */
export const crumbColour = (celsius: number, lightness: number): string =>
  lightness < 83.5 ? between(crustStops, lightness) : between(heatStops, celsius);

function Cut({ section, done }: { section: Section; done: number | undefined }) {
  const moments = momentCount(section);
  const moment = useSignal<number | null>(null);
  const chosen = Math.min(moment.value ?? momentNear(section, done), moments - 1);
  const heat = profileAt(section, "temperature_c", chosen);
  if (!heat) {
    return null;
  }
  const heart = coldest(heat);
  const [from, to] = section.filling ?? [0, 0];
  const filled = to > from && heart >= (heat.depth_mm[from] ?? 0) && heart <= (heat.depth_mm[to - 1] ?? 0);
  const light = profileAt(section, "lightness", chosen);
  const colour = (depth: number): string => crumbColour(at(heat, depth), light ? at(light, depth) : 85);
  const size = 118;
  const layers = shells(heat, heart, 2.3, size);
  const height = (heat.depth_mm.at(-1) ?? 0) - (heat.depth_mm[0] ?? 0);
  const print = (celsius: number): string => degrees(celsius, tongue.value);
  const inside = print(at(heat, heart));
  const skin = print(heat.values.at(-1) ?? 0);
  const foot = print(heat.values[0] ?? 0);
  const time = section.minutes?.[chosen];
  return (
    <div class="cut">
      <svg viewBox="0 0 560 164" role="img"
        aria-label={`Cut through the piece: ${skin} at the top, ${inside} ${filled ? "in the filling" : "at the heart"}, ${foot} at the base.`}>
        <defs>
          <linearGradient id="upward" x1="0" x2="0" y1="0" y2="1">
            <stop offset={1 - (heart / height) * 1.3} stop-color="#fff" />
            <stop offset={1 - (heart / height) * 0.7} stop-color="#000" />
          </linearGradient>
          <mask id="upper" maskUnits="userSpaceOnUse" x="-200" y={-size} width="400" height={size}>
            <rect x="-200" y={-size} width="400" height={size} fill="url(#upward)" />
          </mask>
        </defs>
        <line class="bench-line" x1="60" x2="500" y1="140" y2="140" />
        <g transform="translate(280 139)">
          {layers.map((layer, i) => (
            <path key={i} d={layer.outline} style={{ fill: colour(layer.base_mm) }} />
          ))}
          <g mask="url(#upper)">
            {layers.map((layer, i) => (
              <path key={i} d={layer.outline} style={{ fill: colour(layer.top_mm) }} />
            ))}
          </g>
          <circle class="heart" r="3" cx="0" cy={-(heart / height) * size} />
        </g>
        <text x="292" y={143 - (heart / height) * size} class="on-crumb">{inside}{filled && <tspan class="quiet"> filling</tspan>}</text>
        <text x="430" y="44">{skin} <tspan class="quiet">crust</tspan></text>
        <text x="430" y="128">{foot} <tspan class="quiet">base</tspan></text>
        <text x="130" y="92" text-anchor="end">{figure(height)} mm <tspan class="quiet">high</tspan></text>
      </svg>
      {moments > 1 && (
        <label class="time">
          <span>{time === undefined ? "" : duration(time)}</span>
          <input type="range" min={0} max={moments - 1} value={chosen} aria-label="Time in the oven"
            aria-valuetext={`${time === undefined ? chosen : duration(time)}: ${inside} at the heart`}
            onInput={(event) => (moment.value = Number(event.currentTarget.value))} />
        </label>
      )}
    </div>
  );
}

const shapes: Readonly<Record<string, string>> = {
  cluster: "touching piece", hearth: "hearth loaf", flat: "flatbread",
};

/** "2 hearth loaves". */
function pieceWords(shape: string, count: number): string {
  const one = shapes[shape] ?? plain(shape);
  return count === 1 ? one : one.endsWith("loaf") ? `${one.slice(0, -1)}ves` : `${one}s`;
}

export function BakePicture({ bake }: { bake: Bake }) {
  const curve = bake.band;
  const pieces = bake.pieces !== undefined
    ? `${figure(bake.pieces)} ${pieceWords(bake.shape ?? "piece", bake.pieces)}`
    : pieceWords(bake.shape ?? "", 1);
  const setting = bake.setting_celsius === undefined ? "" : degrees(bake.setting_celsius, tongue.value);
  const stated = bake.at_stated_time;
  const drawn = curve && curve.minutes.length > 1 && curve.core_celsius.p50.length === curve.minutes.length;
  const when = bake.minutes_to_done ? ` Done in ${saidDurations(bake.minutes_to_done.p10, bake.minutes_to_done.p90)}.` : "";
  const band: Band | null = drawn
    ? {
        minutes: curve.minutes,
        curves: curve.core_celsius,
        target: bake.core_celsius?.p50,
        reached: bake.minutes_to_done,
        print: (celsius) => degrees(celsius, tongue.value),
        label: `Temperature at the heart of the piece over the bake.${when}`,
        unit: "heart",
        height: 150,
        until: bake.minutes_to_done
          ? Math.max(bake.minutes_to_done.p90 * 1.25, (stated?.minutes ?? 0) * 1.1)
          : undefined,
      }
    : null;
  if (!band && !bake.section) {
    return null;
  }
  return (
    <figure class="picture bake-picture">
      <figcaption>
        <h2>The bake</h2>
        <Quiet>{[pieces, setting].filter((words) => words !== "").join(" at ")}</Quiet>
      </figcaption>
      {bake.section && <Cut section={bake.section} done={bake.minutes_to_done?.p50} />}
      {band && <BandPlot {...band} />}
      {stated && (
        <p class="stated">
          After the written {duration(stated.minutes)}: {bakedWords(stated, tongue.value)}.
        </p>
      )}
      <Figures title="The bake">{band && <BandTable {...band} />}</Figures>
    </figure>
  );
}
