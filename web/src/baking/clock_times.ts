// Times of the day and stretches of time as they are said while baking.

import { duration, language } from "../numbers.ts";

const clock = new Intl.DateTimeFormat(language, { hour: "numeric", minute: "2-digit" });

/** "15:12", to the minute. */
export const timeOfDay = (at_ms: number): string => clock.format(at_ms);

/** The same to five minutes, for what lies ahead. */
export const aboutTimeOfDay = (at_ms: number): string =>
  timeOfDay(Math.round(at_ms / 300_000) * 300_000);

/** "4:05" below an hour, "1 h 20 min" above: what a running clock shows. */
export function runningTime(minutes: number): string {
  if (minutes >= 60) {
    return duration(Math.floor(minutes));
  }
  const seconds = Math.max(0, Math.floor(minutes * 60));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
