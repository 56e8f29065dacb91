// What to do about it: what to hold back, what to beware of, what to measure first.

import type { ComponentChildren } from "preact";
import type { Forecast, HoldBack as HoldBackFound, NarrowBy } from "./api.ts";
import { figure, gramsFigure } from "./numbers.ts";
import { capital } from "./words.ts";

function HoldBackOf({ hold }: { hold: HoldBackFound }) {
  return (
    <>
      <p>
        Put in <strong>{gramsFigure(hold.at_first_grams)} g</strong> of the {hold.of} at first and
        keep <strong>{gramsFigure(hold.keep_by_grams)} g</strong> by until you have felt the dough.
      </p>
      <ol>
        {(hold.steps ?? []).map((step, i) => (
          <li key={i}><span class="at-grams">{gramsFigure(step.added_grams)} g more</span> {step.do}</li>
        ))}
      </ol>
    </>
  );
}

const worth = (hold: HoldBackFound | undefined): hold is HoldBackFound => hold !== undefined && hold.keep_by_grams > 0.5;

function HoldBackSteps({ hold, liquid }: { hold: HoldBackFound; liquid: HoldBackFound | undefined }) {
  if (!worth(hold)) {
    return null;
  }
  return (
    <section class="picture hold-back">
      <h2>Hold back</h2>
      <HoldBackOf hold={hold} />
      {worth(liquid) && (
        <details>
          <summary>Or the liquid, with all the flour in</summary>
          <HoldBackOf hold={liquid} />
        </details>
      )}
    </section>
  );
}

/** A heading with its points; nothing where there is none. */
function Points({ kind, heading, points }: { kind: string; heading: string; points: ComponentChildren[] }) {
  return points.length === 0 ? null : (
    <section class={`picture ${kind}`}>
      <h2>{heading}</h2>
      <ul>{points.map((point, i) => <li key={i}>{point}</li>)}</ul>
    </section>
  );
}

function Narrowing({ by }: { by: NarrowBy }) {
  const { from, to, unit } = by;
  return (
    <li>
      <p><strong>{capital(by.measure)}</strong>: narrows {by.narrows}</p>
      {from !== undefined && to !== undefined && from > 0 && (
        <p class="narrowing">
          <span class="bar" aria-hidden="true">
            <span style={{ width: `${Math.min(100, (to / from) * 100)}%` }} />
          </span>
          from {figure(from, from < 10 ? 1 : 0)} down to {figure(to, to < 10 ? 1 : 0)} {unit ?? ""}
        </p>
      )}
    </li>
  );
}

/** What to keep by when mixing, with its steps where the forecast gives them. */
export function HoldBackAdvice({ forecast }: { forecast: Forecast }) {
  const { hold_back, hold_back_liquid } = forecast.dough ?? {};
  return hold_back ? <HoldBackSteps hold={hold_back} liquid={hold_back_liquid} /> : null;
}

export function Advice({ forecast }: { forecast: Forecast }) {
  const narrow = (forecast.narrow_by ?? []).slice(0, 4);
  return (
    <>
      {narrow.length > 0 && (
        <section class="picture narrow">
          <h2>Measure first</h2>
          <ol>{narrow.map((by, i) => <Narrowing key={i} by={by} />)}</ol>
        </section>
      )}
      <Points kind="cautions" heading="Beware" points={(forecast.cautions ?? []).map(({ text }) => text)} />
      <Points kind="granted" heading="Taken for granted" points={(forecast.doubts ?? []).map(({ text, why }) =>
        <>{text !== "" && <strong>{capital(text)}: </strong>}{why}.</>)} />
    </>
  );
}
