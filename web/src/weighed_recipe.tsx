// The recipe in grams: parts with their amounts and their method.

import { useEffect, useRef } from "preact/hooks";
import type { Part, Recipe } from "./api.ts";
import { AmountRow } from "./amount_row.tsx";
import { DoubtNotes } from "./doubt_notes.tsx";
import { HandOn } from "./hand_on.tsx";
import { KeepForm } from "./keep_form.tsx";
import { Method } from "./method.tsx";
import { Quiet } from "./plain.tsx";
import { bench, openDoubts, showPercent } from "./store.ts";
import { spokenTitle } from "./titles.ts";
import { Wants } from "./wants.tsx";
import { capital } from "./words.ts";

function piecesWords(recipe: Recipe): string {
  const low = recipe.pieces?.low ?? null;
  const high = recipe.pieces?.high ?? low;
  if (low === null) {
    return "";
  }
  return low === high ? `Makes ${low}` : `Makes ${low} to ${high}`;
}

function PartOf({ part, index, alone }: { part: Part; index: number; alone: boolean }) {
  const kind = capital(part.kind.replaceAll("_", " "));
  const named = part.name !== "" && part.name.toLowerCase() !== part.kind ? part.name : "";
  return (
    <section class={`part ${part.kind}`} aria-label={part.name || kind}>
      {!(alone && named === "") && (
        <h3>{capital(named || kind)} {named !== "" && <span class="quiet">{kind.toLowerCase()}</span>}</h3>
      )}
      <ul class="amounts">
        {part.lines.map((line, l) => (
          <AmountRow key={l} line={line} part={index} index={l} />
        ))}
      </ul>
      <Method part={part} index={index} />
    </section>
  );
}

export function WeighedRecipe({ recipe }: { recipe: Recipe }) {
  const section = useRef<HTMLElement>(null);
  // The field that was typed in is gone: keys and screen readers go on from here.
  useEffect(() => {
    if (document.activeElement === document.body) {
      section.current?.focus({ preventScroll: true });
    }
  }, [recipe]);
  const open = [...openDoubts.value.values()].reduce((sum, doubts) => sum + doubts.length, 0);
  return (
    <section ref={section} id="weighed" class="weighed" aria-label="Weighed recipe" tabIndex={-1}>
      <h1>{spokenTitle(recipe.title ?? "") || "Untitled"}</h1>
      <p class="under-title">
        {[piecesWords(recipe), open === 0 ? "nothing in doubt" : open === 1 ? "1 doubt" : `${open} doubts`]
          .filter((words) => words !== "").join(" · ")}
        <label class="percent">
          <input type="checkbox" checked={showPercent.value}
            onChange={(event) => (showPercent.value = event.currentTarget.checked)} />
          Show % of flour
        </label>
      </p>
      <Wants />
      <DoubtNotes place="" />
      {recipe.parts.map((part, p) => (
        <PartOf key={p} part={part} index={p} alone={recipe.parts.length === 1} />
      ))}
      {recipe.parts.length === 0 && <Quiet>No amounts were found in these words.</Quiet>}
      {(recipe.remarks ?? []).length > 0 && (
        <details class="remarks">
          <summary>Words that are neither amount nor method ({recipe.remarks?.length})</summary>
          <ul>{recipe.remarks?.map((remark, i) => <li key={i}>{remark}</li>)}</ul>
        </details>
      )}
      <p class="quiet kept">
        {Object.keys(bench.value.amounts).length > 0
          ? "Your changes are kept in this browser."
          : "Drag a grain, or type a weight: the pictures follow."}
      </p>
      <KeepForm title={recipe.title ?? ""} />
      <HandOn />
    </section>
  );
}
