// The versions of a recipe as a tree: newest at the top, branches on rails of their own.

import { dayWords } from "./numbers.ts";
import { CompareButton } from "./compare_button.tsx";
import { chosen, layVersion, picturesOfVersion } from "./looking_back.ts";
import type { Course } from "./library.ts";
import { Plain, Quiet, Unseen } from "./plain.tsx";
import { Shot } from "./shot.tsx";
import { versionTree, type TreeRow } from "./versions.ts";

const rowHeight = 92;
const railWidth = 26;

function Rails({ rows }: { rows: TreeRow[] }) {
  const rails = Math.max(...rows.map(({ rail }) => rail)) + 1;
  const x = (rail: number): number => railWidth * (rail + 0.5);
  const y = (row: number): number => rowHeight * row + 24;
  return (
    <svg class="rails" aria-hidden="true" width={rails * railWidth} height={rows.length * rowHeight}>
      {rows.map(({ rail, parent }, row) => parent === null ? null : (
        <path key={row} d={`M${x(rail)} ${y(row)}V${y(parent) - 34}C${x(rail)} ${y(parent) - 12} ${x(rows[parent]?.rail ?? 0)} ${y(parent) - 22} ${x(rows[parent]?.rail ?? 0)} ${y(parent)}`} />
      ))}
      {rows.map(({ rail }, row) => <circle key={row} cx={x(rail)} cy={y(row)} r="7" />)}
    </svg>
  );
}

export function VersionTree({ course }: { course: Course }) {
  const rows = versionTree(course.history);
  return (
    <div class="version-tree">
      <Rails rows={rows} />
      <ol reversed style={{ "--row": `${rowHeight}px` }}>
        {rows.map(({ entry, parent }) => {
          const from = parent === null ? null : rows[parent]?.entry;
          const pictures = picturesOfVersion(entry);
          const newest = pictures.at(-1);
          const words = `version ${entry.place}`;
          return (
            <li key={entry.version} class={chosen.value?.called === entry.version ? "chosen-version" : ""}>
              {newest && <Shot id={newest} of={words} />}
              <p class="version-why">
                <strong>{entry.place}</strong> {entry.why || (from ? "changed" : "as found")}
              </p>
              <Quiet>
                {dayWords(entry.saved_at)}{from && from.place !== entry.place - 1 ? `, from ${from.place}` : ""}
                {entry.trials.length > 0 && `, baked ${entry.trials.length === 1 ? "once" : `${entry.trials.length} times`}`}
              </Quiet>
              <p class="version-ways">
                <Plain onClick={() => void layVersion(course.name, entry)}>
                  Lay on the bench<Unseen>: {words}</Unseen>
                </Plain>
                {(rows.length > 1 || chosen.value) && (
                  <CompareButton called={entry.version} words={words} order={entry.place} pictures={pictures.slice(-2)} />
                )}
              </p>
            </li>
          );
        })}
      </ol>
    </div>
  );
}
