// The day as a line: hands, rises, waiting, oven and cooling side by side. Its end is taken
// and dragged to another hour, or moved with the keys.

import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { type Day, dayWords, hourWords, type DayStep, laneOf, lanesIn, minutesOf, wallClock } from "./day.ts";
import { duration } from "./numbers.ts";
import { carried, carryBy, moveReady, readyAt, readyFrom } from "./planning.ts";
import { placeOf, type Scale, timeTicks, within } from "./plot_scale.ts";
import { Table } from "./table.tsx";

const width = 560;
const left = 74;
const right = width - 24;
const laneHeight = 26;
const top = 30;
// The line is drawn with this much room on either side, to drag into.
const room = 0.12;

interface Drawn {
  x: Scale;
  foot: number;
}

function Bar({ step, lane, x, y }: { step: DayStep; lane: string; x: Scale; y: number }) {
  const [start, end] = [minutesOf(step.start), minutesOf(step.end)];
  if (start === null || end === null) {
    return null;
  }
  const from = placeOf(x, start);
  const long = Math.max(3, placeOf(x, end) - from - 1);
  const sure = Math.max(0, long * (1 - (step.slack_minutes ?? 0) / Math.max(1, end - start)));
  return (
    <g class={`bar ${lane}`}>
      <title>{`${step.name}, ${hourWords(start)} to ${hourWords(end)}`}</title>
      <rect class="slack" x={from} y={y + 4} width={long} height={laneHeight - 8} rx="4" />
      <rect class="sure" x={from} y={y + 4} width={sure} height={laneHeight - 8} rx="4" />
    </g>
  );
}

const keyMinutes: Readonly<Record<string, number>> = {
  ArrowRight: 5, ArrowUp: 5, ArrowLeft: -5, ArrowDown: -5, PageUp: 60, PageDown: -60,
};

/** The end of the day, to be taken. */
function Handle({ end, drawn, svg }: { end: number; drawn: Drawn; svg: { current: SVGSVGElement | null } }) {
  const from = useSignal<number | null>(null);
  const minutesAt = (event: PointerEvent): number => {
    const box = svg.current?.getBoundingClientRect();
    const perPixel = (drawn.x.high - drawn.x.low) / (drawn.x.to - drawn.x.from) * (width / (box?.width || width));
    return Math.round(((event.clientX - (from.value ?? event.clientX)) * perPixel) / 5) * 5;
  };
  const place = placeOf(drawn.x, end);
  const shown = end + carried.value;
  return (
    <g class="day-handle" role="slider" tabindex={0} aria-label="Ready at"
      aria-valuemin={end - 10_080} aria-valuemax={end + 10_080} aria-valuenow={shown}
      aria-valuetext={`${dayWords(shown)} ${hourWords(shown)}`}
      onKeyDown={(event) => {
        const minutes = keyMinutes[event.key];
        if (minutes !== undefined) {
          event.preventDefault();
          moveReady(minutes);
        }
      }}
      onPointerDown={(event) => {
        from.value = event.clientX;
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => from.value !== null && carryBy(minutesAt(event))}
      onPointerCancel={() => {
        from.value = null;
        carryBy(0);
      }}
      onPointerUp={(event) => {
        const minutes = minutesAt(event);
        from.value = null;
        if (minutes === 0) {
          carryBy(0);
        } else {
          readyFrom(end + minutes);
        }
      }}>
      <rect class="grip" x={place - 22} y="0" width="44" height={drawn.foot} />
      <line x1={place} x2={place} y1="20" y2={drawn.foot} />
      <path d="M0-11C6.5-6 6.5 4.5 0 10 -6.5 4.5 -6.5-6 0-11Z" transform={`translate(${place} ${drawn.foot - 2})`} />
      <text class="likely" x={within(place, left + 40, right - 26)} y="14" text-anchor="middle">{hourWords(shown)}</text>
    </g>
  );
}

export function DayLine({ day }: { day: Day }) {
  const svg = useRef<SVGSVGElement>(null);
  const begin = minutesOf(day.begin);
  const end = minutesOf(day.ready);
  // After a move the line slides to its new hours.
  useEffect(() => carryBy(0), [day]);
  if (begin === null || end === null) {
    return null;
  }
  const rows = lanesIn(day.steps);
  const foot = top + rows.length * laneHeight;
  const span = Math.max(60, end - begin);
  const x: Scale = { low: begin - span * room, high: end + span * room, from: left, to: right };
  const perMinute = (right - left) / (x.high - x.low);
  const now = minutesOf(wallClock()) ?? 0;
  const words = day.steps.map((step) => `${step.name} ${hourWords(minutesOf(step.start) ?? 0)}`).join(", ");
  const ticks = timeTicks(x.low - carried.value, x.high - carried.value, 6);
  return (
    <svg ref={svg} class="day-line" viewBox={`0 0 ${width} ${foot + 26}`} role="group" aria-label={`The day: ${words}; ready ${hourWords(end)}.`}>
      {rows.map((lane, i) => (
        <g key={lane}>
          <line class="axis" x1={left} x2={right} y1={top + (i + 1) * laneHeight} y2={top + (i + 1) * laneHeight} />
          <text x={left - 8} y={top + i * laneHeight + 18} text-anchor="end">{lane}</text>
        </g>
      ))}
      {ticks.filter((tick) => Math.abs(tick - end) > span * 0.04).map((tick) => (
        <text key={tick} x={placeOf(x, tick)} y={foot + 20} text-anchor="middle">{hourWords(tick)}</text>
      ))}
      {now > x.low && now < x.high && (
        <line class="now" x1={placeOf(x, now)} x2={placeOf(x, now)} y1={top} y2={foot} />
      )}
      <g style={{ transform: `translateX(${carried.value * perMinute}px)` }}>
        {day.steps.map((step) => (
          <Bar key={step.name} step={step} lane={laneOf(step)} x={x}
            y={top + rows.indexOf(laneOf(step)) * laneHeight} />
        ))}
        <Handle end={end} drawn={{ x, foot }} svg={svg} />
      </g>
    </svg>
  );
}

/** The steps with their hours, for reading and printing. */
export function DayTable({ steps }: { steps: readonly DayStep[] }) {
  return (
    <Table of={["Step", "From", "To", "Takes"]} rows={steps.map((step) => [
      <>{step.name}{step.note && <p>{step.note}</p>}</>,
      ...[step.start, step.end].map(minutesOf).map((at) => at === null ? "never" : hourWords(at)),
      step.minutes ? duration(step.minutes.p50) : "",
    ])} />
  );
}

export const asSoonAsCanBe = (): void => {
  readyAt.value = "";
};
