// What will happen, in a few sentences with their ranges.

import type { BakeMoment, Forecast, Prove, Range } from "./api.ts";
import { figure, isExact, saidDuration, saidDurations } from "./numbers.ts";
import { tongue } from "./store.ts";
import { capital, degrees, plain, type Tongue, word } from "./words.ts";

function Likely({ range }: { range: Range }) {
  return (
    <>
      <strong>{saidDuration(range.p50)}</strong>
      {!isExact(range, saidDuration) && (
        <span class="spread"> ({saidDurations(range.p10, range.p90)})</span>
      )}
    </>
  );
}

export const targetWords = (target: Prove["target"]): string =>
  typeof target === "number"
    ? `${figure(target, 1)} times its size`
    : plain(target ?? "ready").replace(/^until /, "");

export const proveName = (prove: Prove, tongueNow: Tongue): string =>
  word(plain(prove.name || "prove"), tongueNow);

/** Where a rise stops without getting there in some kitchens: "1 in 5 never get there". */
export function shortfall(chance: number | undefined): string {
  const never = 1 - (chance ?? 1);
  return never < 0.05 ? "" : never > 0.6
    ? never > 0.99 ? "it does not get there" : `only ${Math.round((1 - never) * 100)} in 100 ever get there`
    : `1 in ${Math.round(1 / never)} never gets there`;
}

/** "93 °C at the heart, golden outside, 9 % lighter", of what is known. */
export function bakedWords(baked: BakeMoment, tongueNow: Tongue): string {
  const crust = plain(baked.crust ?? "");
  return [
    baked.core_celsius ? `${degrees(baked.core_celsius.p50, tongueNow)} at the heart` : "",
    crust !== "" && crust !== "none" ? `${crust} outside` : "",
    baked.weight_loss_pct ? `${figure(baked.weight_loss_pct.p50)}\u00a0% lighter` : "",
  ].filter((words) => words !== "").join(", ");
}

export function ForecastWords({ forecast }: { forecast: Forecast }) {
  const { dough, proves, bake, preferments, counted_from } = forecast;
  const feel = dough?.feel;
  const chance = feel ? dough?.feel_probability?.[feel] : undefined;
  const baked = bake ? bakedWords(bake, tongue.value) : "";
  return (
    <div class="forecast-words" aria-live="polite">
      {feel && (
        <p>
          A <strong>{plain(feel)}</strong>{feel === "batter" ? "" : " dough"}
          {chance !== undefined && <span class="spread"> ({Math.round(chance * 100)} in 100)</span>}
          {dough?.feel_words ? `: ${dough.feel_words}.` : "."}
        </p>
      )}
      {(preferments ?? []).map((one) => (
        <p key={one.name}>
          {capital(one.name)}: {one.ripe_minutes.p90 !== null && <>ripe in <Likely range={one.ripe_minutes} />; </>}used at {figure(one.volume_ratio_at_end.p50, 1)}{" "}
          times its size, {figure(one.sugar_spent_pct.p50)}&nbsp;% of its sugar spent, pH&nbsp;{figure(one.ph.p50, 1)}.
        </p>
      ))}
      {counted_from && <p>Mixed at {counted_from}:</p>}
      {(proves ?? []).map((prove, i) =>
        prove.minutes_to_target ? (
          <p key={i}>
            {capital(proveName(prove, tongue.value))}: {targetWords(prove.target)} in{" "}
            <Likely range={prove.minutes_to_target} />.
            {shortfall(prove.chance_reached) !== "" && ` ${capital(shortfall(prove.chance_reached))}.`}
          </p>
        ) : null,
      )}
      {bake?.minutes_to_done && (
        <p>
          Baked in <Likely range={bake.minutes_to_done} />{baked === "" ? "" : `: ${baked}`}.
        </p>
      )}
      {forecast.bake_problem && <p>{forecast.bake_problem}</p>}
    </div>
  );
}
