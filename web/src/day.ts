// The day as the interface plans it, and clock times of the kitchen: no zone, whole minutes.

import type { Doubt, Kitchen, Recipe } from "./api.ts";
import { language } from "./numbers.ts";
import { posted } from "./server.ts";

/** "2026-05-01T16:00" on the kitchen's clock. */
export type Clock = string;

export interface DayStep {
  name: string;
  kind: string;
  part?: string;
  start: Clock | null;
  end: Clock | null;
  hands: boolean;
  oven: boolean;
  minutes?: { p10: number; p50: number; p90: number };
  slack_minutes?: number;
  note?: string;
  state?: string;
}

export interface DayAlternative {
  name: string;
  does: string;
  met: boolean;
  begin: Clock | null;
  ready: Clock | null;
  chance_in_time?: number;
  recipe?: Recipe;
}

export interface Day {
  met: boolean;
  wanted_at: Clock | null;
  chance_wanted?: number;
  chance_in_time: number;
  begin: Clock | null;
  ready: Clock | null;
  ready_at?: { p10: Clock | null; p50: Clock | null; p90: Clock | null };
  nearest: Clock | null;
  why_not?: string;
  steps: DayStep[];
  alternatives: DayAlternative[];
  assumed?: Doubt[];
}

export interface DayQuestion {
  recipe: Recipe;
  kitchen: Kitchen;
  ready_at?: Clock;
  now: Clock;
  draws: number;
}

export const askDay = (question: DayQuestion, signal?: AbortSignal): Promise<Day> =>
  posted<Day>("plan", question, signal);

/** Minutes since 1970 on the kitchen's clock; null for what is no time ("never"). */
export function minutesOf(clock: Clock | null | undefined): number | null {
  const found = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d)/.exec(clock ?? "");
  if (!found) {
    return null;
  }
  const [year = 0, month = 1, day = 1, hour = 0, minute = 0] = found.slice(1).map(Number);
  return Date.UTC(year, month - 1, day, hour, minute) / 60_000;
}

export const clockOf = (minutes: number): Clock =>
  new Date(Math.round(minutes) * 60_000).toISOString().slice(0, 16);

/** The clock on the wall where the page is looked at. */
export function wallClock(now = new Date()): Clock {
  return clockOf(now.getTime() / 60_000 - now.getTimezoneOffset());
}

const hourFormat = new Intl.DateTimeFormat(language, { hour: "numeric", minute: "2-digit", timeZone: "UTC" });
const dayFormat = new Intl.DateTimeFormat(language, { weekday: "long", timeZone: "UTC" });

/** "16:00", or "4:00 pm" where one writes it so. */
export const hourWords = (minutes: number): string => hourFormat.format(minutes * 60_000);
/** "Thursday". */
export const dayWords = (minutes: number): string => dayFormat.format(minutes * 60_000);

/** The rows of the day, from the top: who or what is busy. */
export const lanes = ["hands", "rising", "waiting", "oven", "cooling"] as const;
export type Lane = (typeof lanes)[number];

/** In which row a step stands. */
export function laneOf({ kind, hands, oven }: DayStep): Lane {
  return hands ? "hands" : oven ? "oven" : kind === "prove" ? "rising" : kind === "cool" ? "cooling" : "waiting";
}

/** The rows that anything stands in. */
export const lanesIn = (steps: readonly DayStep[]): Lane[] =>
  lanes.filter((lane) => steps.some((step) => laneOf(step) === lane));
