// One line of the recipe: what it is, its weight with its range, drag or type to change.

import { useSignal } from "@preact/signals";
import type { Line } from "./api.ts";
import { gramsNow, typedNumber } from "./amounts.ts";
import { AmountSlide } from "./amount_slide.tsx";
import { DoubtNotes } from "./doubt_notes.tsx";
import { decimalMark, figure, gramsFigure, gramsTyped, isExact, kitchenFigure, rangeWords, sureness } from "./numbers.ts";
import { Plain, Unseen } from "./plain.tsx";
import { bench, forecast, pointed, resetAmount, setAmount, showPercent } from "./store.ts";
import { lineKey } from "./source_ties.ts";
import { holdName, holds, toggleHold, wantsOpen } from "./wanting.ts";
import { capital, entryOf, plain, unitWord } from "./words.ts";

/** The amount as found, "2¼ tsp", with what was said of it; else the whole line. */
function asWritten({ text, quantity, note }: Line): string {
  const low = quantity?.low ?? null;
  const high = quantity?.high ?? low;
  if (low === null || high === null) {
    return text;
  }
  const number = low === high ? kitchenFigure(low) : `${kitchenFigure(low)} to ${kitchenFigure(high)}`;
  const amount = [number, plain(quantity?.size ?? ""), unitWord(quantity?.unit ?? "", high)]
    .filter((word) => word !== "").join(" ");
  return note ? `${amount}, ${note}` : amount;
}

/** Typing in a weight: kept as a draft until Enter or leaving the field. */
function GramsField({ name, id, grams, onSet }: {
  name: string; id: string; grams: number | null; onSet: (grams: number) => void;
}) {
  const draft = useSignal<string | null>(null);
  const wrong = draft.value !== null && draft.value.trim() !== "" && typedNumber(draft.value, decimalMark) === null;
  const settle = (): void => {
    const value = draft.value === null ? null : typedNumber(draft.value, decimalMark);
    draft.value = null;
    if (value !== null) {
      onSet(value);
    }
  };
  return (
    <span class={`grams-field ${wrong ? "wrong" : ""}`}>
      <input
        id={id}
        inputMode="decimal"
        autocomplete="off"
        aria-label={`${name}, grams`}
        aria-invalid={wrong}
        data-draft={draft.value === null ? "no" : "yes"}
        value={draft.value ?? (grams === null ? "" : gramsTyped(grams))}
        placeholder="?"
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => (draft.value = event.currentTarget.value)}
        onBlur={settle}
        onKeyDown={(event) => {
          if (event.key === "Enter") {
            settle();
            event.currentTarget.select();
          } else if (event.key === "Escape") {
            draft.value = null;
          }
        }}
      />
      <span aria-hidden="true">g</span>
    </span>
  );
}

/** What it is, as found; while something is wanted, a touch keeps it as it is. */
function What({ line, name }: { line: Line; name: string }) {
  const words = (
    <>
      <span class="ingredient">{capital(name)}</span>
      <span class="as-written">{asWritten(line)}</span>
    </>
  );
  if (!wantsOpen.value) {
    return <div class="what">{words}</div>;
  }
  const held = holds.value.includes(holdName(line));
  return (
    <div class="what">
      <Plain class="hold" aria-pressed={held}
        onClick={() => toggleHold(holdName(line))}>
        <Unseen>Keep as it is: </Unseen>
        {words}
        {held && <span class="as-written">kept as it is</span>}
      </Plain>
    </div>
  );
}

export function AmountRow({ line, part, index }: { line: Line; part: number; index: number }) {
  const key = lineKey(part, index);
  const found = line.grams ?? null;
  const set = bench.value.amounts[key];
  const now = gramsNow(line, key, bench.value.amounts);
  const name = line.part ? `${line.part}` : line.ingredient || line.text;
  const percent = entryOf(forecast.value?.dough?.baker_pct ?? {}, line.id ?? "");
  return (
    <li
      id={key.replaceAll(" ", "-")}
      data-row={key}
      class={`amount ${pointed.value === key ? "at" : ""} ${set === undefined ? "" : "set"}`}
      onMouseEnter={() => (pointed.value = key)}
      onFocusCapture={() => (pointed.value = key)}
    >
      <What line={line} name={name} />
      <AmountSlide name={name} found={found} now={now?.p50 ?? null}
        onMove={(grams) => setAmount(key, grams, "moving")}
        onRest={(grams) => setAmount(key, grams, "resting")}
        onBack={() => resetAmount(key)} />
      <div class="how-much">
        <GramsField name={name} id={`grams-${part}-${index}`} grams={now?.p50 ?? null}
          onSet={(grams) => setAmount(key, grams, "resting")} />
        <span class="range">
          {set !== undefined ? (
            <Plain class="plain back" onClick={() => resetAmount(key)}
              aria-label={`${name}: back to the weight as found`}>
              {found ? `was ${gramsFigure(found.p50)}` : "clear"}
            </Plain>
          ) : found === null ? (
            "not weighed"
          ) : isExact(found) ? (
            "exact"
          ) : (
            <span title={sureness(found)}>{rangeWords(found)}</span>
          )}
        </span>
        {showPercent.value && (
          <span class="pct">{percent ? `${figure(percent.p50, percent.p50 < 10 ? 1 : 0)} %` : "–"}</span>
        )}
      </div>
      <DoubtNotes place={key} field={`grams-${part}-${index}`} />
    </li>
  );
}
