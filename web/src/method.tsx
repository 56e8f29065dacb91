// The method of a part, as found, with the times and degrees drawn out.

import type { Part, Step } from "./api.ts";
import { DoubtNotes } from "./doubt_notes.tsx";
import { statedMinutes } from "./numbers.ts";
import { pointed, tongue } from "./store.ts";
import { stepKey } from "./source_ties.ts";
import { capital, degrees, plain, type Tongue, word } from "./words.ts";

function settings(step: Step, tongueNow: Tongue): string {
  const low = step.celsius?.low ?? null;
  const high = step.celsius?.high ?? low;
  const heat =
    low === null || high === null
      ? ""
      : low === high
        ? degrees(low, tongueNow)
        : `${degrees(low, tongueNow)} to ${degrees(high, tongueNow)}`;
  return [statedMinutes(step.minutes), heat, step.until ? `until ${step.until}` : ""]
    .filter((words) => words !== "")
    .join(", ");
}

export function Method({ part, index }: { part: Part; index: number }) {
  const steps = part.steps ?? [];
  if (steps.length === 0) {
    return null;
  }
  return (
    <ol class="method" aria-label={`Method, ${part.name || part.kind}`}>
      {steps.map((step, s) => {
        const key = stepKey(index, s);
        const said = settings(step, tongue.value);
        return (
          <li
            key={s}
            id={key.replaceAll(" ", "-")}
            data-row={key}
            tabIndex={-1}
            class={pointed.value === key ? "at" : ""}
            onMouseEnter={() => (pointed.value = key)}
          >
            <span class="kind">{word(capital(plain(step.kind)), tongue.value)}</span>
            <span class="step-words">{step.text}</span>
            {said !== "" && <span class="settings">{said}</span>}
            <DoubtNotes place={key} />
          </li>
        );
      })}
    </ol>
  );
}
