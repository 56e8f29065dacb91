// Doubts where they arise, with what to do about each.

import type { Doubt } from "./api.ts";
import { Plain } from "./plain.tsx";
import { openDoubts, settleDoubt } from "./store.ts";
import type { TieKey } from "./source_ties.ts";
import { capital } from "./words.ts";

const sentence = (text: string): string => {
  const whole = capital(text.trim());
  return /[.!?…]$/.test(whole) ? whole : `${whole}.`;
};

function Note({ doubt, field }: { doubt: Doubt; field: string | undefined }) {
  return (
    <li>
      <p>{doubt.text !== "" && <q>{doubt.text}</q>} {sentence(doubt.why)}</p>
      <p class="mend">
        {field !== undefined && (
          <Plain
            onClick={() => document.getElementById(field)?.focus()}>Set the weight</Plain>
        )}
        <Plain onClick={() => settleDoubt(doubt)}>It is right</Plain>
      </p>
    </li>
  );
}

/** The doubts of one line or step ("" for those about the whole recipe). */
export function DoubtNotes({ place, field }: { place: TieKey; field?: string }) {
  const doubts = openDoubts.value.get(place) ?? [];
  if (doubts.length === 0) {
    return null;
  }
  return (
    <ul class="doubts" aria-label="Doubts">
      {doubts.map((doubt) => <Note key={`${doubt.text}\n${doubt.why}`} doubt={doubt} field={field} />)}
    </ul>
  );
}
