// The glaze on a slope: how far a bead of it runs in ten seconds, at the speed it will have.

import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { FinishEntry } from "./api.ts";
import { rangeAt } from "./finish_words.ts";
import { figure } from "./numbers.ts";
import { Plain } from "./plain.tsx";
import { plain } from "./words.ts";

const seconds = 10;
// The drawn slope stands for this length.
const slope_mm = 120;
const slope_px = 400;

/** Outline of a run of glaze on a level, from a bead at 0 to its rounded front. */
export function run(length: number, thickness: number): string {
  const n = (value: number): string => value.toFixed(1);
  const bead = Math.max(12, thickness * 1.5);
  const end = Math.max(16, length);
  return (
    `M-8 0 C-8 ${n(-bead)} 10 ${n(-bead)} 16 ${n(-thickness)} L${n(end)} ${n(-thickness)} ` +
    `C${n(end + thickness * 1.4)} ${n(-thickness * 1.25)} ${n(end + thickness * 1.6)} 0 ${n(end)} 0 Z`
  );
}

/** Seconds since "let it run" was pressed, up to all of them; a way to press it. */
function useRun(): { after: number; start: () => void } {
  const started = useSignal<number | null>(null);
  const after = useSignal(seconds);
  useEffect(() => {
    if (started.value === null) {
      return;
    }
    let frame = 0;
    const draw = (now: number): void => {
      after.value = Math.min(seconds, (now - (started.value ?? now)) / 1000);
      if (after.value < seconds) {
        frame = requestAnimationFrame(draw);
      }
    };
    frame = requestAnimationFrame(draw);
    return () => cancelAnimationFrame(frame);
  }, [started.value]);
  return {
    after: after.value,
    start: () => {
      started.value = performance.now();
    },
  };
}

export function GlazePicture({ entry }: { entry: FinishEntry }) {
  const { after, start } = useRun();
  const speed = rangeAt(entry, "slope_mm_s");
  const film = rangeAt(entry, "film_mm");
  if (!speed || !film) {
    return null;
  }
  // Seconds since the bead was set down; at the end, and where motion is unwelcome, all ten.
  const px = (mm_s: number, after = seconds): number =>
    (Math.min(slope_mm, Math.max(0, mm_s * after)) / slope_mm) * slope_px;
  const thick = Math.max(4, Math.min(18, film.p50 * 8));
  const length = (mm_s: number): string =>
    mm_s * seconds >= slope_mm ? `over ${slope_mm} mm` : `${figure(mm_s * seconds, 0)} mm`;
  const word = typeof entry.term === "string" ? plain(entry.term) : "";
  return (
    <>
      <svg viewBox="0 0 560 158" role="img"
        aria-label={`${word ? `${word}: ` : ""}in ${seconds} seconds it runs ${length(speed.p50)} down a slope, ${length(speed.p10)} to ${length(speed.p90)}.`}>
        <g transform="translate(46 44) rotate(13)">
          <line class="bench-line" x1="-24" x2={slope_px + 60} y1="0" y2="0" />
          <path class="glaze-reach" d={run(px(speed.p90), thick)} />
          <path class="glaze" d={run(px(speed.p50, after), thick)} />
          <line class="glaze-least" x1={px(speed.p10)} x2={px(speed.p10)} y1="0" y2={-thick} />
        </g>
        <text x="552" y="34" text-anchor="end">{length(speed.p50)} in {seconds} seconds</text>
        {word !== "" && <text class="likely" x="552" y="12" text-anchor="end">{word}</text>}
      </svg>
      <p class="save run"><Plain onClick={start}>Let it run</Plain></p>
    </>
  );
}
