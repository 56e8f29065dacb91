// Twenty grains, each one chance in twenty, shared out over the feels of a dough.

export const feels = ["very_stiff", "stiff", "medium", "soft", "slack", "batter"] as const;

export const grainCount = 20;

/** Whole grains for each share, by largest remainder; they always come to twenty. */
export function grainsOf(shares: readonly number[]): number[] {
  const sum = shares.reduce((total, share) => total + Math.max(0, share), 0);
  if (!(sum > 0)) {
    return shares.map(() => 0);
  }
  const exact = shares.map((share) => (Math.max(0, share) / sum) * grainCount);
  const grains = exact.map(Math.floor);
  const left = grainCount - grains.reduce((total, count) => total + count, 0);
  exact
    .map((value, i) => ({ i, rest: value - Math.floor(value) }))
    .sort((a, b) => b.rest - a.rest || a.i - b.i)
    .slice(0, left)
    .forEach(({ i }) => (grains[i] = (grains[i] ?? 0) + 1));
  return grains;
}

/** Where between the first feel (0) and the last (1) the share `u` of the draws is reached. */
export function feelAt(shares: readonly number[], u: number): number {
  const sum = shares.reduce((total, share) => total + Math.max(0, share), 0);
  const last = Math.max(1, shares.length - 1);
  let before = 0;
  for (let i = 0; i < shares.length; ++i) {
    const share = Math.max(0, shares[i] ?? 0) / (sum || 1);
    if (before + share >= u && share > 0) {
      // A feel spans half a step to either side of its own place.
      const place = (i - 0.5 + (u - before) / share) / last;
      return Math.max(0, Math.min(1, place));
    }
    before += share;
  }
  return 1;
}

const lumpHeight = (s: number, size: number): number => size * (1.2 - 0.94 * s ** 0.85);

/** Half the breadth of that lump: of one volume, height times breadth squared stays the same. */
export const lumpHalf = (slackness: number, size: number): number =>
  0.86 * size * Math.sqrt((1.2 * size) / lumpHeight(slackness, size));

/**
 * Outline of a lump of dough of one volume on a bench, for a slackness from 0 (a ball)
 * to 1 (a puddle), about its middle on the bench line, y upward negative. Always the
 * same commands, so that one outline can be moved into another.
 */
export function lump(slackness: number, size: number): string {
  const s = Math.max(0, Math.min(1, slackness));
  const height = lumpHeight(s, size);
  const half = lumpHalf(s, size);
  const foot = half * (0.7 + 0.3 * s);
  const belly = height * (0.42 - 0.3 * s);
  const n = (value: number): string => value.toFixed(2);
  const side = (sign: number): [string, string, string] => [
    `${n(sign * half * 0.96)} 0 ${n(sign * half)} ${n(-belly * 0.4)} ${n(sign * half)} ${n(-belly)}`,
    `${n(sign * half)} ${n(-belly - (height - belly) * 0.58)} ${n(sign * half * 0.58)} ${n(-height)} 0 ${n(-height)}`,
    `${n(sign * half * 0.58)} ${n(-height)} ${n(sign * half)} ${n(-belly - (height - belly) * 0.58)} ${n(sign * half)} ${n(-belly)}`,
  ];
  const [leftFoot, leftTop] = side(-1);
  const [, , rightDown] = side(1);
  return (
    `M${n(-foot)} 0 C${leftFoot} C${leftTop} C${rightDown} ` +
    `C${n(half)} ${n(-belly * 0.4)} ${n(half * 0.96)} 0 ${n(foot)} 0 Z`
  );
}
