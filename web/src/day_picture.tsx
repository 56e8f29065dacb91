// The day: its line, the hour it is wanted, the chance of that, and other ways through.

import { useEffect, useRef } from "preact/hooks";
import { type Day, dayWords, hourWords, minutesOf } from "./day.ts";
import { asSoonAsCanBe, DayLine, DayTable } from "./day_line.tsx";
import { Figures } from "./figures.tsx";
import { Plain, Problem, Unseen } from "./plain.tsx";
import { day, dayProblem, daySeen, planning, readyAt, readyFrom, takeWay } from "./planning.ts";
import { capital } from "./words.ts";

function When() {
  return (
    <p class="day-when">
      <label for="ready-at">Ready at</label>
      <input id="ready-at" type="datetime-local" step={300} value={readyAt.value}
        onChange={(event) => (readyAt.value = event.currentTarget.value.slice(0, 16))} />
      {readyAt.value !== "" && (
        <Plain onClick={asSoonAsCanBe}>As soon as can be</Plain>
      )}
    </p>
  );
}

/** The next whole five minutes after the nearest hour, with some to spare: the clock goes on. */
const reachable = (nearest: number): number => Math.ceil((nearest + 3) / 5) * 5;

function Chance({ plan }: { plan: Day }) {
  const [begin, ready, nearest] = [plan.begin, plan.ready, plan.nearest].map(minutesOf);
  if (begin === null || begin === undefined || ready === null || ready === undefined) {
    return null;
  }
  const start = <>Begin <strong>{dayWords(begin)} {hourWords(begin)}</strong></>;
  return plan.met ? (
    <p>
      {start}, {plan.wanted_at === null ? "ready by " : "for "}<strong>{hourWords(ready)}</strong>
      <span class="spread"> ({Math.round(plan.chance_in_time * 100)} in 100 in time)</span>.
    </p>
  ) : (
    <p class="conflict">
      {plan.why_not ? `${capital(plan.why_not)} ` : "It cannot be ready by then. "}
      {nearest !== null && nearest !== undefined && (
        <Plain onClick={() => readyFrom(reachable(nearest))}>
          Make it {dayWords(reachable(nearest))} {hourWords(reachable(nearest))}
        </Plain>
      )}
    </p>
  );
}

function OtherWays({ ways }: { ways: Day["alternatives"] }) {
  return ways.length === 0 ? null : (
    <details class="other-ways">
      <summary>Other ways through the day</summary>
      <ul>
        {ways.map((way) => (
          <li key={way.name}>
            <p><strong>{capital(way.name)}</strong>{!way.met && <span class="quiet"> (too late for the hour)</span>}</p>
            <p class="change-why">{capital(way.does)}.</p>
            {way.recipe && (
              <Plain onClick={() => takeWay(way)}>
                Do it so<Unseen>: {way.name}</Unseen>
              </Plain>
            )}
          </li>
        ))}
      </ul>
    </details>
  );
}

export function DayPicture() {
  const place = useRef<HTMLElement>(null);
  useEffect(() => {
    const element = place.current;
    if (!element) {
      return;
    }
    const watch = new IntersectionObserver((seen) => {
      daySeen.value = seen.at(-1)?.isIntersecting ?? false;
    }, { rootMargin: "200px" });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  const plan = day.value;
  return (
    <figure ref={place} class="picture day-picture" aria-busy={planning.value}>
      <figcaption><h2>The day</h2></figcaption>
      <When />
      <Problem>{dayProblem.value}</Problem>
      {plan ? (
        <>
          <DayLine day={plan} />
          <div aria-live="polite"><Chance plan={plan} /></div>
          <OtherWays ways={plan.alternatives} />
          <Figures title="The day"><DayTable steps={plan.steps} /></Figures>
        </>
      ) : <p class="quiet day-waiting">Working the day out …</p>}
    </figure>
  );
}
