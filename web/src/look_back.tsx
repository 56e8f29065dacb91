// Looking back: the recipes that are kept, one of them as a tree of versions, two versions
// side by side, and the bakes with what was noted and learnt.

import { Bakes, Learnt } from "./bakes.tsx";
import { EffectTable } from "./effect_table.tsx";
import { Heads } from "./heads.tsx";
import { backProblem, course, kept, openCourse, sideBySide, type SideBySide, trials, view } from "./looking_back.ts";
import { gramsFigure } from "./numbers.ts";
import { spokenTitle } from "./titles.ts";
import { differences } from "./versions.ts";
import { VersionTree } from "./version_tree.tsx";
import { capital } from "./words.ts";

const grams = (value: number | null): string => value === null ? "none" : `${gramsFigure(value)} g`;

function Compared({ sides: { before, after } }: { sides: SideBySide }) {
  const rows = differences(before.recipe, after.recipe);
  return (
    <section class="compared" aria-label="Two versions side by side">
      <h2>{before.entry.place} beside {after.entry.place}</h2>
      {rows.length === 0 ? <p class="quiet">Their amounts are the same.</p> : (
        <table class="effect">
          <Heads of={["Amounts", before.entry.place, after.entry.place]} />
          <tbody>
            {rows.map(({ part, name, before: from, after: to }) => (
              <tr key={`${part} ${name}`}>
                <th scope="row">{capital(name)}</th><td>{grams(from)}</td><td><strong>{grams(to)}</strong></td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {before.forecast && after.forecast && (
        <EffectTable heading="In this kitchen" before={String(before.entry.place)} after={String(after.entry.place)}
          now={before.forecast} then={after.forecast} />
      )}
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
        <p class="problem" role="alert">{backProblem.value}</p>
        {list?.length === 0 && (
          <p>Nothing is kept yet. Under a recipe on the bench, give it a name and press Keep: each
            time it becomes a version, and none is lost.</p>
        )}
        <ul>
          {(list ?? []).map(({ name, versions, trials: baked }) => (
            <li key={name}>
              <button type="button" class="plain" aria-current={shown?.name === name ? "true" : undefined}
                onClick={() => void openCourse(name)}>
                {spokenTitle(name)}
                <span class="quiet"> {versions} {versions === 1 ? "version" : "versions"}{baked > 0 && `, ${baked} ${baked === 1 ? "bake" : "bakes"}`}</span>
              </button>
            </li>
          ))}
        </ul>
        <button type="button" class="plain" onClick={() => (view.value = "bench")}>Back to the bench</button>
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
          <Learnt />
        </div>
      )}
    </main>
  );
}
