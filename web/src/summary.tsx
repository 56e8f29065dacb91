// On a small screen: the forecast in one line at the foot, in reach of the thumb,
// while the amounts are above.

import { saidDurations } from "./numbers.ts";
import { forecast, forecasting } from "./store.ts";
import { lump, feelAt, feels } from "./grains.ts";
import { capital, plain } from "./words.ts";

export function Summary() {
  const now = forecast.value;
  const prove = now?.proves?.find((one) => one.minutes_to_target);
  const shares = feels.map((feel) => now?.dough?.feel_probability?.[feel] ?? 0);
  const place = feelAt(shares, 0.5);
  return (
    <a class={`summary ${forecasting.value === "still" ? "" : "working"}`} href="#pictures">
      <svg viewBox="-60 -52 120 56" aria-hidden="true">
        <line class="bench-line" x1="-58" x2="58" y1="0" y2="0" />
        <path class="dough" d={lump(place, 38)} />
      </svg>
      <span>
        <strong>{now?.dough?.feel ? capital(plain(now.dough.feel)) : "Forecast"}</strong>
        {prove?.minutes_to_target && <> · rises {saidDurations(prove.minutes_to_target.p10, prove.minutes_to_target.p90)}</>}
        {now?.bake?.minutes_to_done && <> · bakes {saidDurations(now.bake.minutes_to_done.p10, now.bake.minutes_to_done.p90)}</>}
      </span>
      <span class="more" aria-hidden="true">See</span>
    </a>
  );
}
