// The clock of the step in hand: how long it has run, on a line with the stretch in which it
// is likely there. Read off when the step was begun, so it survives anything.

import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { saidDurations } from "../numbers.ts";
import { aboutTimeOfDay, runningTime } from "./clock_times.ts";
import { clockOf, type Lasting } from "./outlook.ts";
import type { Say } from "./words.ts";

/** The moment, anew each second while the page is seen. */
export function useNow(now: () => number): number {
  const at = useSignal(now());
  useEffect(() => {
    const tick = setInterval(() => (at.value = now()), 1000);
    return () => clearInterval(tick);
  }, []);
  return at.value;
}

const minute_ms = 60_000;

interface StepClockProps {
  lasting: Lasting;
  begun_at_ms: number | null;
  now_ms: number;
  say: Say;
  /** Told once when it is time to look. */
  onLook: () => void;
}

export function StepClock({ lasting, begun_at_ms, now_ms, say, onLook }: StepClockProps) {
  const { p10, p50, p90 } = lasting.minutes;
  const clock = begun_at_ms === null ? null : clockOf(lasting, begun_at_ms, now_ms);
  const before = useRef(clock?.stage);
  useEffect(() => {
    if (before.current === "early" && clock?.stage === "look") {
      onLook();
    }
    before.current = clock?.stage;
  }, [clock?.stage]);
  const whole = Math.max(p90 * 1.15, clock?.elapsed_minutes ?? 0, 1);
  const across = (minutes: number): string => `${Math.min(100, (minutes / whole) * 100).toFixed(2)}%`;
  const exact = p90 - p10 < 1;
  return (
    <div class={`step-clock ${clock?.stage ?? "waiting"}`}>
      {clock === null ? (
        <p class="step-time">{saidDurations(p10, p90)}</p>
      ) : (
        <p class="step-time" role="timer" aria-live="off">
          {runningTime(clock.elapsed_minutes)}
          <span class="quiet"> {say("of about {time}", { time: saidDurations(p50, p50) })}</span>
        </p>
      )}
      <div class="step-line" aria-hidden="true">
        <span class="step-likely" style={{ left: across(p10), right: `calc(100% - ${across(Math.max(p90, p10 + whole * 0.015))})` }} />
        {clock && <span class="step-now" style={{ width: across(clock.elapsed_minutes) }} />}
      </div>
      {clock && begun_at_ms !== null && (
        <p class="step-when" aria-live="polite">
          {clock.stage === "late"
            ? say("Later than nine in ten. Say what you see, and the times are worked out anew.")
            : exact
              ? say("Until {time}", { time: aboutTimeOfDay(begun_at_ms + p50 * minute_ms) })
              : say("Look from {from}, likely {likely}, by {late} nearly always", {
                  from: aboutTimeOfDay(begun_at_ms + p10 * minute_ms),
                  likely: aboutTimeOfDay(begun_at_ms + p50 * minute_ms),
                  late: aboutTimeOfDay(begun_at_ms + p90 * minute_ms),
                })}
        </p>
      )}
    </div>
  );
}
