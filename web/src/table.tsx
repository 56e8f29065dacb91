// A table of figures: the names of its columns, and rows that begin with what they are of.

import type { ComponentChildren } from "preact";

interface Given {
  of: readonly (string | number)[];
  rows: readonly (readonly ComponentChildren[])[];
  class?: string;
}

export const Table = ({ of, rows, class: kind }: Given) => (
  <table class={kind}>
    <thead><tr>{of.map((name) => <th key={name} scope="col">{name}</th>)}</tr></thead>
    <tbody>
      {rows.map(([name, ...cells], i) => (
        <tr key={i}><th scope="row">{name}</th>{cells.map((cell, j) => <td key={j}>{cell}</td>)}</tr>
      ))}
    </tbody>
  </table>
);
