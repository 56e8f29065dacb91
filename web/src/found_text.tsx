// The found text as it was, each line tied to what it became.

import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { Ask } from "./ask.tsx";
import { Plain } from "./plain.tsx";
import { bench, openDoubts, pointed, read, stretches } from "./store.ts";
import { localeNames } from "./words.ts";

/** Brings the recipe's own row for a stretch of text under the eye and the keys. */
function goTo(key: string): void {
  const row = document.querySelector<HTMLElement>(`[data-row="${CSS.escape(key)}"]`);
  const field = row?.querySelector<HTMLElement>("input[inputmode]") ?? row;
  row?.scrollIntoView({ block: "center", behavior: "smooth" });
  field?.focus({ preventScroll: true });
}

function Words() {
  const paper = useRef<HTMLDivElement>(null);
  const at = pointed.value;
  useEffect(() => {
    const words = paper.current?.querySelector<HTMLElement>(".tie.at");
    const box = paper.current;
    if (words && box && box.scrollHeight > box.clientHeight) {
      const top = words.offsetTop - box.offsetTop;
      if (top < box.scrollTop || top > box.scrollTop + box.clientHeight - 60) {
        box.scrollTo({ top: top - box.clientHeight / 3, behavior: "smooth" });
      }
    }
  }, [at]);
  return (
    <div class="paper" ref={paper} tabIndex={0} role="region" aria-label="Found text">
      {stretches.value.map((stretch, i) =>
        stretch.key === "" ? (
          <span key={i}>{stretch.text}</span>
        ) : (
          <a
            key={i}
            href={`#${stretch.key.replaceAll(" ", "-")}`}
            class={`tie ${stretch.key.split(" ")[0]} ${stretch.key === at ? "at" : ""} ${
              openDoubts.value.has(stretch.key) ? "doubted" : ""}`}
            onMouseEnter={() => (pointed.value = stretch.key)}
            onFocus={() => (pointed.value = stretch.key)}
            onClick={(event) => {
              event.preventDefault();
              pointed.value = stretch.key;
              goTo(stretch.key);
            }}
          >
            {stretch.text}
          </a>
        ),
      )}
    </div>
  );
}

function Measures() {
  const { recipe, found, name } = bench.value;
  const locale = recipe?.locale ?? "";
  const chance = recipe?.locale_probability ?? 1;
  const known = locale === "" || Object.hasOwn(localeNames, locale);
  return (
    <p class="measures">
      <label for="locale">Measures read as</label>
      <select id="locale" value={locale}
        onChange={(event) => void read({ text: found, name, locale: event.currentTarget.value })}>
        {locale === "" && <option value="">not known</option>}
        {!known && <option value={locale}>{locale}</option>}
        {Object.entries(localeNames).map(([code, said]) => (
          <option key={code} value={code}>{said}</option>
        ))}
      </select>
      {chance < 0.995 && <span class="quiet">{Math.round(chance * 100)}{"\u00a0"}in{"\u00a0"}100 sure</span>}
    </p>
  );
}

export function FoundText() {
  const editing = useSignal(false);
  const { found } = bench.value;
  if (editing.value) {
    return (
      <section class="found" aria-label="As found">
        <Ask text={found} done={() => (editing.value = false)} />
      </section>
    );
  }
  return (
    <section class="found" aria-label="As found">
      <div class="found-head">
        <h2>As found</h2>
        <Plain onClick={() => (editing.value = true)}>
          Change the words
        </Plain>
      </div>
      <Measures />
      <Words />
    </section>
  );
}
