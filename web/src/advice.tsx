// What to do about it: what to hold back, what to beware of, what to measure first.

import type { Forecast, NarrowBy, Range } from "./api.ts";
import { figure, gramsFigure, isExact } from "./numbers.ts";
import { capital } from "./words.ts";

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

const number = (value: unknown): number | null => (typeof value === "number" ? value : null);

function Narrowing({ by }: { by: NarrowBy }) {
  const from = number(by.from);
  const to = number(by.to);
  return (
    <li>
      <p><strong>{capital(by.measure)}</strong> <span class="spread">narrows {by.narrows}</span></p>
      {from !== null && to !== null && from > 0 && (
        <p class="narrowing">
          <span class="bar" aria-hidden="true">
            <span style={{ width: `${Math.min(100, (to / from) * 100)}%` }} />
          </span>
          from {figure(from, from < 10 ? 1 : 0)} to {figure(to, to < 10 ? 1 : 0)}
        </p>
      )}
    </li>
  );
}

export function Advice({ forecast }: { forecast: Forecast }) {
  const hold = forecast.dough?.hold_back_grams;
  const narrow = (forecast.narrow_by ?? []).slice(0, 4);
  return (
    <>
      {hold !== undefined && hold !== null && <HoldBack grams={hold} />}
      {narrow.length > 0 && (
        <section class="picture narrow">
          <h2>Measure first</h2>
          <ol>{narrow.map((by, i) => <Narrowing key={i} by={by} />)}</ol>
        </section>
      )}
      <Cautions cautions={forecast.cautions ?? []} />
    </>
  );
}
