// The bakes of a recipe: what was noted, what may have gone wrong and what would mend it, and
// what the kitchen has learnt.

import { Heads } from "./heads.tsx";
import type { Diagnosis, Lesson, TrialSeen } from "./library.ts";
import { diagnose, diagnoses, lessons } from "./looking_back.ts";
import { figure, rangeWords } from "./numbers.ts";
import { capital } from "./words.ts";

const print = (value: number): string => figure(value, Math.abs(value) < 10 ? 1 : 0);
/** Units as they are said in a kitchen. */
const said: Readonly<Record<string, string>> = {
  C: "°C", kelvin: "°C", celsius: "°C", ratio: "× usual", sd: "× the usual spread", minutes: "min", grams: "g", "L*": "of 100",
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

function Bake({ bake }: { bake: TrialSeen }) {
  const when = new Date(bake.started_at).toLocaleDateString(navigator.language, { dateStyle: "long" });
  const found = diagnoses.value[bake.trial];
  return (
    <li>
      <p><strong>{when}</strong> <span class="quiet">{[bake.kitchen ?? "", bake.closed_at === null ? "not closed yet" : ""]
        .filter((words) => words !== "").join(", ")}</span></p>
      <ul class="notes">{bake.notes.filter(({ corrected }) => !corrected).map(({ note, text }) => <li key={note}>{text}</li>)}</ul>
      {(bake.learnt ?? []).map((words) => <p key={words} class="learnt">{capital(words)}.</p>)}
      {found === undefined ? (
        <button type="button" class="plain" onClick={() => void diagnose(bake.trial)}>
          What went wrong, and what next?<span class="unseen"> Bake of {when}</span>
        </button>
      ) : found.length === 0 ? (
        <p class="quiet">No note names a fault. Write one such as "crust too dark" or "gummy inside".</p>
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
        ? <p class="quiet">Not baked yet, or not noted. Notes made while it bakes are shown here.</p>
        : <ul class="bakes">{bakes.map((bake) => <Bake key={bake.trial} bake={bake} />)}</ul>}
    </section>
  );
}

function LessonRow({ lesson: { what, unit, before, now } }: { lesson: Lesson }) {
  return (
    <tr>
      <th scope="row">{capital(what)}</th>
      <td>{withUnit(rangeWords(before, print), unit)}</td>
      <td><strong>{withUnit(rangeWords(now, print), unit)}</strong></td>
    </tr>
  );
}

/** What the kitchens of these bakes have learnt: the range before and now. */
export function Learnt() {
  return (
    <>
      {lessons.value.filter(({ learnt }) => learnt.length > 0).map(({ kitchen, learnt }) => (
        <section key={kitchen} aria-label={`What ${kitchen} has learnt`}>
          <h2>Learnt by {kitchen}</h2>
          <table class="effect">
            <Heads of={["What", "Before", "Now"]} />
            <tbody>{learnt.map((lesson) => <LessonRow key={lesson.name} lesson={lesson} />)}</tbody>
          </table>
        </section>
      ))}
    </>
  );
}
