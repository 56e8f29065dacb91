// The bakes of a recipe: what was noted, what may have gone wrong and what would mend it, and
// what the kitchen has learnt.

import { CompareButton } from "./compare_button.tsx";
import type { Diagnosis, TrialSeen } from "./library.ts";
import { chosen, diagnose, diagnoses, lessons, noteLate, picturesOf, takeBack, trials, unlearn } from "./looking_back.ts";
import { Noted } from "./noted.tsx";
import { Noting } from "./noting.tsx";
import { dayWords, figure, rangeWords } from "./numbers.ts";
import { Plain, Quiet, Unseen } from "./plain.tsx";
import { Shot } from "./shot.tsx";
import { type Row, Sides } from "./sides.tsx";
import { capital } from "./words.ts";

const print = (value: number): string => figure(value, Math.abs(value) < 10 ? 1 : 0);
/** Units as they are said in a kitchen. */
const said: Readonly<Record<string, string>> = {
  C: "°C", kelvin: "°C", celsius: "°C", ratio: "× usual", sd: "× the usual spread", minutes: "min", grams: "g", "L*": "of 100", chance: "of 1", pct_flour: "% of flour",
};
const withUnit = (words: string, unit: string): string => `${words} ${said[unit] ?? unit}`.trim();

// More causes than this are no help to anybody.
const mostCauses = 3;

/** What a mend does: a figure as it is and as it would be. */
export function Effect({ of, unit, as_it_is, mended }: NonNullable<Diagnosis["causes"][0]["effect"]>) {
  return (
    <p class="change-why">
      {capital(of)}: {withUnit(print(as_it_is.p50), unit)} as it is, {withUnit(print(mended.p50), unit)} then.
    </p>
  );
}

function Fault({ diagnosis: { fault, causes, look_at } }: { diagnosis: Diagnosis }) {
  return (
    <li>
      <h3>{capital(fault)}</h3>
      <ol class="causes">
        {causes.slice(0, mostCauses).map(({ cause, chance, mend, effect }) => (
          <li key={cause}>
            <p><strong>{capital(cause)}</strong> <span class="spread">{Math.round(chance * 100)} in 100</span></p>
            {mend !== "" && <p>Next time: {mend}.</p>}
            {effect && <Effect {...effect} />}
          </li>
        ))}
      </ol>
      {look_at.length > 0 && <p class="change-why">Look also at: {look_at.join("; ")}.</p>}
    </li>
  );
}

/** What says nothing by itself: that a note was taken back, that there is a picture. */
const wordless = new Set(["taken back", "picture", ""]);

function Bake({ bake }: { bake: TrialSeen }) {
  const words = `bake ${bake.trial}`;
  const when = dayWords(bake.started_at);
  const found = diagnoses.value[bake.trial];
  return (
    <li>
      <p><strong>{when}</strong> <span class="quiet">{[bake.kitchen ?? "", bake.closed_at === null ? "not closed yet" : ""]
        .filter((words) => words !== "").join(", ")}</span></p>
      <p class="shots">{picturesOf(bake).map((id) => <Shot key={id} id={id} of={words} />)}</p>
      <ul class="notes">
        {bake.notes.filter((note) => !note.corrected && !wordless.has(note.text)).map((note) => (
          <li key={note.note}>
            <Noted text={note.text} />
            <Plain onClick={() => void takeBack(bake, note)}>Take it back<Unseen>: {note.text}</Unseen></Plain>
            {note.questions.map((question) => <p key={question} class="change-why">{question}</p>)}
          </li>
        ))}
      </ul>
      {(trials.value.length > 1 || chosen.value) && <CompareButton called={String(bake.trial)} words={words} order={bake.trial} pictures={picturesOf(bake)} />}
      <details>
        <summary>Add to it<Unseen>: {words}</Unseen></summary>
        <Noting id={`bake-${bake.trial}-`} crust keep={(text, picture) => noteLate(bake, text, picture)} />
      </details>
      {(bake.learnt ?? []).map((words) => <p key={words} class="learnt">{capital(words)}.</p>)}
      {bake.kitchen && (bake.learnt ?? []).length > 0 && (
        <Plain onClick={() => void unlearn(bake.trial, bake.kitchen)}>Unlearn it<Unseen>: {words}</Unseen></Plain>
      )}
      {found === undefined ? (
        <Plain onClick={() => void diagnose(bake.trial)}>
          What went wrong, and what next?<Unseen> Bake of {when}</Unseen>
        </Plain>
      ) : found.length === 0 ? (
        <Quiet>No note names a fault. Write one such as "crust too dark" or "gummy inside".</Quiet>
      ) : (
        <ul class="faults">{found.map((one) => <Fault key={one.fault} diagnosis={one} />)}</ul>
      )}
    </li>
  );
}

export function Bakes({ bakes }: { bakes: readonly TrialSeen[] }) {
  return (
    <section aria-label="Bakes">
      <h2>Bakes</h2>
      {bakes.length === 0
        ? <Quiet>Not baked yet, or not noted. Notes made while it bakes are shown here.</Quiet>
        : <ul class="bakes">{bakes.map((bake) => <Bake key={bake.trial} bake={bake} />)}</ul>}
    </section>
  );
}

/** What the kitchens of these bakes have learnt: the range before and now. */
export function Learnt() {
  return (
    <>
      {lessons.value.filter(({ learnt }) => learnt.length > 0).map(({ kitchen, learnt }) => (
        <section key={kitchen} aria-label={`What ${kitchen} has learnt`}>
          <h2>Learnt by {kitchen}</h2>
          <Sides heading="What" places={["Before", "Now"]} rows={learnt.map(({ what, unit, before, now, trials: from }): Row =>
            [`${capital(what)}, by bake ${from.join(", ")}`, withUnit(rangeWords(before, print), unit), withUnit(rangeWords(now, print), unit)])} />
        </section>
      ))}
    </>
  );
}
