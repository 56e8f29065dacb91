// Where values fall in a plot, and at which of them a tick stands.

export interface Scale {
  low: number;
  high: number;
  /** Places of the ends, in the picture's own units. */
  from: number;
  to: number;
}

export const placeOf = ({ low, high, from, to }: Scale, value: number): number =>
  high === low ? from : from + ((value - low) / (high - low)) * (to - from);

/** The value nearest to a place, for a hand that points or drags. */
export const valueAt = ({ low, high, from, to }: Scale, place: number): number =>
  to === from ? low : low + ((place - from) / (to - from)) * (high - low);

export const within = (value: number, low: number, high: number): number =>
  Math.max(low, Math.min(high, value));

// Minutes at which one would say the time.
const saidMinutes = [1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 240, 360, 720, 1440, 2880];

const multiples = (step: number, low: number, high: number): number[] => {
  const first = Math.ceil(low / step - 1e-9);
  const count = Math.floor(high / step + 1e-9) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => (first + i) * step);
};

/** At most `most` times that one would say, in minutes. */
export function timeTicks(low: number, high: number, most: number): number[] {
  const step = saidMinutes.find((minutes) => (high - low) / minutes <= most - 0.999) ??
    1440 * Math.ceil((high - low) / (most * 1440));
  return multiples(step, low, high);
}

/** At most `most` round values: steps of 1, 2 or 5 times a power of ten. */
export function roundTicks(low: number, high: number, most: number): number[] {
  const span = high - low;
  if (!(span > 0) || !Number.isFinite(span)) {
    return [low];
  }
  const power = 10 ** Math.floor(Math.log10(span / most));
  const step = [1, 2, 5, 10].map((n) => n * power).find((one) => span / one <= most) ?? 10 * power;
  return multiples(step, low, high).map((value) => Number(value.toPrecision(12)));
}

const n = (value: number): string => value.toFixed(1);

/** A line through points; places that are no numbers are left out. */
export const lineThrough = (xs: readonly number[], ys: readonly number[]): string =>
  xs.flatMap((x, i) => {
    const y = ys[i];
    return y === undefined || !Number.isFinite(y) ? [] : [`${n(x)} ${n(y)}`];
  }).map((point, i) => `${i === 0 ? "M" : "L"}${point}`).join("");

/** The surface between two lines over the same xs. */
export function surface(xs: readonly number[], lower: readonly number[], upper: readonly number[]): string {
  const there = lineThrough(xs, upper);
  const back = lineThrough([...xs].reverse(), [...lower].reverse());
  return there === "" || back === "" ? "" : `${there}L${back.slice(1)}Z`;
}
