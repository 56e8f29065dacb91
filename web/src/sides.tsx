// Two sides of a table beside each other, and figures of which only those that differ stand.

import type { Range } from "./api.ts";
import { Heads } from "./heads.tsx";
import type { Comparison } from "./library.ts";
import { figure } from "./numbers.ts";
import { capital } from "./words.ts";

export type Row = [name: string, had: string, has: string];

const said = (of: Range | null, noted = ""): string =>
  [of === null ? noted === "" ? "–" : "" : figure(of.p50, Math.abs(of.p50) < 10 ? 1 : 0), noted].filter(Boolean).join("; ");

interface Given {
  heading: string;
  places: readonly [string | number, string | number];
  rows?: Row[];
  figures?: Comparison["outcome"];
}

export function Sides({ heading, places, rows = [], figures = [] }: Given) {
  const all = [
    ...rows,
    ...figures.map((row): Row => [`${capital(row.words)}${row.unit && `, ${row.unit}`}`, said(row.before, row.noted_before), said(row.after, row.noted_after)])
      .filter(([, had, has]) => had !== has),
  ];
  return all.length === 0 ? null : (
    <table class="effect">
      <Heads of={[heading, ...places]} />
      <tbody>
        {all.map(([name, had, has]) => <tr key={name}><th scope="row">{name}</th><td>{had}</td><td><strong>{has}</strong></td></tr>)}
      </tbody>
    </table>
  );
}
