// Wanting it different: said in words, answered with the fewest changes, each with its
// reason, to be taken whole or line by line.

import { useSignal } from "@preact/signals";
import type { LineChange } from "./adjusted.ts";
import { EffectTable } from "./effect_table.tsx";
import { gramsFigure } from "./numbers.ts";
import { Plain, Problem, Quiet, Unseen } from "./plain.tsx";
import { forecast } from "./store.ts";
import {
  answer, type Answer, forget, holds, takeAll, takeLine, taken, toggleHold, unwant, want, wanting, wantProblem,
  wants, wantsOpen,
} from "./wanting.ts";
import { capital, plain } from "./words.ts";

const offers = ["softer", "stiffer", "less sugar", "less salt", "no egg", "no dairy", "half as much", "risen within 1 hour", "fits the tin", "cheaper"];

function Say() {
  const draft = useSignal("");
  return (
    <form class="say" onSubmit={(event) => {
      event.preventDefault();
      want(draft.value);
      draft.value = "";
    }}>
      <label class="unseen" for="want">What should be different?</label>
      <input id="want" autocomplete="off" data-draft={draft.value === "" ? "no" : "yes"}
        placeholder="sugar at most 15 %, 12 pieces of 80 g …" value={draft.value}
        onInput={(event) => (draft.value = event.currentTarget.value)} />
      <Plain type="submit" disabled={draft.value.trim() === ""}>Want this</Plain>
    </form>
  );
}

function Chosen() {
  return (
    <>
      {wants.value.length > 0 && (
        <ul class="chosen" aria-label="Wanted">
          {wants.value.map((words) => (
            <li key={words}>
              <Plain class="chosen-want" onClick={() => unwant(words)}
                aria-label={`${words}: no longer wanted`}>{words}<span aria-hidden="true"> ×</span></Plain>
            </li>
          ))}
        </ul>
      )}
      <ul class="offers" aria-label="Often wanted">
        {offers.filter((words) => !wants.value.includes(words)).map((words) => (
          <li key={words}><Plain onClick={() => want(words)}>{words}</Plain></li>
        ))}
      </ul>
    </>
  );
}

function Held() {
  return holds.value.length === 0 ? (
    <Quiet>Tap the name of a line below to keep that line as it is.</Quiet>
  ) : (
    <p class="held-list">
      Kept as they are:{" "}
      {holds.value.map((name) => (
        <Plain key={name} onClick={() => toggleHold(name)}
          aria-label={`${plain(name)}: may change again`}>{plain(name)}<span aria-hidden="true"> ×</span></Plain>
      ))}
    </p>
  );
}

function ChangeRow({ change }: { change: LineChange }) {
  const has = taken.value.includes(change.key);
  const { from, to } = change;
  const same = from !== null && from.name === to.name;
  const gone = to.grams < 0.005;
  return (
    <li class={has ? "had" : ""}>
      <p class="change">
        <span class="change-name">{capital(same || !from ? to.name : from.name)}</span>
        <span class="change-grams">
          <span class="before">{from ? `${gramsFigure(from.grams)} g` : "none"}</span>
          <span aria-hidden="true"> → </span><Unseen> becomes </Unseen>
          <strong>{gone ? "none" : `${gramsFigure(to.grams)} g`}{same || !from ? "" : ` ${to.name}`}</strong>
        </span>
        {has ? <span class="quiet taken">taken</span> : (
          <Plain onClick={() => takeLine(change)}
            aria-label={`Take: ${to.name} ${gramsFigure(to.grams)} g`}>Take</Plain>
        )}
      </p>
      <p class="change-why">
        {same || !from ? `It ${change.why}.` : `${capital(change.why)}.`}
        {change.alone !== "" && <> By itself: {change.alone}.</>}
      </p>
    </li>
  );
}

function Answered({ said }: { said: Answer }) {
  const { adjustment, changes, then } = said;
  const left = changes.filter(({ key }) => !taken.value.includes(key)).length;
  // A swap stands beside its line already.
  const notes = adjustment.notes.filter((note) => !(adjustment.swaps ?? []).some(({ why }) => why === note));
  if (adjustment.conflict.length > 0 && changes.length === 0) {
    return (
      <div class="conflict">
        <p><strong>{adjustment.conflict.length === 1 ? "This cannot be had." : "These exclude each other."}</strong></p>
        <ul>{adjustment.nearest.map(({ want: words, nearest }) => (
          <li key={words}><q>{words}</q>{nearest === "" ? "" : `: ${nearest}`}.</li>
        ))}</ul>
      </div>
    );
  }
  if (changes.length === 0 && notes.length === 0) {
    return <p><strong>It is so already.</strong> Nothing needs to change.</p>;
  }
  return (
    <>
      {adjustment.nearest.map(({ want: words, nearest }) => (
        <p key={words} class="conflict"><q>{words}</q> cannot be had: {nearest}.</p>
      ))}
      <ol class="changes">{changes.map((change) => <ChangeRow key={change.key} change={change} />)}</ol>
      {notes.map((note) => <p key={note} class="change-why">{capital(note)}.</p>)}
      {then && forecast.value && taken.value.length === 0 && <EffectTable heading="All of it does" before="Now" after="Then" now={forecast.value} then={then} />}
      <p class="ask-ways">
        {left + notes.length > 0 && (
          <Plain class="strong" onClick={takeAll}>
            {left === changes.length ? left > 1 ? `Take all ${left}` : "Take it" : "Take the rest"}
          </Plain>
        )}
        <Plain onClick={forget}>Leave {left === changes.length ? "it as it is" : "the rest"}</Plain>
      </p>
    </>
  );
}

export function Wants() {
  const open = wantsOpen.value;
  return (
    <section class={`wants ${open ? "open" : ""}`} aria-label="Wants">
      <Plain class="plain wants-open" aria-expanded={open} aria-controls="wants"
        onClick={() => (wantsOpen.value = !open)}>Want it different?</Plain>
      <div id="wants" hidden={!open}>
        <Say />
        <Chosen />
        <Problem>{wantProblem.value}</Problem>
        <div aria-live="polite" aria-busy={wanting.value}>
          {answer.value && <Answered said={answer.value} />}
        </div>
        <Held />
      </div>
    </section>
  );
}
