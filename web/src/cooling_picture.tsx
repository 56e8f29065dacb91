// The piece on its rack: crust and heart as they cool, with the line under which the glaze
// stays where it is put.

import type { Curves, FinishEntry } from "./api.ts";
import { type Band, BandPlot } from "./band_plot.tsx";
import { rangeAt } from "./finish_words.ts";
import { saidDurations } from "./numbers.ts";
import { tongue } from "./store.ts";
import { degrees } from "./words.ts";

const times = [2, 5, 10, 15, 20, 30, 45, 60, 90];

/** The times at which a temperature is known, and its percentiles there. */
function curveOf(entry: FinishEntry, start: string): { minutes: number[]; curves: Curves } {
  const known = times.flatMap((minutes) => {
    const range = rangeAt(entry, `${start}${minutes}`);
    return range ? [{ minutes, range }] : [];
  });
  return {
    minutes: known.map(({ minutes }) => minutes),
    curves: {
      p10: known.map(({ range }) => range.p10),
      p50: known.map(({ range }) => range.p50),
      p90: known.map(({ range }) => range.p90),
    },
  };
}

export function CoolingPicture({ entry, glaze }: { entry: FinishEntry; glaze: FinishEntry | undefined }) {
  const crust = curveOf(entry, "surface_celsius_");
  const heart = curveOf(entry, "centre_celsius_");
  if (crust.minutes.length < 2) {
    return null;
  }
  const after = glaze && rangeAt(glaze, "glaze_after_minutes");
  const most = glaze && rangeAt(glaze, "surface_at_most_celsius");
  const band: Band = {
    ...crust,
    beside: heart.minutes.length === crust.minutes.length ? { values: heart.curves.p50, word: "heart" } : undefined,
    target: after ? most?.p50 : undefined,
    reached: after,
    print: (celsius) => degrees(celsius, tongue.value),
    label: `The crust as it cools${after && most ? `: at ${degrees(most.p50, tongue.value)}, after ${saidDurations(after.p10, after.p90)}, it may be glazed` : ""}.`,
    unit: "crust",
    height: 160,
  };
  return <BandPlot {...band} />;
}
