// The big buttons for what is seen, and the figures set by taps.

import { useSignal } from "@preact/signals";
import { Plain } from "../plain.tsx";
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
          <Plain class="sight" onClick={() => onSee(sight)}>
            <SignPicture sign={sight.sign} />
            <span>{say(sight.words)}</span>
          </Plain>
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
      <Plain class="gauge-less" aria-label={`${words}: ${say("less")}`} onClick={() => move(-gauge.step)}>−</Plain>
      <output class="gauge-value" aria-live="polite">{value.value}&nbsp;{gauge.unit}</output>
      <Plain class="gauge-more" aria-label={`${words}: ${say("more")}`} onClick={() => move(gauge.step)}>+</Plain>
      <Plain class="gauge-note" onClick={() => onNote(value.value)}>{say("Note it")}</Plain>
    </div>
  );
}
