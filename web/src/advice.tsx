// What to do about it: what to hold back, what to beware of, what to measure first.

import type { Forecast, HoldBack as HoldBackFound, NarrowBy, Range } from "./api.ts";
import { figure, gramsFigure, isExact } from "./numbers.ts";
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

function HoldBack({ grams }: { grams: Range | number }) {
  const range = typeof grams === "number" ? { p10: grams, p50: grams, p90: grams } : grams;
  if (!(range.p90 > 0.5)) {
    return null;
  }
  return (
    <section class="picture hold-back">
      <h2>Hold back</h2>
      <p>
        Keep <strong>{gramsFigure(range.p90)} g</strong> by when you mix, and add it by the
        spoonful once you have felt the dough.
        {!isExact(range) && <> It will likely want <strong>{gramsFigure(range.p50)} g</strong> of that.</>}
      </p>
    </section>
  );
}

function Cautions({ cautions }: { cautions: NonNullable<Forecast["cautions"]> }) {
  if (cautions.length === 0) {
    return null;
  }
  return (
    <section class="picture cautions">
      <h2>Beware</h2>
      <ul>
        {cautions.map((caution, i) => (
          <li key={i}>{caution.text}</li>
        ))}
      </ul>
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

function TakenForGranted({ doubts }: { doubts: NonNullable<Forecast["doubts"]> }) {
  if (doubts.length === 0) {
    return null;
  }
  return (
    <section class="picture granted">
      <h2>Taken for granted</h2>
      <ul>
        {doubts.map((doubt, i) => (
          <li key={i}>{doubt.text !== "" && <strong>{capital(doubt.text)}: </strong>}{doubt.why}.</li>
        ))}
      </ul>
    </section>
  );
}

/** What to keep by when mixing, with its steps where the forecast gives them. */
export function HoldBackAdvice({ forecast }: { forecast: Forecast }) {
  const { hold_back, hold_back_liquid, hold_back_grams } = forecast.dough ?? {};
  if (hold_back) {
    return <HoldBackSteps hold={hold_back} liquid={hold_back_liquid} />;
  }
  return hold_back_grams === undefined || hold_back_grams === null ? null : (
    <HoldBack grams={hold_back_grams} />
  );
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
      <Cautions cautions={forecast.cautions ?? []} />
      <TakenForGranted doubts={forecast.doubts ?? []} />
    </>
  );
}
