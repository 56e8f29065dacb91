// Looking back: the recipes that are kept, one of them as a tree of versions, two versions
// side by side, and the bakes with what was noted and learnt.

import { Bakes, Learnt } from "./bakes.tsx";
import { Heads } from "./heads.tsx";
import { backProblem, course, kept, openCourse, sideBySide, type SideBySide, trials, view } from "./looking_back.ts";
import type { Range } from "./api.ts";
import { figure, gramsFigure } from "./numbers.ts";
import { spokenTitle } from "./titles.ts";
import { VersionTree } from "./version_tree.tsx";
import { capital } from "./words.ts";

const amount = (of: { grams: number } | null): string => of === null ? "none" : `${gramsFigure(of.grams)} g`;
const said = (of: Range | null): string => of === null ? "–" : figure(of.p50, Math.abs(of.p50) < 10 ? 1 : 0);

function Sides({ heading, places, rows }: { heading: string; places: [number, number]; rows: [string, string, string][] }) {
  return rows.length === 0 ? null : (
    <table class="effect">
      <Heads of={[heading, ...places]} />
      <tbody>
        {rows.map(([name, had, has]) => <tr key={name}><th scope="row">{name}</th><td>{had}</td><td><strong>{has}</strong></td></tr>)}
      </tbody>
    </table>
  );
}

function Compared({ sides: { before, after, found } }: { sides: SideBySide }) {
  const places: [number, number] = [before.place, after.place];
  return (
    <section class="compared" aria-label="Two versions side by side">
      <h2>{before.place} beside {after.place}</h2>
      {found.lines.length === 0 && <p class="quiet">Their amounts are the same.</p>}
      <Sides heading="Amounts" places={places} rows={found.lines.map((line) => [capital(line.name), amount(line.before), amount(line.after)])} />
      <Sides heading="In this kitchen" places={places}
        rows={found.outcome.map((row): [string, string, string] => [`${capital(row.words)}${row.unit && `, ${row.unit}`}`, said(row.before), said(row.after)])
          .filter(([, had, has]) => had !== has)} />
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
