// Which figures of a finish are worth saying, in which words. The rest stands in the
// interface for those who want it.

import type { FinishEntry, Range } from "./api.ts";
import { figure, saidDuration } from "./numbers.ts";
import { degrees, type Tongue } from "./words.ts";

const isRange = (value: unknown): value is Range =>
  typeof value === "object" && value !== null && typeof (value as Range).p50 === "number" &&
  typeof (value as Range).p10 === "number" && typeof (value as Range).p90 === "number";

/** The range at a name; null when it is missing or no range. */
export function rangeAt(entry: FinishEntry, field: string): Range | null {
  const value = entry[field];
  return isRange(value) ? value : null;
}

export type Unit = "minutes" | "days" | "weeks" | "hours" | "g" | "mm" | "celsius" | "pct";

export interface Fact {
  field: string;
  label: string;
  unit: Unit;
}

const fact = (field: string, label: string, unit: Unit): Fact => ({ field, label, unit });

export const facts: Readonly<Record<string, readonly Fact[]>> = {
  cooling: [
    fact("cut_after_minutes", "Cut after", "minutes"),
    fact("wrap_after_minutes", "Wrap after", "minutes"),
  ],
  glaze: [
    fact("glaze_after_minutes", "Glaze after", "minutes"),
    fact("skin_minutes", "Skin forms in", "minutes"),
    fact("film_mm", "Lies", "mm"),
    fact("grams_per_piece", "On each piece", "g"),
  ],
  coating: [
    fact("glaze_after_minutes", "Coat after", "minutes"),
    fact("sets_below_celsius", "Sets below", "celsius"),
    fact("oil_for_drizzle_g", "Oil to make it drizzle", "g"),
    fact("grams_per_piece", "On each piece", "g"),
  ],
  wash: [fact("grams_per_piece", "On each piece", "g")],
  filling: [
    fact("grams_per_piece", "In each piece", "g"),
    fact("sugar_g_per_piece", "Sugar of it", "g"),
    fact("thickness_mm", "Spread", "mm"),
  ],
  syrup: [
    fact("grams", "In all", "g"),
    fact("boils_celsius", "Boils at", "celsius"),
  ],
  soak: [
    fact("hours", "Soaked", "hours"),
    fact("taken_up_g", "Drinks", "g"),
    fact("liquid_left_g", "Leaves", "g"),
  ],
  extract: [
    fact("extract_g", "Gives", "g"),
    fact("residue_g", "Leaves behind", "g"),
  ],
  fruit_in_dough: [
    fact("fruit_g", "Fruit", "g"),
    fact("water_drawn_g", "Water it draws from the dough", "g"),
  ],
  keeping: [
    fact("fresh_days", "Soft for", "days"),
    fact("mould_free_days", "No mould seen for", "days"),
    fact("frozen_weeks", "Frozen, good for", "weeks"),
    fact("thawing_hours", "Thaws in", "hours"),
  ],
};

export const titles: Readonly<Record<string, string>> = {
  cooling: "Cooling",
  glaze: "Glaze",
  coating: "Coat",
  wash: "Wash",
  filling: "Filling",
  syrup: "Syrup",
  soak: "Soaking",
  extract: "Straining",
  fruit_in_dough: "Fruit in the dough",
  keeping: "Keeping",
};

/** Chances worth a warning, said when they are more than one in ten. */
export const chances: Readonly<Record<string, string>> = {
  chance_never_sets: "never sets in this air",
  chance_seizes: "seizes from the wet in it",
  chance_paste: "stays a paste that will not run",
  chance_runs_out: "runs out at the seams",
  chance_boils_out: "boils over its edge",
  chance_steam_gap: "leaves a gap under the crust",
  chance_dries_dough: "dries the crumb about it",
  chance_tunnel: "tears a tunnel in the roll",
  chance_lost_swirl: "loses its swirl",
};

/** "20 to 30 min": the unit once where both ends share it. */
export function saidRange(low: number, high: number, unit: Unit, tongue: Tongue): string {
  const [from, to] = [said(low, unit, tongue), said(high, unit, tongue)];
  const [number, ...shared] = from.split("\u00a0");
  return shared.length === 1 && to.split("\u00a0").slice(1).join() === shared[0]
    ? `${number} to ${to}`
    : `${from} to ${to}`;
}

// Times beyond this are the model's way of saying never.
const neverMinutes = 1e6;

export function said(value: number, unit: Unit, tongue: Tongue): string {
  const nb = "\u00a0";
  switch (unit) {
    case "minutes":
      return value > neverMinutes ? "never" : saidDuration(value);
    case "days":
      return `${figure(value, value < 3 ? 1 : 0)}${nb}${value === 1 ? "day" : "days"}`;
    case "weeks":
      return `${figure(value)}${nb}weeks`;
    case "hours":
      return `${figure(value, value < 3 ? 1 : 0)}${nb}h`;
    case "celsius":
      return degrees(value, tongue);
    case "mm":
      return `${figure(value, 1)}${nb}mm`;
    case "pct":
      return `${figure(value)}${nb}%`;
    case "g":
      return `${figure(value, value < 10 ? 1 : 0)}${nb}g`;
  }
}
