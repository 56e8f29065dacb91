// What to change for the next bake: by the scores of those before, and by the faults of the last.

import { Effect } from "./bakes.tsx";
import { Plain, Quiet, Unseen } from "./plain.tsx";
import { Sides } from "./sides.tsx";
import { askNext, layNext, next } from "./looking_back.ts";
import { figure, gramsFigure } from "./numbers.ts";
import { capital } from "./words.ts";

function Proposed({ reason, changes, adjustment }: NonNullable<NonNullable<typeof next.value>["next"]>) {
  return (
    <>
      <p>{reason}</p>
      <ul class="notes">{changes.map(({ words, from, to }) =>
        <li key={words}>{capital(words)}: {figure(from, 1)} → <strong>{figure(to, 1)}</strong></li>)}</ul>
      <ul class="notes">{adjustment.changes.map(({ line, from_grams, to_grams, why }) => (
        <li key={line}>{line}: {gramsFigure(from_grams)} → <strong>{gramsFigure(to_grams)} g</strong>
          <span class="change-why">, which {why}</span></li>
      ))}</ul>
    </>
  );
}

export function WhatNext() {
  const found = next.value;
  if (found === null) {
    return <p><Plain onClick={() => void askNext()}>What to try next?</Plain></p>;
  }
  const lay = (recipe: typeof found.mends[0]["recipe"], words: string) => (
    <Plain onClick={() => void layNext(recipe)}>
      Lay on the bench<Unseen>: {words}</Unseen>
    </Plain>
  );
  return (
    <section aria-label="What to try next">
      <h2>What to try next</h2>
      {found.next ? (
        <>
          <Proposed {...found.next} />
          <Sides heading="As forecast" places={["Best so far", "Then"]} figures={found.effect} />
          {lay(found.next.adjustment.recipe, "what to try next")}
        </>
      ) : <Quiet>{found.why_not}</Quiet>}
      <ul class="faults">{found.mends.map(({ fault, cause, chance, mend, recipe, ...effect }) => (
        <li key={fault}>
          <h3>{capital(fault)}: {mend}</h3>
          <p>Likeliest because: {cause} <span class="spread">{Math.round(chance * 100)} in 100</span></p>
          <Effect {...effect} />
          {lay(recipe, mend)}
        </li>
      ))}</ul>
    </section>
  );
}
