// What if: the rise and the bake as they would be with one thing changed, worked out once it is
// asked, and again when the bench changes.

import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { askWhatIf, type BakeWhatIf, type RiseWhatIf, type WhatIfAnswer } from "./api.ts";
import { figure, saidDuration, saidDurations } from "./numbers.ts";
import { Problem, Quiet } from "./plain.tsx";
import { sentenceOf } from "./server.ts";
import { bench, drawsShown, forecast, recipeNow, tongue } from "./store.ts";
import { fullDraws } from "./forecast_runner.ts";
import { Table } from "./table.tsx";
import { capital, degrees } from "./words.ts";

/** Degrees as the reader has them. */
const inTongue = (words: string): string =>
  capital(words.replace(/(\d+) °C/g, (_, celsius: string) => degrees(Number(celsius), tongue.value)));

function riseRow({ what, rise_minutes: { p10, p50, p90 }, chance_reached }: RiseWhatIf): string[] {
  const sure = chance_reached < 0.95 ? `, in ${Math.round(chance_reached * 100)} of 100` : "";
  return [inTongue(what), p50 === null ? "never" : saidDuration(p50) + sure, p10 === null || p90 === null ? "–" : saidDurations(p10, p90)];
}

const bakeRow = ({ what, problem, minutes = 0, core_celsius = 0, crust = "–", weight_loss_pct = 0 }: BakeWhatIf): string[] =>
  problem ? [inTongue(what), "–", problem, ""]
    : [inTongue(what), saidDuration(minutes), `${crust}, ${degrees(core_celsius, tongue.value)}`, `${figure(weight_loss_pct, 0)} %`];

function Answer({ answer: { what_if: rise, bake_what_if: bake } }: { answer: WhatIfAnswer }) {
  const golden = bake?.for_golden;
  const dry = bake?.last_minute_before_dry;
  return (
    <>
      <Problem>{rise?.problem}</Problem>
      {rise?.as_it_is && <Table class="effect" of={["The rises", "Likely", "Eight in ten"]} rows={[rise.as_it_is, ...rise.others].map(riseRow)} />}
      <Problem>{bake?.problem}</Problem>
      {bake?.as_it_is && <Table class="effect" of={["The bake", "Done in", "Crust, heart", "Lighter"]} rows={[bake.as_it_is, ...bake.others].map(bakeRow)} />}
      {golden?.celsius !== undefined && golden.minutes !== undefined && (
        <p>Golden just when it is done: {degrees(golden.celsius, tongue.value)}, {saidDuration(golden.minutes)}.</p>
      )}
      {dry !== undefined && <p>It counts as dry from {saidDuration(dry)} on.</p>}
    </>
  );
}

export function WhatIf() {
  const open = useSignal(false);
  const answer = useSignal<WhatIfAnswer | null>(null);
  const problem = useSignal("");
  const full = drawsShown.value === fullDraws;
  const now = forecast.value;
  useEffect(() => {
    const recipe = recipeNow.value;
    if (!open.value || !full || !recipe) {
      return;
    }
    let late = false;
    askWhatIf(recipe, bench.value.kitchen).then(
      (said) => { if (!late) { answer.value = said; problem.value = ""; } },
      (error: unknown) => { if (!late) { problem.value = sentenceOf(error); } });
    return () => { late = true; };
  }, [open.value, now, full]);
  return (
    <details class="picture what-if" open={open.value} onToggle={(event) => (open.value = event.currentTarget.open)}>
      <summary>What if?</summary>
      <Problem>{problem.value}</Problem>
      {answer.value ? <Answer answer={answer.value} /> : <Quiet>Working it out …</Quiet>}
    </details>
  );
}
