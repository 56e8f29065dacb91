// A rise over time, as a band, with the size to reach.

import type { Prove } from "./api.ts";
import { type Band, BandPlot, BandTable } from "./band_plot.tsx";
import { Figures } from "./figures.tsx";
import { proveName, targetWords } from "./forecast_words.tsx";
import { figure, longestMinutes, rangeWords, saidDurations, statedMinutes } from "./numbers.ts";
import { Quiet } from "./plain.tsx";
import { tongue } from "./store.ts";
import { capital, degrees } from "./words.ts";

/** The size to reach as a ratio of volumes; undefined where it is no size. */
function targetRatio({ target, target_volume_ratio }: Prove): number | undefined {
  if (target_volume_ratio !== undefined) {
    return target_volume_ratio;
  }
  if (typeof target === "number") {
    return target;
  }
  const words = (target ?? "").toLowerCase();
  return /doubl|twice/.test(words) ? 2 : /tripl|three times/.test(words) ? 3 : undefined;
}

const usable = (band: Prove["band"]): band is NonNullable<Prove["band"]> =>
  band !== undefined && band.minutes.length > 1 &&
  band.volume_ratio.p50.length === band.minutes.length;

export function RisePicture({ prove }: { prove: Prove }) {
  if (!usable(prove.band)) {
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
  const target = targetRatio(prove);
  const reach = prove.minutes_to_target;
  const said = prove.stated_minutes?.high ?? prove.stated_minutes?.low;
  const band: Band = {
    minutes: prove.band.minutes,
    curves: prove.band.volume_ratio,
    target,
    reached: (reach?.p50 ?? 0) < longestMinutes ? reach : null,
    print: (ratio) => `× ${figure(ratio, 1)}`,
    // The rise to its target and a while beyond; where it leads after that is another question.
    until: reach && reach.p90 < longestMinutes ? Math.max(reach.p90 * 1.4, (said ?? 0) * 1.1) : undefined,
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
      {stated !== "" && then && (
        <p class="stated">
          After the written {stated} it is {rangeWords(then, (ratio) => figure(ratio, 1))} times its size.
        </p>
      )}
      <Figures title={name}><BandTable {...band} /></Figures>
    </figure>
  );
}
