// What will happen in this kitchen: the dough, the rises, the bake, the glaze, and the day.

import type { Bake, Forecast, Prove } from "../api.ts";
import { comingSteps } from "../baking/outlook.ts";
import { aboutTimeOfDay } from "../baking/clock_times.ts";
import { proveName, isBake, isProve } from "../baking/sights.ts";
import type { ChecklistStep } from "../baking/log.ts";
import type { Say } from "../baking/words.ts";
import { BandPlot } from "../band_plot.tsx";
import { GlazePicture } from "../glaze_picture.tsx";
import { figure, longestMinutes, saidDuration, saidDurations } from "../numbers.ts";
import { capital, degrees, plain, type Tongue } from "../words.ts";

interface OutcomeProps {
  forecast: Forecast;
  checklist: readonly ChecklistStep[];
  say: Say;
  tongue: Tongue;
}

function Rise({ prove, name, say, tongue }: { prove: Prove; name: string; say: Say; tongue: Tongue }) {
  const reach = prove.minutes_to_target;
  const reached = reach && reach.p50 < longestMinutes ? reach : null;
  const band = prove.band;
  const warmth = typeof prove.celsius === "number" ? prove.celsius : prove.celsius?.p50;
  return (
    <figure class="picture outcome-picture">
      <figcaption>
        <h3>{name}</h3>
        <p>
          <strong>{reached ? saidDuration(reached.p50) : say("not in two days")}</strong>
          {reached && <span class="spread"> ({saidDurations(reached.p10, reached.p90)})</span>}
          {warmth !== undefined && <span class="spread">, {degrees(warmth, tongue)}</span>}
        </p>
      </figcaption>
      {band && band.minutes.length > 1 && (
        <BandPlot minutes={band.minutes} curves={band.volume_ratio} target={prove.target_volume_ratio} reached={reached}
          until={reached ? reached.p90 * 1.3 : (band.minutes.at(-1) ?? 0)} unit="" height={220}
          most={1 + ((prove.target_volume_ratio ?? 2) - 1) * 1.8}
          label={`${name}: ${reached ? saidDurations(reached.p10, reached.p90) : say("not in two days")}`}
          print={(ratio) => `× ${figure(ratio, 1)}`} />
      )}
    </figure>
  );
}

const crustInks: Readonly<Record<string, string>> = {
  pale: "var(--cut-crumb)", "light gold": "var(--cut-light)", golden: "var(--cut-gold)",
  brown: "var(--cut-brown)", dark: "var(--dark-crust)", burnt: "var(--cut-burnt)",
};

function Oven({ bake, say, tongue }: { bake: Bake; say: Say; tongue: Tongue }) {
  const done = bake.minutes_to_done;
  const crusts = Object.entries(bake.crust_probability ?? {}).filter(([, share]) => share > 0.04);
  return (
    <figure class="picture outcome-picture">
      <figcaption>
        <h3>{say("The bake")}</h3>
        <p>
          {done && <><strong>{saidDuration(done.p50)}</strong><span class="spread"> ({saidDurations(done.p10, done.p90)})</span></>}
          {bake.setting_celsius !== undefined && <span class="spread">, {degrees(bake.setting_celsius, tongue)}</span>}
        </p>
      </figcaption>
      {bake.band && bake.band.minutes.length > 1 && (
        <BandPlot minutes={bake.band.minutes} curves={bake.band.core_celsius} target={bake.core_celsius?.p50}
          reached={done} until={(done?.p90 ?? 60) * 1.2} unit="" height={220}
          label={`${say("Core temperature")}: ${done ? saidDurations(done.p10, done.p90) : ""}`}
          print={(celsius) => degrees(celsius, tongue)} />
      )}
      {crusts.length > 0 && (
        <ul class="crusts" aria-label={say("The crust")}>
          {crusts.map(([name, share]) => (
            <li key={name} style={{ flexGrow: share }}>
              <span class="crust" style={{ background: crustInks[name] ?? "var(--cut-gold)" }} />
              <span>{say(capital(plain(name)))} {Math.round(share * 100)} %</span>
            </li>
          ))}
        </ul>
      )}
    </figure>
  );
}

/** The day from now: hands, waiting and oven one after the other. */
function Day({ forecast, checklist, say }: OutcomeProps) {
  const now = Date.now();
  const steps = comingSteps(checklist, { steps: new Map(), notes: [] }, forecast, now);
  const end = steps.at(-1)?.ends_at_ms ?? now;
  const whole = Math.max(1, end - now);
  const kind = (step: ChecklistStep): string =>
    isProve(step) || step.kind === "rest" || step.kind === "cool" || step.kind === "soak" ? "wait" : isBake(step) ? "oven" : "hands";
  const marked = steps.filter(({ step }) => isProve(step) || isBake(step));
  return (
    <figure class="picture outcome-picture day">
      <figcaption>
        <h3>{say("The day")}</h3>
        <p>{say("Begun now, done about {time}", { time: aboutTimeOfDay(end) })}</p>
      </figcaption>
      <svg viewBox="0 0 340 30" role="img" preserveAspectRatio="none"
        aria-label={say("Begun now, done about {time}", { time: aboutTimeOfDay(end) })}>
        {steps.map(({ step, begins_at_ms, ends_at_ms }) => (
          <rect key={step.step} class={kind(step)} y="2" height="26" x={((begins_at_ms - now) / whole) * 340}
            width={Math.max(1, ((ends_at_ms - begins_at_ms) / whole) * 340 - 1)} />
        ))}
      </svg>
      <ul class="day-marks">
        {marked.map(({ step, begins_at_ms }) => (
          <li key={step.step}>
            <span class={`swatch ${kind(step)}`} /> {aboutTimeOfDay(begins_at_ms)}{" "}
            {isBake(step) ? say("Into the oven") : say(capital(proveName(step, checklist).trim() || "prove"))}
          </li>
        ))}
      </ul>
    </figure>
  );
}

export function Outcome(props: OutcomeProps) {
  const { forecast, checklist, say, tongue } = props;
  const proves = checklist.filter(isProve);
  const glaze = (forecast.finish ?? []).find((entry) => entry.what === "glaze");
  const feel = forecast.dough?.feel;
  return (
    <section class="outcome" aria-label={say("In your kitchen")}>
      <h2>{say("In your kitchen")}</h2>
      {feel && (
        <p class="feel-line">
          {say("The dough")}: <strong>{say(capital(plain(feel)))}</strong>
          {forecast.dough?.feel_words && <span class="quiet"> {forecast.dough.feel_words}</span>}
        </p>
      )}
      <Day {...props} />
      {(forecast.proves ?? []).map((prove, i) => (
        <Rise key={i} prove={prove} say={say} tongue={tongue}
          name={say(capital(proves[i] ? proveName(proves[i], checklist).trim() : prove.name))} />
      ))}
      {forecast.bake && <Oven bake={forecast.bake} say={say} tongue={tongue} />}
      {glaze && (
        <figure class="picture outcome-picture">
          <figcaption><h3>{say("The glaze")}</h3></figcaption>
          <GlazePicture entry={glaze} />
        </figure>
      )}
    </section>
  );
}
