// The steps still to come with their likely times, and the notes so far.

import type { ComponentChildren } from "preact";
import { saidDurations } from "../numbers.ts";
import { Plain } from "../plain.tsx";
import { Noted } from "../noted.tsx";
import { aboutTimeOfDay, timeOfDay } from "./clock_times.ts";
import type { ChecklistStep, Note } from "./log.ts";
import type { Coming } from "./outlook.ts";
import type { Session } from "./session.ts";
import type { Say } from "./words.ts";

interface ComingTimesProps {
  coming: readonly Coming[];
  notes: readonly Note[];
  about: ((key: string) => ComponentChildren) | undefined;
  open: boolean;
  onToggle: () => void;
  session: Session;
  say: Say;
  nameOf: (step: ChecklistStep) => string;
}

export function ComingTimes({ coming, notes, about, open, onToggle, session, say, nameOf }: ComingTimesProps) {
  const rest = coming.slice(1);
  const end = coming.at(-1);
  return (
    <div class="coming">
      {end && (
        <Plain class="coming-head" aria-expanded={open} onClick={onToggle}>
          <span>{say("Still to come")}</span>
          <strong>{say("done about {time}", { time: aboutTimeOfDay(end.ends_at_ms) })}</strong>
        </Plain>
      )}
      {open && (
        <ol class="coming-steps">
          {rest.map(({ step, lasting, begins_at_ms }) => (
            <li key={step.step}>
              <span class="coming-when">{aboutTimeOfDay(begins_at_ms)}</span>
              <span class="coming-name">{nameOf(step)} <span class="quiet">{step.text}</span></span>
              <span class="coming-length">{lasting ? saidDurations(lasting.minutes.p10, lasting.minutes.p90) : ""}</span>
            </li>
          ))}
        </ol>
      )}
      {notes.length > 0 && (
        <div class="noted">
          <h2>{say("Noted")}</h2>
          <ul>
            {[...notes].reverse().map((note) => (
              <li key={note.key}>
                <span class="coming-when">{timeOfDay(note.at_ms)}</span>
                <span class="coming-name"><Noted text={note.text} /></span>
                <Plain aria-label={`${say("Take it back")}: ${note.text}`}
                  onClick={() => void session.takeBack(note.key)}>{say("Take it back")}</Plain>
                <div class="told">{about?.(note.key)}</div>
              </li>
            ))}
          </ul>
        </div>
      )}
    </div>
  );
}
