// A cut through a piece: closed outlines from skin to heart, each with what the
// profile from base to top says of it.

import type { Section } from "./api.ts";

export interface Profile {
  depth_mm: number[];
  values: number[];
}

const rows = (field: number[] | number[][] | undefined): number[][] =>
  field === undefined || field.length === 0
    ? []
    : Array.isArray(field[0]) ? (field as number[][]) : [field as number[]];

export const momentCount = (section: Section): number => rows(section.temperature_c).length;

/** The profile at one moment (0 when there is only one); null when it does not fit its depths. */
export function profileAt(
  section: Section, field: "temperature_c" | "moisture" | "lightness", moment: number,
): Profile | null {
  const depths = rows(section.depth_mm);
  const depth_mm = depths[Math.min(moment, depths.length - 1)];
  const values = rows(section[field])[moment];
  return depth_mm && values && values.length === depth_mm.length && values.length > 2
    ? { depth_mm, values }
    : null;
}

/** Value at a depth from the base, between the profile's points. */
export function at({ depth_mm, values }: Profile, depth: number): number {
  const last = depth_mm.length - 1;
  for (let i = 1; i <= last; ++i) {
    const before = depth_mm[i - 1] ?? 0;
    const after = depth_mm[i] ?? 0;
    if (depth <= after && after > before) {
      const share = Math.max(0, (depth - before) / (after - before));
      return (values[i - 1] ?? 0) * (1 - share) + (values[i] ?? 0) * share;
    }
  }
  return values[last] ?? 0;
}

export interface Shell {
  outline: string;
  /** Where this shell cuts the profile above and below the heart: depth from the base. */
  top_mm: number;
  base_mm: number;
}

/**
 * Shells of a domed piece, skin first. `width` over its height is `aspect`; `size` is
 * the height of the drawing. The heart is where the profile is coldest.
 */
export function shells(profile: Profile, heart_mm: number, aspect: number, size: number, count = 22): Shell[] {
  const first = profile.depth_mm[0] ?? 0;
  const height_mm = Math.max(1e-6, (profile.depth_mm.at(-1) ?? 0) - first);
  const heart = (Math.max(0, Math.min(1, (heart_mm - first) / height_mm))) * size;
  const half = (size * aspect) / 2;
  const n = (value: number): string => value.toFixed(1);
  return Array.from({ length: count }, (_, i) => {
    // Shells stand closer under the skin, where most happens.
    const in_ = (i / count) ** 1.6;
    const out = 1 - in_;
    const w = half * out;
    const top = heart + (size - heart) * out;
    const base = heart * in_;
    const shoulder = heart + (base - heart) * 0.2;
    const outline =
      `M${n(-w)} ${n(-shoulder)} C${n(-w)} ${n(-(shoulder + (top - shoulder) * 0.72))} ` +
      `${n(-w * 0.56)} ${n(-top)} 0 ${n(-top)} ` +
      `C${n(w * 0.56)} ${n(-top)} ${n(w)} ${n(-(shoulder + (top - shoulder) * 0.72))} ${n(w)} ${n(-shoulder)} ` +
      `C${n(w)} ${n(-base)} ${n(w * 0.9)} ${n(-base)} ${n(w * 0.72)} ${n(-base)} ` +
      `L${n(-w * 0.72)} ${n(-base)} C${n(-w * 0.9)} ${n(-base)} ${n(-w)} ${n(-base)} ${n(-w)} ${n(-shoulder)} Z`;
    return {
      outline,
      top_mm: first + (top / size) * height_mm,
      base_mm: first + (base / size) * height_mm,
    };
  });
}

/** Depth from the base at which the profile is lowest: the middle of its lowest stretch. */
export function coldest({ depth_mm, values }: Profile): number {
  const least = Math.min(...values) + 0.05;
  const cold = depth_mm.filter((_, i) => (values[i] ?? Infinity) <= least);
  return ((cold[0] ?? 0) + (cold.at(-1) ?? 0)) / 2;
}

/** The moment nearest to a minute; the last when the section does not say its minutes. */
export function momentNear(section: Section, minute: number | undefined): number {
  const { minutes } = section;
  const last = momentCount(section) - 1;
  if (minute === undefined || minutes === undefined || minutes.length !== last + 1) {
    return Math.max(0, last);
  }
  let nearest = 0;
  minutes.forEach((one, i) => {
    if (Math.abs(one - minute) < Math.abs((minutes[nearest] ?? Infinity) - minute)) {
      nearest = i;
    }
  });
  return nearest;
}
