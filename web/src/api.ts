// The interface of the program, as docs/schema/openapi.json describes it. Figures
// may be missing from a forecast: every field is optional where a model may not
// have spoken.

import { asked, posted } from "./server.ts";

export { ProblemError } from "./server.ts";

export interface Range {
  p10: number;
  p50: number;
  p90: number;
}

export interface LowHigh {
  low: number | null;
  high: number | null;
}

export type Shape = "point" | "normal" | "lognormal" | "uniform" | "triangular";

export interface Grams extends Range {
  shape?: Shape;
  a?: number;
  b?: number;
  c?: number;
}

export interface Line {
  text: string;
  ingredient: string;
  id?: string;
  quantity?: LowHigh & { unit?: string; size?: string; packing?: string };
  grams?: Grams | null;
  note?: string;
  part?: string;
}

export interface Step {
  kind: string;
  text: string;
  minutes?: LowHigh | null;
  celsius?: LowHigh | null;
  pieces?: number | LowHigh | null;
  until?: string;
}

export interface Part {
  kind: string;
  name: string;
  lines: Line[];
  steps?: Step[];
}

export interface Doubt {
  text: string;
  why: string;
}

export interface Recipe {
  title?: string;
  found_at?: string;
  locale?: string;
  locale_probability?: number;
  pieces?: LowHigh | null;
  parts: Part[];
  doubts?: Doubt[];
  remarks?: string[];
}

export type OvenKind =
  | "conventional" | "fan" | "gas" | "wood" | "charcoal_drum" | "pot" | "none" | "steamer" | "toaster";

export interface Tin {
  kind?: string;
  length_mm?: number;
  width_mm?: number;
  depth_mm?: number;
  diameter_mm?: number;
  [further: string]: unknown;
}

export interface Kitchen {
  name?: string;
  country?: string;
  room_celsius?: number;
  room_night_celsius?: number;
  /** The room at hours of the day, instead of a night. */
  room_by_hour?: Record<string, number>;
  humidity_pct?: number;
  altitude_m?: number;
  oven?: { kind?: OvenKind; offset_celsius?: number };
  tins?: Tin[];
  measures?: (string | { name: string; ml: number })[];
  flour?: { protein_pct?: number };
  yeast?: { kind?: string; age_months?: number };
  at_hand?: string[];
  fridge?: boolean;
  power_hours?: number;
  awake?: string;
  prices?: string | { packs: object[] };
}

/** Curves over `minutes`, one array for each percentile. */
export interface Curves {
  p10: number[];
  p50: number[];
  p90: number[];
}

/** How much to keep by, and what to do as it goes in. */
export interface HoldBack {
  of: "flour" | "liquid";
  wanted?: string;
  as_written_grams?: number;
  at_first_grams: number;
  keep_by_grams: number;
  likely_grams?: number;
  steps?: { added_grams: number; do: string }[];
}

export interface DoughForecast {
  total_grams?: Range;
  flour_grams?: Range;
  baker_pct?: Record<string, Range>;
  water_pct_flour?: Range;
  effective_hydration?: Range;
  absorption_pct_flour?: Range;
  feel?: string;
  feel_words?: string;
  feel_probability?: Record<string, number>;
  hold_back_grams?: Range | number;
  hold_back?: HoldBack;
  /** The other way: all the flour in, and the liquid by the feel. */
  hold_back_liquid?: HoldBack;
  sugar_pct_flour?: Range;
  fat_pct_flour?: Range;
  salt_pct_flour?: Range;
  water_activity?: Range;
}

export interface Prove {
  name: string;
  minutes_to_target?: Range | null;
  target?: string | number;
  target_volume_ratio?: number;
  /** Share of the draws that ever reach it. */
  chance_reached?: number;
  stated_minutes?: LowHigh | null;
  volume_ratio_at_stated?: Range;
  celsius?: Range | number | null;
  band?: { minutes: number[]; volume_ratio: Curves };
  /** The dough's temperature at the same moments. */
  dough_band?: { celsius: Curves };
  /** In the freezer, or thawing: no rise. */
  frost?: "freezes" | "thaws";
}

/** A cut through the piece, base (first) to open surface (last). With `minutes`,
    temperatures and the rest have one row for each of them. */
export interface Section {
  depth_mm: number[] | number[][];
  temperature_c?: number[] | number[][];
  moisture?: number[] | number[][];
  lightness?: number[] | number[][];
  minutes?: number[];
  /** The places from the first to before the second are a filling. */
  filling?: [number, number];
}

export interface BakeMoment {
  core_celsius?: Range;
  weight_loss_pct?: Range;
  crust?: string;
  crust_probability?: Record<string, number>;
}

export interface Bake extends BakeMoment {
  minutes_to_done?: Range | null;
  pieces?: number;
  shape?: string;
  setting_celsius?: number;
  at_stated_time?: BakeMoment & { minutes: number };
  band?: { minutes: number[]; core_celsius: Curves };
  section?: Section;
}

export interface NarrowBy {
  measure: string;
  narrows: string;
  unit?: string;
  from?: number;
  to?: number;
}

/** One thing worked out of a finish; its figures are ranges, its chances from 0 to 1. */
export interface FinishEntry {
  what: string;
  part?: string;
  term?: string;
  [figure: string]: unknown;
}

export interface Forecast {
  dough?: DoughForecast;
  /** When the dough was taken to be mixed, where the room changes through the day. */
  counted_from?: string;
  preferments?: { name: string; ripe_minutes: Range; volume_ratio_at_end: Range; ph: Range; sugar_spent_pct: Range }[];
  proves?: Prove[];
  bake?: Bake | null;
  bake_problem?: string;
  finish?: FinishEntry[];
  keeping?: FinishEntry[] | null;
  cautions?: { text: string; about?: string }[];
  narrow_by?: NarrowBy[];
  /** What was taken for granted because nobody said it. */
  doubts?: Doubt[];
  draws?: number;
  seed?: number;
}

type Maybe = number | null;
/** The whole rise with another yeast, room or sugar. Minutes are null where it never gets there. */
export interface RiseWhatIf {
  group: string;
  what: string;
  rise_minutes: { p10: Maybe; p50: Maybe; p90: Maybe };
  chance_reached: number;
}

/** The bake of other pieces, in another tin or oven, from the fridge, or twice. */
export interface BakeWhatIf {
  group: string;
  what: string;
  problem?: string;
  minutes?: number;
  core_celsius?: number;
  crust?: string;
  weight_loss_pct?: number;
}

interface WhatIfs<Case> {
  problem?: string;
  as_it_is?: Case;
  others: Case[];
}

export interface WhatIfAnswer {
  what_if?: WhatIfs<RiseWhatIf>;
  bake_what_if?: WhatIfs<BakeWhatIf> & {
    for_golden?: { problem?: string; celsius?: number; minutes?: number };
    last_minute_before_dry?: number;
  };
}

export interface ReadQuestion {
  text: string;
  name?: string;
  locale?: string;
}

export interface ForecastQuestion {
  recipe: Recipe;
  kitchen: Kitchen;
  draws: number;
  seed?: number;
  /** False for a quick look that need not say which measurements would narrow it. */
  worth_measuring?: boolean;
  /** What was seen at the bake, as the program read it from notes. */
  observations?: readonly unknown[];
}

export const readFound = (question: ReadQuestion, signal?: AbortSignal): Promise<Recipe> =>
  posted<Recipe>("read", question, signal);
export const askForecast = (question: ForecastQuestion, signal?: AbortSignal): Promise<Forecast> =>
  posted<Forecast>("forecast", question, signal);
/** What would happen with other yeast, rooms, pieces, tins and ovens. */
export const askWhatIf = (recipe: Recipe, kitchen: Kitchen): Promise<WhatIfAnswer> =>
  posted<WhatIfAnswer>("forecast", { recipe, kitchen, draws: 256, what_if: true, worth_measuring: false });
export const fetchDemo = (): Promise<{ name: string; text: string }> => asked("demo", {});
export const fetchKitchen = (): Promise<Kitchen> => asked("kitchen", {});
