// The bake: a cut through the piece, coloured by its heat, and the heart's temperature
// over time until it is done.

import { useSignal } from "@preact/signals";
import type { Bake, Section } from "./api.ts";
import { type Band, BandPlot, BandTable } from "./band_plot.tsx";
import { at, coldest, momentCount, profileAt, shells } from "./cut.ts";
import { duration, figure, saidDurations } from "./numbers.ts";
import { tongue } from "./store.ts";
import { bakedWords } from "./forecast_words.tsx";
import { degrees, plain } from "./words.ts";

// Dough at room warmth to set crumb to brown crust; between them by mixing.
const heatStops: readonly [number, string][] = [
  [25, "var(--cut-raw)"], [60, "var(--cut-warm)"], [95, "var(--cut-crumb)"],
  [120, "var(--cut-gold)"], [160, "var(--cut-brown)"],
];

export function heatColour(celsius: number): string {
  for (let i = 1; i < heatStops.length; ++i) {
    const [low, from] = heatStops[i - 1] ?? [0, ""];
    const [high, to] = heatStops[i] ?? [0, ""];
    if (celsius <= high) {
      const share = Math.round(Math.max(0, (celsius - low) / (high - low)) * 100);
      return `color-mix(in oklab, ${to} ${share}%, ${from})`;
    }
  }
  return "var(--cut-brown)";
}

function Cut({ section }: { section: Section }) {
  const moments = momentCount(section);
  const moment = useSignal<number | null>(null);
  const chosen = Math.min(moment.value ?? moments - 1, moments - 1);
  const heat = profileAt(section, "temperature_c", chosen);
  if (!heat) {
    return null;
  }
  const heart = coldest(heat);
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
        aria-label={`Cut through the piece: ${skin} at the top, ${inside} at the heart, ${foot} at the base.`}>
        <defs>
          <clipPath id="upper"><rect x="-200" y={-size - 4} width="400" height={size + 4 - (heart / height) * size} /></clipPath>
        </defs>
        <line class="bench-line" x1="60" x2="500" y1="140" y2="140" />
        <g transform="translate(280 139)">
          {layers.map((layer, i) => (
            <path key={i} d={layer.outline} style={{ fill: heatColour(layer.base) }} />
          ))}
          <g clip-path="url(#upper)">
            {layers.map((layer, i) => (
              <path key={i} d={layer.outline} style={{ fill: heatColour(layer.top) }} />
            ))}
          </g>
          <circle class="heart" r="3" cx="0" cy={-(heart / height) * size} />
        </g>
        <text x="292" y={143 - (heart / height) * size} class="on-crumb">{inside}</text>
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

export function BakePicture({ bake }: { bake: Bake }) {
  const curve = bake.band;
  const pieces = bake.pieces !== undefined
    ? `${figure(bake.pieces)} ${plain(bake.shape ?? "piece")}${bake.pieces === 1 ? "" : "s"}`
    : plain(bake.shape ?? "");
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
      }
    : null;
  if (!band && !bake.section) {
    return null;
  }
  return (
    <figure class="picture bake-picture">
      <figcaption>
        <h2>The bake</h2>
        <p class="quiet">{[pieces, setting].filter((words) => words !== "").join(" at ")}</p>
      </figcaption>
      {bake.section && <Cut section={bake.section} />}
      {band && <BandPlot {...band} />}
      {stated && (
        <p class="stated">
          After the written {duration(stated.minutes)}: {bakedWords(stated, tongue.value)}.
        </p>
      )}
      {band && <details class="figures"><summary aria-label="The bake in figures">In figures</summary><BandTable {...band} /></details>}
    </figure>
  );
}
