// The big buttons for what is seen, and the figures set by taps.

import { useSignal } from "@preact/signals";
import type { Gauge, Sight } from "./sights.ts";
import { SignPicture } from "./signs.tsx";
import type { Say } from "./words.ts";

interface SightButtonsProps {
  sights: readonly Sight[];
  say: Say;
  onSee: (sight: Sight) => void;
}

export function SightButtons({ sights, say, onSee }: SightButtonsProps) {
  return (
    <ul class="sights">
      {sights.map((sight) => (
        <li key={sight.words} class={sight.ends ? "ends" : ""}>
          <button type="button" class="sight" onClick={() => onSee(sight)}>
            <SignPicture sign={sight.sign} />
            <span>{say(sight.words)}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}

interface GaugeSetterProps {
  gauge: Gauge;
  say: Say;
  onNote: (value: number) => void;
}

export function GaugeSetter({ gauge, say, onNote }: GaugeSetterProps) {
  const value = useSignal(gauge.start);
  const words = say(gauge.words);
  const move = (by: number): void => {
    value.value = Math.max(gauge.low, Math.min(gauge.high, value.value + by));
  };
  return (
    <div class="gauge" role="group" aria-label={words}>
      <p class="gauge-words">{words}</p>
      <button type="button" class="gauge-less" aria-label={`${words}: ${say("less")}`} onClick={() => move(-gauge.step)}>−</button>
      <output class="gauge-value" aria-live="polite">{value.value}&nbsp;{gauge.unit}</output>
      <button type="button" class="gauge-more" aria-label={`${words}: ${say("more")}`} onClick={() => move(gauge.step)}>+</button>
      <button type="button" class="gauge-note" onClick={() => onNote(value.value)}>{say("Note it")}</button>
    </div>
  );
}
