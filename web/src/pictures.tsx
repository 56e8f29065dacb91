// The forecast: in words first, then pictures that follow the hand.

import { Advice, HoldBackAdvice } from "./advice.tsx";
import { BakePicture } from "./bake_picture.tsx";
import { DayPicture } from "./day_picture.tsx";
import { DoughPicture } from "./dough_picture.tsx";
import { Finish } from "./finish.tsx";
import { ForecastWords } from "./forecast_words.tsx";
import { Problem } from "./plain.tsx";
import { RisePicture } from "./rise_picture.tsx";
import { drawsShown, forecast, forecasting, forecastProblem } from "./store.ts";
import { figure } from "./numbers.ts";
import { WhatIf } from "./what_if.tsx";

export function Pictures() {
  const now = forecast.value;
  const busy = forecasting.value !== "still";
  return (
    <section id="pictures" class="pictures" aria-label="Forecast" aria-busy={busy} tabIndex={0}>
      <p class={`working ${busy ? "on" : ""}`} aria-hidden="true" />
      <Problem>{forecastProblem.value}</Problem>
      {now === null ? (
        <div class="waiting" aria-hidden="true" />
      ) : (
        <div class={forecastProblem.value === "" ? "" : "stale"}>
          <ForecastWords forecast={now} />
          {now.dough && <DoughPicture dough={now.dough} />}
          <DayPicture />
          <HoldBackAdvice forecast={now} />
          {(now.proves ?? []).map((prove, i) => <RisePicture key={i} prove={prove} />)}
          {now.bake && <BakePicture bake={now.bake} />}
          <WhatIf />
          <Finish forecast={now} />
          <Advice forecast={now} />
          <p class="quiet draws">
            {drawsShown.value > 0 && `Worked through ${figure(drawsShown.value)} times, each with
            another cup, egg, flour, yeast and oven. A range holds eight of ten.`}
          </p>
        </div>
      )}
    </section>
  );
}
