// The kitchen: what is said of it narrows the forecast, what is not is left open.

import { signal } from "@preact/signals";
import type { Kitchen, OvenKind } from "./api.ts";
import { TinFields } from "./tin_fields.tsx";
import { bench, setKitchen, tongue } from "./store.ts";
import { degrees, entryOf, localeNames } from "./words.ts";

export const kitchenOpen = signal(false);

export const ovens: Readonly<Record<OvenKind, string>> = {
  conventional: "Still oven", fan: "Fan oven", gas: "Gas oven", wood: "Wood oven",
  charcoal_drum: "Charcoal drum", pot: "Pot on a flame", none: "No oven",
};
export const countries = Object.fromEntries(
  ["us", "uk", "au", "nz", "ca", "eu", "jp"].map((code) => [code, localeNames[code] ?? code]),
);
const yeasts: Readonly<Record<string, string>> = {
  instant: "Instant", active_dry: "Active dry", fresh: "Fresh",
  osmotolerant_instant: "Instant for sweet dough", sourdough: "Sourdough",
};

/** The kitchen in a few words, for the head of the page. */
export function kitchenWords(): string {
  const { room_celsius, altitude_m, oven } = bench.value.kitchen;
  const words = [
    room_celsius === undefined ? "" : degrees(room_celsius, tongue.value),
    altitude_m !== undefined && altitude_m >= 300 ? `${altitude_m} m` : "",
    (entryOf(ovens, oven?.kind ?? "") ?? "").toLowerCase(),
  ].filter((word) => word !== "");
  return words.length === 0 ? "not described" : words.join(", ");
}

/** A field of the kitchen changed; undefined takes it out, so that it is unknown again. */
function withField(field: keyof Kitchen, value: unknown): Kitchen {
  const { [field]: _, ...kitchen } = bench.value.kitchen;
  return value === undefined ? kitchen : { ...kitchen, [field]: value };
}

function withPart(field: "oven" | "yeast" | "flour", part: string, value: unknown): Kitchen {
  const { [part]: _, ...rest } = (bench.value.kitchen[field] ?? {}) as Record<string, unknown>;
  const next = value === undefined ? rest : { ...rest, [part]: value };
  return withField(field, Object.keys(next).length === 0 ? undefined : next);
}

interface Figure {
  id: string;
  label: string;
  unit: string;
  value: number | undefined;
  low: number;
  high: number;
  onSet: (value: number | undefined) => void;
}

export function FigureField({ id, label, unit, value, low, high, onSet }: Figure) {
  return (
    <p class="field">
      <label for={id}>{label}</label>
      <span class="with-unit">
        <input id={id} type="number" inputMode="decimal" min={low} max={high} step="any"
          placeholder="not known" value={value ?? ""}
          onChange={(event) => {
            const text = event.currentTarget.value;
            const number = Number(text);
            onSet(text === "" || !Number.isFinite(number) ? undefined : Math.max(low, Math.min(high, number)));
          }} />
        <span>{unit}</span>
      </span>
    </p>
  );
}

interface Choice {
  id: string;
  label: string;
  value: string | undefined;
  choices: Readonly<Record<string, string>>;
  onSet: (value: string | undefined) => void;
}

export function ChoiceField({ id, label, value, choices, onSet }: Choice) {
  return (
    <p class="field">
      <label for={id}>{label}</label>
      <select id={id} value={value ?? ""} onChange={(event) => onSet(event.currentTarget.value || undefined)}>
        <option value="">not known</option>
        {Object.entries(choices).map(([code, said]) => <option key={code} value={code}>{said}</option>)}
        {value !== undefined && !Object.hasOwn(choices, value) && <option value={value}>{value}</option>}
      </select>
    </p>
  );
}

/** A pack a line: what is in it, how much, its unit, its price. */
const pricesText = (prices: Kitchen["prices"] = ""): string =>
  typeof prices === "string" ? prices : prices.packs.map((pack) => Object.values(pack).join(" ")).join("\n");

/** A field of the kitchen in words, by its name. */
function WordsField({ id, label, hint, value }: { id: "awake" | "prices"; label: string; hint: string; value: string | undefined }) {
  return (
    <p class="field">
      <label for={id}>{label}</label>
      <textarea id={id} rows={1} placeholder={hint} value={value}
        onChange={(event) => setKitchen(withField(id, event.currentTarget.value || undefined))} />
    </p>
  );
}

export function KitchenPanel() {
  const kitchen = bench.value.kitchen;
  const american = tongue.value === "american";
  const shown = (celsius: number | undefined, rise: boolean): number | undefined =>
    celsius === undefined || !american
      ? celsius
      : Math.round((celsius * 1.8 + (rise ? 0 : 32)) * 10) / 10;
  const kept = (typed: number | undefined, rise: boolean): number | undefined =>
    typed === undefined || !american ? typed : (typed - (rise ? 0 : 32)) / 1.8;
  const unit = american ? "°F" : "°C";
  const scale = (kitchen.measures ?? []).includes("scale");
  return (
    <section id="kitchen" class="kitchen" aria-label="Kitchen" hidden={!kitchenOpen.value}>
      <FigureField id="room" label="Room" unit={unit} low={american ? 14 : -10} high={american ? 122 : 50}
        value={shown(kitchen.room_celsius, false)}
        onSet={(typed) => setKitchen(withField("room_celsius", kept(typed, false)))} />
      <FigureField id="altitude" label="Height above the sea" unit="m" low={-430} high={5500}
        value={kitchen.altitude_m} onSet={(metres) => setKitchen(withField("altitude_m", metres))} />
      <ChoiceField id="oven" label="Oven" value={kitchen.oven?.kind} choices={ovens}
        onSet={(kind) => setKitchen(withPart("oven", "kind", kind))} />
      <FigureField id="offset" label="It runs hot by" unit={unit} low={-90} high={90}
        value={shown(kitchen.oven?.offset_celsius, true)}
        onSet={(typed) => setKitchen(withPart("oven", "offset_celsius", kept(typed, true)))} />
      <ChoiceField id="yeast" label="Yeast" value={kitchen.yeast?.kind} choices={yeasts}
        onSet={(kind) => setKitchen(withPart("yeast", "kind", kind))} />
      <FigureField id="protein" label="Protein on the flour bag" unit="%" low={5} high={20}
        value={kitchen.flour?.protein_pct}
        onSet={(percent) => setKitchen(withPart("flour", "protein_pct", percent))} />
      <ChoiceField id="country" label="Country" value={kitchen.country} choices={countries}
        onSet={(country) => setKitchen(withField("country", country))} />
      <ChoiceField id="measures" label="Measured with"
        value={kitchen.measures === undefined ? undefined : scale ? "scale" : "cups"}
        choices={{ scale: "A scale", cups: "Cups and spoons" }}
        onSet={(means) => setKitchen(withField("measures",
          means === undefined ? undefined : means === "scale" ? ["scale"] : []))} />
      <TinFields tin={kitchen.tins?.[0]}
        onSet={(tin) => setKitchen(withField("tins", tin === undefined ? undefined : [tin, ...(kitchen.tins ?? []).slice(1)]))} />
      <WordsField id="awake" label="Somebody is up" hint="6-23" value={kitchen.awake} />
      <WordsField id="prices" label="Packs and prices" hint="plain flour 1 kg 0.89" value={pricesText(kitchen.prices)} />
      <p class="field close">
        <button type="button" class="plain" onClick={() => (kitchenOpen.value = false)}>Done</button>
      </p>
    </section>
  );
}
