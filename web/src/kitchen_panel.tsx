// The kitchen: what is said of it narrows the forecast, what is not is left open.

import { signal } from "@preact/signals";
import type { Kitchen, OvenKind } from "./api.ts";
import { Plain } from "./plain.tsx";
import { TinFields } from "./tin_fields.tsx";
import { bench, setKitchen, tongue } from "./store.ts";
import { degrees, entryOf, localeNames } from "./words.ts";

export const kitchenOpen = signal(false);

export const ovens: Readonly<Record<OvenKind, string>> = {
  conventional: "Still oven", fan: "Fan oven", gas: "Gas oven", wood: "Wood oven",
  charcoal_drum: "Charcoal drum", pot: "Pot on a flame", none: "Pan with a lid", steamer: "Steamer", toaster: "Toaster oven",
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

/** A field changed; undefined takes it out, so that it is unknown again. */
export const changed = (kitchen: Kitchen, field: keyof Kitchen, value: unknown): Kitchen => {
  const { [field]: _, ...rest } = kitchen;
  return value === undefined ? rest : { ...rest, [field]: value };
};
const vessels = [["mug", 300, 50, 2000], ["spoon", 15, 1, 30]] as const;

/** What may be said of a kitchen, the bench's own or a friend's; what is left out stays unknown. */
export function KitchenFields({ id, kitchen, onSet }: { id: string; kitchen: Kitchen; onSet: (kitchen: Kitchen) => void }) {
  const american = tongue.value === "american";
  const shown = (celsius: number | undefined, zero: number): number | undefined =>
    celsius === undefined || !american ? celsius : Math.round((celsius * 1.8 + zero) * 10) / 10;
  const kept = (typed: number | undefined, zero: number): number | undefined =>
    typed === undefined || !american ? typed : (typed - zero) / 1.8;
  const unit = american ? "°F" : "°C";
  const room = { unit, low: american ? 14 : -10, high: american ? 122 : 50 };
  const set = (field: keyof Kitchen) => (value: unknown) => onSet(changed(kitchen, field, value));
  const setIn = (field: "oven" | "yeast" | "flour", part: string) => (value: unknown) => {
    const { [part]: _, ...rest } = (kitchen[field] ?? {}) as Record<string, unknown>;
    const next = value === undefined ? rest : { ...rest, [part]: value };
    set(field)(Object.keys(next).length === 0 ? undefined : next);
  };
  const own = kitchen.measures ?? [];
  const mug = own.some((one) => typeof one === "object");
  const volume = (name: string): number => (own.find((one) => typeof one === "object" && one.name === name) as { ml: number }).ml;
  const measured = (of: (name: string, usual: number) => number) =>
    set("measures")(vessels.map(([name, usual]) => ({ name, ml: of(name, usual) })));
  return (
    <>
      <FigureField id={`${id}room`} label="Room" {...room}
        value={shown(kitchen.room_celsius, 32)} onSet={(typed) => set("room_celsius")(kept(typed, 32))} />
      {kitchen.room_celsius !== undefined && !kitchen.room_by_hour && (
        <FigureField id={`${id}night`} label="At night" {...room}
          value={shown(kitchen.room_night_celsius, 32)} onSet={(typed) => set("room_night_celsius")(kept(typed, 32))} />
      )}
      <FigureField id={`${id}altitude`} label="Height above the sea" unit="m" low={-430} high={5500}
        value={kitchen.altitude_m} onSet={set("altitude_m")} />
      <ChoiceField id={`${id}oven`} label="Oven" value={kitchen.oven?.kind} choices={ovens} onSet={setIn("oven", "kind")} />
      <FigureField id={`${id}offset`} label="It runs hot by" unit={unit} low={-90} high={90}
        value={shown(kitchen.oven?.offset_celsius, 0)} onSet={(typed) => setIn("oven", "offset_celsius")(kept(typed, 0))} />
      <ChoiceField id={`${id}yeast`} label="Yeast" value={kitchen.yeast?.kind} choices={yeasts} onSet={setIn("yeast", "kind")} />
      <FigureField id={`${id}protein`} label="Protein on the flour bag" unit="%" low={5} high={20}
        value={kitchen.flour?.protein_pct} onSet={setIn("flour", "protein_pct")} />
      <ChoiceField id={`${id}country`} label="Country" value={kitchen.country} choices={countries} onSet={set("country")} />
      <ChoiceField id={`${id}measures`} label="Measured with"
        value={kitchen.measures === undefined ? undefined : mug ? "mug" : own.includes("scale") ? "scale" : "cups"}
        choices={{ scale: "A scale", cups: "Cups and spoons", mug: "A mug and a spoon" }}
        onSet={(means) => means === "mug" ? measured((_, usual) => usual)
          : set("measures")(means === undefined ? undefined : means === "scale" ? ["scale"] : [])} />
      {mug && own.length === vessels.length && vessels.map(([name, usual, low, high]) => (
        <FigureField key={name} id={`${id}${name}`} label={`The ${name} holds`} unit="ml" low={low} high={high} value={volume(name)}
          onSet={(ml) => measured((one) => one === name ? ml ?? usual : volume(one))} />
      ))}
      <TinFields id={id} tin={kitchen.tins?.[0]}
        onSet={(tin) => set("tins")(tin === undefined ? undefined : [tin, ...(kitchen.tins ?? []).slice(1)])} />
    </>
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
        onChange={(event) => setKitchen(changed(bench.value.kitchen, id, event.currentTarget.value || undefined))} />
    </p>
  );
}

export const KitchenPanel = () => (
  <section id="kitchen" class="kitchen" aria-label="Kitchen" hidden={!kitchenOpen.value}>
    <KitchenFields id="" kitchen={bench.value.kitchen} onSet={setKitchen} />
    <WordsField id="awake" label="Somebody is up" hint="6-23" value={bench.value.kitchen.awake} />
    <WordsField id="prices" label="Packs and prices" hint="plain flour 1 kg 0.89" value={pricesText(bench.value.kitchen.prices)} />
    <p class="field close">
      <Plain onClick={() => (kitchenOpen.value = false)}>Done</Plain>
    </p>
  </section>
);
