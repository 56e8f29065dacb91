// The versions of a recipe as a tree: newest at the top, branches on rails of their own.

import { useSignal } from "@preact/signals";
import { compare, layVersion } from "./looking_back.ts";
import type { Course, CourseEntry } from "./library.ts";
import { versionTree, type TreeRow } from "./versions.ts";

const rowHeight = 92;
const railWidth = 26;

const dayOf = (instant: string): string =>
  new Date(instant).toLocaleDateString(navigator.language, { day: "numeric", month: "long", year: "numeric" });

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
  const chosen = useSignal<CourseEntry | null>(null);
  const rows = versionTree(course.history);
  return (
    <div class="version-tree">
      <Rails rows={rows} />
      <ol reversed style={{ "--row": `${rowHeight}px` }}>
        {rows.map(({ entry, parent }) => {
          const from = parent === null ? null : rows[parent]?.entry;
          const other = chosen.value;
          return (
            <li key={entry.version} class={other?.version === entry.version ? "chosen-version" : ""}>
              <p class="version-why">
                <strong>{entry.place}</strong> {entry.why || (from ? "changed" : "as found")}
              </p>
              <p class="quiet">
                {dayOf(entry.saved_at)}{from && from.place !== entry.place - 1 ? `, from ${from.place}` : ""}
                {entry.trials.length > 0 && `, baked ${entry.trials.length === 1 ? "once" : `${entry.trials.length} times`}`}
              </p>
              <p class="version-ways">
                <button type="button" class="plain" onClick={() => void layVersion(course.name, entry)}>
                  Lay on the bench<span class="unseen">: version {entry.place}</span>
                </button>
                {other !== null && other.version !== entry.version ? (
                  <button type="button" class="plain" onClick={() => {
                    const [first, second] = other.place < entry.place ? [other, entry] : [entry, other];
                    chosen.value = null;
                    void compare(first, second);
                  }}>with this<span class="unseen">: version {entry.place}</span></button>
                ) : rows.length > 1 && (
                  <button type="button" class="plain" aria-pressed={other !== null}
                    onClick={() => (chosen.value = other === null ? entry : null)}>
                    Compare<span class="unseen"> version {entry.place}</span> …
                  </button>
                )}
              </p>
            </li>
          );
        })}
      </ol>
    </div>
  );
}
