// Two forecasts beside each other: only what differs.

import type { Forecast, Range } from "./api.ts";
import { figure, gramsFigure, saidDuration } from "./numbers.ts";
import { type Row, Sides } from "./sides.tsx";
import { plain } from "./words.ts";

const percent = (range: Range | undefined): string =>
  range ? `${figure(range.p50, range.p50 < 10 ? 1 : 0)} %` : "–";

/** The two likeliest feels: "slack 43, soft 20 in 100". */
const feelWords = ({ dough }: Forecast): string => {
  const likeliest = Object.entries(dough?.feel_probability ?? {})
    .sort(([, one], [, other]) => other - one).slice(0, 2)
    .filter(([, chance]) => chance >= 0.05)
    .map(([feel, chance]) => `${plain(feel)} ${Math.round(chance * 100)}`);
  return likeliest.length > 0 ? `${likeliest.join(", ")} in 100` : dough?.feel ? plain(dough.feel) : "–";
};

const rises = ({ proves }: Forecast): string =>
  (proves ?? []).flatMap(({ minutes_to_target }) => minutes_to_target ? [saidDuration(minutes_to_target.p50)] : [])
    .join(", then ") || "–";

const compared: readonly [string, (of: Forecast) => string][] = [
  ["Dough", feelWords],
  ["Weight", ({ dough }) => dough?.total_grams ? `${gramsFigure(dough.total_grams.p50)} g` : "–"],
  ["Water it feels, of the flour", ({ dough }) => percent(dough?.effective_hydration)],
  ["Sugar of the flour", ({ dough }) => percent(dough?.sugar_pct_flour)],
  ["Fat of the flour", ({ dough }) => percent(dough?.fat_pct_flour)],
  ["Rises in", rises],
  ["Bakes in", ({ bake }) => bake?.minutes_to_done ? saidDuration(bake.minutes_to_done.p50) : "–"],
];

interface Given {
  heading: string;
  before: string;
  after: string;
  now: Forecast;
  then: Forecast;
}

export const EffectTable = ({ heading, before, after, now, then }: Given) => (
  <Sides heading={heading} places={[before, after]}
    rows={compared.map(([name, say]): Row => [name, say(now), say(then)]).filter(([, had, has]) => had !== has)} />
);
