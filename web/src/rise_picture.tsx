// A rise over time, as a band, with the size to reach.

import type { Prove } from "./api.ts";
import { type Band, BandPlot, BandTable } from "./band_plot.tsx";
import { Figures } from "./figures.tsx";
import { proveName, targetWords } from "./forecast_words.tsx";
import { figure, longestMinutes, rangeWords, saidDurations, statedMinutes } from "./numbers.ts";
import { Quiet } from "./plain.tsx";
import { tongue } from "./store.ts";
import { capital, degrees } from "./words.ts";

const usable = (band: Prove["band"]): band is NonNullable<Prove["band"]> =>
  band !== undefined && band.minutes.length > 1 &&
  band.volume_ratio.p50.length === band.minutes.length;

export function RisePicture({ prove }: { prove: Prove }) {
  // In the freezer nothing rises.
  if (!usable(prove.band) || prove.frost) {
    return null;
  }
  const name = capital(proveName(prove, tongue.value));
  const when = prove.minutes_to_target
    ? `, in ${saidDurations(prove.minutes_to_target.p10, prove.minutes_to_target.p90)}`
    : "";
  const stated = statedMinutes(prove.stated_minutes);
  const then = prove.volume_ratio_at_stated;
  const warmth =
    typeof prove.celsius === "number" ? prove.celsius : (prove.celsius?.p50 ?? null);
  const target = prove.target_volume_ratio;
  const reach = prove.minutes_to_target;
  const said = prove.stated_minutes?.high ?? prove.stated_minutes?.low;
  // The rise to its target and a while beyond; where it leads after that is another question.
  const until = reach && reach.p90 < longestMinutes ? Math.max(reach.p90 * 1.4, (said ?? 0) * 1.1) : undefined;
  const { minutes } = prove.band;
  const last = minutes.filter((minute) => minute <= (until ?? Infinity)).length - 1;
  const warm = prove.dough_band?.celsius.p50;
  const band: Band = {
    minutes,
    curves: prove.band.volume_ratio,
    target,
    reached: (reach?.p50 ?? 0) < longestMinutes ? reach : null,
    print: (ratio) => `× ${figure(ratio, 1)}`,
    until,
    most: target === undefined ? undefined : 1 + (target - 1) * 1.8,
    height: 164,
    label: `${name}: ${targetWords(prove.target)}${when}.`,
    unit: "size",
  };
  return (
    <figure class="picture rise-picture">
      <figcaption>
        <h2>{name}</h2>
        <Quiet>
          until {targetWords(prove.target)}{warmth !== null && `, at ${degrees(warmth, tongue.value)}`}
        </Quiet>
      </figcaption>
      <BandPlot {...band} />
      {warm && (
        <p class="quiet warmth">
          <span>dough</span>
          {[0, 1, 2, 3, 4].map((part) => (
            <span key={part}>{degrees(warm[Math.round((part / 4) * last)] ?? NaN, tongue.value)}</span>
          ))}
        </p>
      )}
      {stated !== "" && then && (
        <p class="stated">
          After the written {stated} it is {rangeWords(then, (ratio) => figure(ratio, 1))} times its size.
        </p>
      )}
      <Figures title={name}><BandTable {...band} /></Figures>
    </figure>
  );
}
