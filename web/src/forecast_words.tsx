// What will happen, in a few sentences with their ranges.

import type { Forecast, Prove, Range } from "./api.ts";
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

export const crustWord = (crust: unknown): string => {
  if (typeof crust === "string") {
    return plain(crust);
  }
  const likeliest = Object.entries((crust ?? {}) as Record<string, unknown>)
    .filter((entry): entry is [string, number] => typeof entry[1] === "number")
    .sort((a, b) => b[1] - a[1])[0];
  return likeliest ? plain(likeliest[0]) : "";
};

export function ForecastWords({ forecast }: { forecast: Forecast }) {
  const { dough, proves, bake } = forecast;
  const feel = dough?.feel;
  const chance = feel ? dough?.feel_probability?.[feel] : undefined;
  const heat = (celsius: number): string => degrees(celsius, tongue.value);
  const crust = crustWord(bake?.crust);
  return (
    <div class="forecast-words" aria-live="polite">
      {feel && (
        <p>
          A <strong>{plain(feel)}</strong>{feel === "batter" ? "" : " dough"}
          {chance !== undefined && <span class="spread">, {Math.round(chance * 100)} in 100 sure</span>}.
        </p>
      )}
      {(proves ?? []).map((prove, i) =>
        prove.minutes_to_target ? (
          <p key={i}>
            {capital(proveName(prove, tongue.value))}: {targetWords(prove.target)} in{" "}
            <Likely range={prove.minutes_to_target} />.
          </p>
        ) : null,
      )}
      {bake?.minutes_to_done && (
        <p>
          Baked in <Likely range={bake.minutes_to_done} />
          {bake.core_celsius && <>, <strong>{heat(bake.core_celsius.p50)}</strong> at the heart</>}
          {crust !== "" && crust !== "none" && <>, {crust} outside</>}
          {bake.weight_loss_pct && <>, <strong>{figure(bake.weight_loss_pct.p50)} %</strong> lighter</>}.
        </p>
      )}
    </div>
  );
}
