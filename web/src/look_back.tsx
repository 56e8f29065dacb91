// Looking back: the recipes that are kept, one of them as a tree of versions, two versions
// side by side, and the bakes with what was noted and learnt, and what to try next.

import { Bakes, Learnt } from "./bakes.tsx";
import { backProblem, course, kept, openCourse, sideBySide, type SideBySide, trials, view } from "./looking_back.ts";
import { gramsFigure } from "./numbers.ts";
import { Plain, Problem, Quiet } from "./plain.tsx";
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

export function LookBack() {
  const list = kept.value;
  const shown = course.value;
  return (
    <main id="weighed" class="look-back" tabIndex={-1}>
      <nav class="kept-list" aria-label="Kept recipes">
        <h2>Kept</h2>
        <Problem>{backProblem.value}</Problem>
        {list?.length === 0 && (
          <p>Nothing is kept yet. Under a recipe on the bench, give it a name and press Keep: each
            time it becomes a version, and none is lost.</p>
        )}
        <ul>
          {(list ?? []).map(({ name, versions, trials: baked }) => (
            <li key={name}>
              <Plain aria-current={shown?.name === name ? "true" : undefined}
                onClick={() => void openCourse(name)}>
                {spokenTitle(name)}
                <span class="quiet"> {versions} {versions === 1 ? "version" : "versions"}{baked > 0 && `, ${baked} ${baked === 1 ? "bake" : "bakes"}`}</span>
              </Plain>
            </li>
          ))}
        </ul>
        <Plain onClick={() => (view.value = "bench")}>Back to the bench</Plain>
      </nav>
      {shown && (
        <section class="course" aria-label={`Versions of ${shown.name}`}>
          <h1>{spokenTitle(shown.name)}</h1>
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
