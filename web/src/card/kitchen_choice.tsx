// The friend's kitchen, told by taps on pictures. Nothing is typed; what is not told stays
// open, and the ranges are the wider for it.

import type { ComponentChildren } from "preact";
import type { Say } from "../baking/words.ts";
import { degrees, type Tongue } from "../words.ts";
import type { CountryMeasure } from "./card_data.ts";
import {
  type Answers, cupPlaces, heights, type Means, mugs_ml, ovens, placeName, rooms, yeasts,
} from "./kitchen_questions.ts";
import { HeightSign, MeansSign, MugSign, OvenSign, RoomSign } from "./kitchen_signs.tsx";

interface Choice<Value> {
  value: Value;
  words: string;
  sign?: ComponentChildren;
}

interface TilesProps<Value> {
  name: string;
  legend: string;
  choices: readonly Choice<Value>[];
  chosen: Value | null;
  onChoose: (value: Value) => void;
}

function Tiles<Value extends string | number>({ name, legend, choices, chosen, onChoose }: TilesProps<Value>) {
  return (
    <fieldset class={`tiles ${name}`}>
      <legend>{legend}</legend>
      <div class="tile-row">
        {choices.map(({ value, words, sign }) => (
          <label key={value} class={`tile ${chosen === value ? "chosen" : ""}`}>
            <input type="radio" name={name} checked={chosen === value} onChange={() => onChoose(value)} />
            {sign}
            <span>{words}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

interface FineProps {
  words: string;
  value: number;
  step: number;
  low: number;
  high: number;
  print: (value: number) => string;
  say: Say;
  onSet: (value: number) => void;
}

/** Between the pictures: a little less, a little more. */
function Fine({ words, value, step, low, high, print, say, onSet }: FineProps) {
  const set = (to: number): void => onSet(Math.max(low, Math.min(high, to)));
  return (
    <div class="fine" role="group" aria-label={words}>
      <button type="button" aria-label={`${words}: ${say("less")}`} onClick={() => set(value - step)}>−</button>
      <output aria-live="polite">{print(value)}</output>
      <button type="button" aria-label={`${words}: ${say("more")}`} onClick={() => set(value + step)}>+</button>
    </div>
  );
}

interface KitchenChoiceProps {
  answers: Answers;
  measures: readonly CountryMeasure[];
  language: string;
  tongue: Tongue;
  say: Say;
  onChange: (change: Partial<Answers>) => void;
}

export function KitchenChoice({ answers, measures, language, tongue, say, onChange }: KitchenChoiceProps) {
  const means: readonly [Means, string][] = [
    ["scale", "A scale"], ["cups", "Cups and spoons"], ["mug", "A mug and a spoon"],
  ];
  const nearest = <Value,>(list: readonly [Value, number][], value: number | null): number | null =>
    value === null ? null
      : (list.map(([, at]) => at).sort((a, b) => Math.abs(a - value) - Math.abs(b - value))[0] ?? null);
  return (
    <div class="kitchen-choice">
      <Tiles name="means" legend={say("What do you measure with?")} chosen={answers.means}
        choices={means.map(([value, words]) => ({ value, words: say(words), sign: <MeansSign means={value} /> }))}
        onChoose={(value) => onChange({ means: value, ...(value === "cups" && answers.cups === "" ? { cups: "us" } : {}) })} />
      {answers.means === "cups" && (
        <Tiles name="cups" legend={say("Whose cups?")} chosen={answers.cups}
          choices={cupPlaces(measures).map(({ locale, ml }) => ({
            value: locale, words: `${placeName(locale, language)}, ${Math.round(ml)} ml`,
          }))}
          onChoose={(cups) => onChange({ cups })} />
      )}
      {answers.means === "mug" && (
        <Tiles name="mug" legend={say("How large is the mug?")} chosen={answers.mug_ml}
          choices={mugs_ml.map((ml) => ({ value: ml, words: `${ml} ml`, sign: <MugSign ml={ml} /> }))}
          onChoose={(mug_ml) => onChange({ mug_ml })} />
      )}
      <Tiles name="oven" legend={say("What do you bake in?")} chosen={answers.oven}
        choices={ovens.map(([words, value]) => ({ value, words: say(words), sign: <OvenSign oven={value} /> }))}
        onChoose={(oven) => onChange({ oven })} />
      <Tiles name="room" legend={say("How warm is the room?")} chosen={nearest(rooms, answers.room_celsius)}
        choices={rooms.map(([words, value]) => ({ value, words: say(words), sign: <RoomSign celsius={value} /> }))}
        onChoose={(room_celsius) => onChange({ room_celsius })} />
      {answers.room_celsius !== null && (
        <Fine words={say("How warm is the room?")} value={answers.room_celsius} step={1} low={5} high={42} say={say}
          print={(celsius) => degrees(celsius, tongue)} onSet={(room_celsius) => onChange({ room_celsius })} />
      )}
      <Tiles name="height" legend={say("How high do you live?")} chosen={nearest(heights, answers.altitude_m)}
        choices={heights.map(([words, value]) => ({ value, words: say(words), sign: <HeightSign metres={value} /> }))}
        onChoose={(altitude_m) => onChange({ altitude_m })} />
      {answers.altitude_m !== null && answers.altitude_m > 0 && (
        <Fine words={say("How high do you live?")} value={answers.altitude_m} step={100} low={0} high={4500} say={say}
          print={(metres) => `${metres}\u00a0m`} onSet={(altitude_m) => onChange({ altitude_m })} />
      )}
      <Tiles name="yeast" legend={say("Which yeast have you?")} chosen={answers.yeast ?? ""}
        choices={yeasts.map(([words, value]) => ({ value, words: say(words) }))}
        onChoose={(yeast) => onChange({ yeast: yeast === "" ? null : yeast })} />
    </div>
  );
}
