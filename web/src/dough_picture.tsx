// The dough between stiff and batter: a lump that slumps as it softens, at its place
// along the bench, with its likely neighbours as shadows; below it twenty grains, each
// one chance in twenty.

import type { DoughForecast } from "./api.ts";
import { Figures } from "./figures.tsx";
import { feelAt, feels, grainsOf, lump, lumpHalf } from "./grains.ts";
import { figure, rangeWords } from "./numbers.ts";
import { Table } from "./table.tsx";
import { plain } from "./words.ts";

const width = 560;
const left = 60;
const right = width - 60;
const bench = 76;
const floor = 182;
const kernel = "M0-7.5C4.4-4.2 4.4 3 0 7 -4.4 3 -4.4-4.2 0-7.5Z";

const across = (place: number): number => left + place * (right - left);

function Grains({ shares }: { shares: number[] }) {
  const perRow = 4;
  let index = 0;
  const counts = grainsOf(shares);
  const most = Math.max(...counts);
  return (
    <g class="grains">
      {counts.flatMap((count, feel) =>
        Array.from({ length: count }, (_, i) => {
          const row = Math.floor(i / perRow);
          const inRow = Math.min(perRow, count - row * perRow);
          const x = across(feel / (shares.length - 1)) + ((i % perRow) - (inRow - 1) / 2) * 12;
          const y = floor - 9 - row * 16;
          const lean = (index * 37) % 2 === 0 ? 16 : -16;
          return (
            <path
              key={index++}
              d={kernel}
              class={count === most ? "likely" : ""}
              style={{ transform: `translate(${x}px, ${y}px) rotate(${lean}deg)` }}
            />
          );
        }),
      )}
    </g>
  );
}

function Lump({ place, kind }: { place: number; kind: string }) {
  const size = 46;
  const outline = lump(place, size);
  // A puddle stays on the bench.
  const room = lumpHalf(place, size) + 12;
  const x = Math.max(room, Math.min(width - room, across(place)));
  return (
    <g class={`lump ${kind}`} style={{ transform: `translate(${x}px, ${bench}px)` }}>
      <path d={outline} style={{ d: `path("${outline}")` }} />
    </g>
  );
}

type Figure = "total_grams" | "effective_hydration" | "water_pct_flour" | "sugar_pct_flour" | "fat_pct_flour" | "salt_pct_flour";
const figures: readonly [Figure, string][] = [
  ["total_grams", "Dough, g"],
  ["effective_hydration", "Water it feels, % of flour"],
  ["water_pct_flour", "Water in all, % of flour"],
  ["sugar_pct_flour", "Sugar, % of flour"],
  ["fat_pct_flour", "Fat, % of flour"],
  ["salt_pct_flour", "Salt, % of flour"],
];

function DoughFigures({ dough }: { dough: DoughForecast }) {
  return (
    <Figures title="The dough">
      <Table of={["What", "Likely", "Eight in ten"]} rows={figures.flatMap(([field, name]) => {
        const range = dough[field];
        if (!range) {
          return [];
        }
        const print = (value: number): string => figure(value, range.p50 < 10 ? 1 : 0);
        return [[name, print(range.p50), rangeWords(range, print)]];
      })} />
    </Figures>
  );
}

export function DoughPicture({ dough }: { dough: DoughForecast }) {
  const probability = dough.feel_probability ?? (dough.feel ? { [dough.feel]: 1 } : null);
  if (!probability) {
    return <DoughFigures dough={dough} />;
  }
  const shares = feels.map((feel) => probability[feel] ?? 0);
  const said = feels
    .map((feel, i) => ({ feel, percent: Math.round((shares[i] ?? 0) * 100) }))
    .filter(({ percent }) => percent > 0)
    .map(({ feel, percent }) => `${plain(feel)} ${percent} in 100`)
    .join(", ");
  return (
    <figure class="picture dough-picture">
      <figcaption><h2>The dough</h2></figcaption>
      <svg viewBox={`0 0 ${width} 212`} role="img" aria-label={`Feel of the dough: ${said}.`}>
        <line class="bench-line" x1="8" x2={width - 8} y1={bench} y2={bench} />
        <Lump place={feelAt(shares, 0.1)} kind="shadow" />
        <Lump place={feelAt(shares, 0.9)} kind="shadow" />
        <Lump place={feelAt(shares, 0.5)} kind="body" />
        <line class="axis" x1="8" x2={width - 8} y1={floor} y2={floor} />
        <Grains shares={shares} />
        {feels.map((feel, i) => (
          <text key={feel} class={feel === dough.feel ? "likely" : ""} x={across(i / (feels.length - 1))}
            y={floor + 21} text-anchor="middle">{plain(feel)}</text>
        ))}
      </svg>
      <DoughFigures dough={dough} />
    </figure>
  );
}
