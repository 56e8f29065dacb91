// The slide of an amount, about what was found. The band is where the
// found amount lies eight times in ten; the grain is the weight in use.

import type { Grams } from "./api.ts";
import { gramsToSlide, nudged, slideReach, slideToGrams } from "./amounts.ts";
import { gramsFigure, rangeWords } from "./numbers.ts";

interface Slide {
  name: string;
  found: Grams | null;
  now: number | null;
  onMove: (grams: number) => void;
  onRest: (grams: number) => void;
  onBack: () => void;
}

// Keys go by the steps of a scale, so that each press changes the weight.
const keySteps: Readonly<Record<string, number>> = {
  ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10,
};

// A grain dropped this near to the middle is as found again.
const nearMiddle = 1.5;

export function AmountSlide({ name, found, now, onMove, onRest, onBack }: Slide) {
  if (found === null || !(found.p50 > 0)) {
    return <div class="slide none" aria-hidden="true" />;
  }
  const middle = found.p50;
  const share = (grams: number): number =>
    (gramsToSlide(grams, middle) + slideReach) / (2 * slideReach);
  const value = gramsToSlide(now ?? middle, middle);
  const moved = (input: HTMLInputElement): void => {
    const slide = Number(input.value);
    onMove(slideToGrams(slide, middle));
  };
  const rested = (input: HTMLInputElement): void => {
    const slide = Number(input.value);
    if (Math.abs(slide) < nearMiddle) {
      onBack();
    } else {
      onRest(slideToGrams(slide, middle));
    }
  };
  return (
    <div
      class="slide"
      style={{
        "--low": String(share(found.p10)),
        "--high": String(share(found.p90)),
        "--now": String((value + slideReach) / (2 * slideReach)),
      }}
    >
      <span class="rail" aria-hidden="true" />
      <span class="band" aria-hidden="true" />
      <span class="middle" aria-hidden="true" />
      <input
        type="range"
        min={-slideReach}
        max={slideReach}
        step={0.5}
        value={value}
        aria-label={name}
        aria-valuetext={`${gramsFigure(now ?? middle)} grams; found ${rangeWords(found)}`}
        onKeyDown={(event) => {
          const steps = keySteps[event.key];
          if (steps !== undefined) {
            event.preventDefault();
            onRest(nudged(now ?? middle, steps));
          }
        }}
        onInput={(event) => moved(event.currentTarget)}
        onChange={(event) => rested(event.currentTarget)}
      />
    </div>
  );
}
