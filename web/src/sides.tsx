// Two sides of a table beside each other, and figures of which only those that differ stand.

import type { Range } from "./api.ts";
import type { Comparison } from "./library.ts";
import { figure } from "./numbers.ts";
import { Table } from "./table.tsx";
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
  return all.length === 0 ? null
    : <Table class="effect" of={[heading, ...places]} rows={all.map(([name, had, has]) => [name, had, <strong>{has}</strong>])} />;
}
