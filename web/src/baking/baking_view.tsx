// One step at a time, in large type: what to do, how long it will take, what is seen, and
// the times to come.

import type { ComponentChildren } from "preact";
import { useEffect, useMemo } from "preact/hooks";
import { useSignal } from "@preact/signals";
import { duration } from "../numbers.ts";
import { Plain, Problem } from "../plain.tsx";
import { spokenTitle } from "../titles.ts";
import { capital, degrees, plain, type Tongue, word } from "../words.ts";
import { ComingTimes } from "./coming_times.tsx";
import { HoldBackCard } from "./hold_back_card.tsx";
import { type ChecklistStep, minutesBetween, stateOf } from "./log.ts";
import { comingSteps, lastingOf } from "./outlook.ts";
import type { Session } from "./session.ts";
import { gaugesAt, isBake, proveName, type Sight, sightsAt } from "./sights.ts";
import { GaugeSetter, SightButtons } from "./sight_buttons.tsx";
import { StepClock, useNow } from "./step_clock.tsx";
import { wakeLock } from "./wake_lock.ts";
import type { Say } from "./words.ts";

export interface BakingViewProps {
  session: Session;
  say: Say;
  tongue: Tongue;
  /** What stands where notes go: "3 notes wait for the program"; may be empty. */
  waiting?: string;
  /** The oven as this kitchen sets it, when the forecast knows. */
  onLeave: () => void;
  onFinish: () => void;
  finishWords: string;
  /** What else may be noted while a step is in hand. */
  further?: ComponentChildren;
  /** What is known of a note beside its words. */
  about?: ((key: string) => ComponentChildren) | undefined;
}

function ring(): void {
  try {
    navigator.vibrate?.([200, 100, 200]);
    const sound = new AudioContext();
    const tone = sound.createOscillator();
    const loud = sound.createGain();
    tone.frequency.value = 660;
    loud.gain.setValueAtTime(0.2, sound.currentTime);
    loud.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + 1.2);
    tone.connect(loud).connect(sound.destination);
    tone.start();
    tone.stop(sound.currentTime + 1.2);
    tone.onended = () => void sound.close();
  } catch {
    // A browser without sound: the words on the screen say the same.
  }
}

function stepName(step: ChecklistStep, checklist: readonly ChecklistStep[], say: Say, tongue: Tongue): string {
  const which = step.kind === "prove" ? proveName(step, checklist).trim() : "";
  return say(step.kind === "cool" ? "Let it cool" : capital(word(which || plain(step.kind), tongue)));
}

function Settings({ step, session, tongue }: { step: ChecklistStep; session: Session; tongue: Tongue }) {
  const bake = session.forecast.value?.bake;
  const celsius = isBake(step) ? (bake?.setting_celsius ?? step.celsius?.low) : step.celsius?.low;
  return celsius === null || celsius === undefined ? null : <p class="step-setting">{degrees(celsius, tongue)}</p>;
}

function Said({ session, say, about }: Pick<BakingViewProps, "session" | "say" | "about">) {
  const said = session.said.value;
  if (!said) {
    return null;
  }
  const moved = said.moved_minutes;
  const words = moved === null
    ? say("Working out what that changes…")
    : Math.abs(moved) < 1
      ? say("The times to come stay as they are.")
      : say(moved < 0 ? "What comes is done {time} sooner." : "What comes takes {time} longer.",
          { time: duration(Math.abs(moved)) });
  return (
    <div class="said" role="status">
      <div><p><strong>{capital(said.text)}.</strong> {words}</p>{about?.(said.key)}</div>
      <Plain onClick={() => void session.takeBack(said.key)}>{say("Take it back")}</Plain>
    </div>
  );
}

export function BakingView({ session, say, tongue, waiting, onLeave, onFinish, finishWords, further, about }: BakingViewProps) {
  const now_ms = useNow(session.now);
  const listed = useSignal(false);
  const lock = useMemo(wakeLock, []);
  const { checklist } = session;
  const standing = session.standing.value;
  const step = session.inHand.value;
  const begun_at_ms = step ? stateOf(standing, step.step).begun_at_ms : null;
  useEffect(() => {
    lock.hold();
    return () => lock.release();
  }, []);
  useEffect(() => {
    document.querySelector(".baking h1")?.scrollIntoView({ block: "nearest" });
  }, [step?.step]);

  const forecast = session.forecast.value;
  const coming = comingSteps(checklist, standing, forecast, now_ms);
  const minutes = begun_at_ms === null ? 0 : Math.max(0, Math.round(minutesBetween(begun_at_ms, now_ms)));
  const see = async (sight: Sight): Promise<void> => {
    if (step) {
      await session.note(step.step, sight.note(minutes));
      if (sight.ends) {
        await session.mark(step.step, "done");
      }
    }
  };
  const lasting = step ? lastingOf(step, checklist, forecast) : null;
  const timed = lasting !== null;
  const waits = timed && begun_at_ms === null;
  return (
    <section class="baking" aria-label={say("Baking")}>
      <header class="baking-head">
        <Plain onClick={onLeave}>{say("Close")}</Plain>
        <p class="baking-title">{spokenTitle(session.title)}</p>
        <Plain disabled={session.entries.value.length === 0}
          onClick={() => void session.undo()}>{say("Undo")}</Plain>
        {session.canRedo.value && <Plain onClick={() => void session.redo()}>{say("Redo")}</Plain>}
      </header>
      <progress class="baking-progress" max={checklist.length}
        value={step ? checklist.indexOf(step) : checklist.length} aria-label={say("Steps done")} />
      {waiting && <p class="baking-waiting" role="status">{waiting}</p>}
      {session.problem.value !== "" && <Problem>{session.problem.value}</Problem>}
      {step ? (
        <div class="step-in-hand">
          <p class="quiet step-count">
            {say("Step {at} of {all}", { at: checklist.indexOf(step) + 1, all: checklist.length })}
            {step.part !== "" && step.part !== "dough" && ` · ${step.part}`}
          </p>
          <h1 tabIndex={-1}>{stepName(step, checklist, say, tongue)}</h1>
          <p class="step-said">{step.text}</p>
          <Settings step={step} session={session} tongue={tongue} />
          {(step.kind === "mix" || step.kind === "knead") && <HoldBackCard forecast={forecast} step={step} say={say} />}
          {lasting && (
            <StepClock key={step.step} lasting={lasting} begun_at_ms={begun_at_ms} now_ms={now_ms} say={say} onLook={ring} />
          )}
          <Said session={session} say={say} about={about} />
          {!waits && (
            <>
              {sightsAt(step, checklist).length > 0 && <h2 class="sights-head">{say("What do you see?")}</h2>}
              <SightButtons sights={sightsAt(step, checklist)} say={say} onSee={(sight) => void see(sight)} />
              {gaugesAt(step, tongue).map((gauge) => (
                <GaugeSetter key={gauge.words} gauge={gauge} say={say}
                  onNote={(value) => void session.note(step.step, gauge.note(value, minutes, gauge.unit))} />
              ))}
            </>
          )}
        </div>
      ) : (
        <div class="step-in-hand all-done">
          <h1>{say("Done")}</h1>
          <p class="step-said">{say("Everything is ticked off.")}</p>
          <Said session={session} say={say} about={about} />
        </div>
      )}
      {further}
      <ComingTimes coming={coming} open={listed.value} onToggle={() => (listed.value = !listed.value)}
        notes={standing.notes} about={about} session={session} say={say} nameOf={(one) => stepName(one, checklist, say, tongue)} />
      <footer class="baking-foot">
        {step && waits && (
          <Plain class="strong" onClick={() => void session.mark(step.step, "begun")}>{say("Begin")}</Plain>
        )}
        {step && !waits && (
          <Plain class="strong" onClick={() => void session.mark(step.step, "done")}>
            {checklist.at(-1)?.step === step.step ? say("Done") : say("Done, next")}
          </Plain>
        )}
        {!step && <Plain class="strong" onClick={onFinish}>{finishWords}</Plain>}
      </footer>
    </section>
  );
}
