// The head of a table: the names of its columns.

export const Heads = ({ of }: { of: readonly (string | number)[] }) => (
  <thead><tr>{of.map((name) => <th key={name} scope="col">{name}</th>)}</tr></thead>
);
