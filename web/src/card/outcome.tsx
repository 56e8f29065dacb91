// What will happen in this kitchen: the dough, the rises, the bake, the glaze, and the day.

import type { Bake, Forecast, Prove } from "../api.ts";
import { proveName, isProve } from "../baking/sights.ts";
import type { ChecklistStep } from "../baking/log.ts";
import type { Say } from "../baking/words.ts";
import { type Day as DayPlan, type DayStep, hourWords, type Lane, laneOf, lanesIn, minutesOf } from "../day.ts";
import { BandPlot } from "../band_plot.tsx";
import { GlazePicture } from "../glaze_picture.tsx";
import { figure, longestMinutes, saidDuration, saidDurations } from "../numbers.ts";
import { capital, degrees, plain, type Tongue } from "../words.ts";

interface OutcomeProps {
  forecast: Forecast;
  day: DayPlan | null;
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

const laneHeight = 22;
const lanesWide = 340;
const lanesLeft = 78;

/** When a step begins, and what it is, in the words of the checklist. */
interface DayMark {
  lane: Lane;
  begins: number;
  words: string;
}

/** The turns of the day: each rise, the oven put on, the bake. */
function marksOf(steps: readonly DayStep[], { checklist, say }: OutcomeProps): DayMark[] {
  const proves = checklist.filter(isProve);
  let prove = 0;
  return steps.flatMap((step): DayMark[] => {
    const begins = minutesOf(step.start);
    const risen = step.kind === "prove" ? proves[prove++] : undefined;
    const words = step.kind === "prove" ? say(capital((risen ? proveName(risen, checklist).trim() : step.name) || "prove"))
      : step.kind === "heat_oven" ? say("Heat the oven")
        : step.kind === "bake" ? say("Into the oven") : "";
    return begins === null || words === "" ? [] : [{ lane: laneOf(step), begins, words }];
  });
}

/** The day begun now, as it is planned: one pair of hands, one oven, parts side by side. */
function DayOf(props: OutcomeProps & { day: DayPlan }) {
  const { day, say } = props;
  const steps = day.steps.filter(({ start, end }) => start !== null && end !== null);
  const at = (clock: string | null): number => minutesOf(clock) ?? 0;
  const begin = at(day.begin);
  const whole = Math.max(30, Math.max(...steps.map(({ end }) => at(end)), begin) - begin);
  const rows = lanesIn(steps);
  const x = (minutes: number): number => lanesLeft + ((minutes - begin) / whole) * (lanesWide - lanesLeft);
  const ready = day.ready_at;
  const words = ready?.p50
    ? say("Begun now, done about {time}", { time: hourWords(at(ready.p50)) })
    : say("not in two days");
  return (
    <figure class="picture outcome-picture day">
      <figcaption>
        <h3>{say("The day")}</h3>
        <p>
          {words}
          {ready?.p10 && ready.p90 && <span class="spread"> ({hourWords(at(ready.p10))}–{hourWords(at(ready.p90))})</span>}
        </p>
      </figcaption>
      <svg viewBox={`0 0 ${lanesWide} ${rows.length * laneHeight}`} role="img" aria-label={words}>
        {rows.map((lane, row) => (
          <g key={lane}>
            <text x={lanesLeft - 6} y={row * laneHeight + 15} text-anchor="end">{say(lane)}</text>
            {steps.filter((step) => laneOf(step) === lane).map((step) => (
              <rect key={step.name} class={lane} x={x(at(step.start))} y={row * laneHeight + 3} height={laneHeight - 6} rx="3"
                width={Math.max(2, x(at(step.end)) - x(at(step.start)) - 1)} />
            ))}
          </g>
        ))}
      </svg>
      <ul class="day-marks">
        {marksOf(steps, props).map(({ lane, begins, words: what }) => (
          <li key={`${begins}${what}`}><span class={`swatch ${lane}`} /> {hourWords(begins)} {what}</li>
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
      {props.day && <DayOf {...props} day={props.day} />}
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
