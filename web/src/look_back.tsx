// Looking back: the recipes that are kept, one of them as a tree of versions, two versions
// side by side, and the bakes with what was noted and learnt, and what to try next.

import { useSignal } from "@preact/signals";
import { Bakes, Learnt } from "./bakes.tsx";
import { backProblem, course, found, kept, openCourse, seek, sideBySide, type SideBySide, sought, tag, trials, view } from "./looking_back.ts";
import { dayWords, gramsFigure } from "./numbers.ts";
import { Plain, Problem, Quiet, Unseen } from "./plain.tsx";
import { Shot } from "./shot.tsx";
import { Sides } from "./sides.tsx";
import { spokenTitle } from "./titles.ts";
import { VersionTree } from "./version_tree.tsx";
import { WhatNext } from "./what_next.tsx";
import { capital } from "./words.ts";

const amount = (of: { grams: number } | null): string => of === null ? "none" : `${gramsFigure(of.grams)} g`;

function Compared({ sides: { before, after, found } }: { sides: SideBySide }) {
  const places: [string, string] = [before.words, after.words];
  return (
    <section class="compared" aria-label="Two side by side">
      <h2>{capital(before.words)} beside {after.words}</h2>
      <div class="two">{[before, after].map(({ words, pictures }) => (
        <div key={words} class="shots">{pictures.map((id) => <Shot key={id} id={id} of={words} />)}</div>
      ))}</div>
      {found.lines.length === 0 && <Quiet>Their amounts are the same.</Quiet>}
      <Sides heading="Amounts" places={places} rows={found.lines.map((line) => [capital(line.name), amount(line.before), amount(line.after)])} />
      <Sides heading="As forecast, as noted" places={places} figures={found.outcome} />
    </section>
  );
}

/** A field to find by words, and the notes that bear them. */
function Seek() {
  return (
    <input type="search" class="seek" data-draft="yes" maxLength={200} aria-label="Find a recipe or a note by its words" placeholder="Find by words"
      value={sought.value} onInput={(event) => void seek(event.currentTarget.value)} />
  );
}

function FoundNotes() {
  const notes = found.value?.notes ?? [];
  return notes.length === 0 ? null : (
    <>
      <h3>Noted</h3>
      <ul>
        {notes.map(({ note, recipe, at, text }) => (
          <li key={note}>
            <Plain onClick={() => void openCourse(recipe)}>{text}<span class="quiet"> {spokenTitle(recipe)}, {dayWords(at)}</span></Plain>
          </li>
        ))}
      </ul>
    </>
  );
}

/** Words that the recipe is found by, beside those in it. */
function Tags({ tags }: { tags: readonly string[] }) {
  const word = useSignal("");
  return (
    <form class="keep tags" onSubmit={(event) => {
      event.preventDefault();
      void tag(word.value.trim(), false);
      word.value = "";
    }}>
      {tags.map((one) => <Plain key={one} onClick={() => void tag(one, true)}>{one} ×<Unseen> take it off</Unseen></Plain>)}
      <input data-draft="yes" maxLength={40} aria-label="A word to find it by" placeholder="a word to find it by"
        value={word.value} onInput={(event) => (word.value = event.currentTarget.value)} />
      <Plain type="submit" disabled={word.value.trim() === ""}>Put it on</Plain>
    </form>
  );
}

export function LookBack() {
  const shown = course.value;
  const bearing = found.value?.recipes.map(({ name }) => name);
  const list = kept.value?.filter(({ name }) => bearing?.includes(name) ?? true);
  return (
    <main id="weighed" class="look-back" tabIndex={-1}>
      <nav class="kept-list" aria-label="Kept recipes">
        <h2>Kept</h2>
        <Problem>{backProblem.value}</Problem>
        {kept.value?.length ? <Seek /> : null}
        {bearing && list?.length === 0 && found.value?.notes.length === 0 && <Quiet>Nothing that is kept has these words.</Quiet>}
        {kept.value?.length === 0 && (
          <p>Nothing is kept yet. Under a recipe on the bench, give it a name and press Keep: each
            time it becomes a version, and none is lost.</p>
        )}
        <ul>
          {(list ?? []).map(({ name, versions, trials: baked, tags }) => (
            <li key={name}>
              <Plain aria-current={shown?.name === name ? "true" : undefined}
                onClick={() => void openCourse(name)}>
                {spokenTitle(name)}
                <span class="quiet"> {versions} {versions === 1 ? "version" : "versions"}{baked > 0 && `, ${baked} ${baked === 1 ? "bake" : "bakes"}`}{tags.map((one) => ` · ${one}`)}</span>
              </Plain>
            </li>
          ))}
        </ul>
        <FoundNotes />
        <Plain onClick={() => (view.value = "bench")}>Back to the bench</Plain>
      </nav>
      {shown && (
        <section class="course" aria-label={`Versions of ${shown.name}`}>
          <h1>{spokenTitle(shown.name)}</h1>
          <Tags tags={shown.tags} />
          <VersionTree course={shown} />
        </section>
      )}
      {shown && (
        <div class="beside-course">
          {sideBySide.value && <Compared sides={sideBySide.value} />}
          <Bakes bakes={trials.value} />
          {trials.value.length > 0 && <WhatNext />}
          <Learnt />
        </div>
      )}
    </main>
  );
}
