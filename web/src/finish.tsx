// What becomes of glazes and fillings, and how long it all keeps, as the forecast says it.

import type { Forecast, Range } from "./api.ts";
import { figure, rangeWords } from "./numbers.ts";
import { capital, plain } from "./words.ts";

const isRange = (value: unknown): value is Range =>
  typeof value === "object" && value !== null && typeof (value as Range).p50 === "number" &&
  typeof (value as Range).p10 === "number" && typeof (value as Range).p90 === "number";

/** A figure's name without its unit, and the unit: "keeps_days" is ["keeps", "days"]. */
export function nameAndUnit(field: string): [string, string] {
  const units: readonly [string, string][] = [
    ["_pct_flour", "% of flour"], ["_pct", "%"], ["_celsius", "°C"], ["_grams", "g"], ["_minutes", "min"],
    ["_hours", "h"], ["_days", "days"], ["_mm", "mm"], ["_pa_s", "Pa s"],
  ];
  const unit = units.find(([end]) => field.endsWith(end));
  return unit ? [plain(field.slice(0, -unit[0].length)), unit[1]] : [plain(field), ""];
}

const said = (value: unknown): string => {
  const print = (number: number): string => figure(number, Math.abs(number) < 10 ? 2 : 0);
  return isRange(value)
    ? rangeWords(value, print)
    : typeof value === "number" ? print(value)
    : typeof value === "string" ? plain(value)
    : typeof value === "boolean" ? (value ? "yes" : "no")
    : "";
};

function Facts({ of }: { of: unknown }) {
  if (typeof of !== "object" || of === null || Array.isArray(of)) {
    return <p>{capital(said(of))}</p>;
  }
  const facts = Object.entries(of).map(([field, value]) => [...nameAndUnit(field), said(value)] as const);
  return (
    <dl>
      {facts.filter(([name, , value]) => value !== "" && name !== "name").map(([name, unit, value]) => (
        <div key={name}><dt>{capital(name)}</dt><dd>{value} {unit}</dd></div>
      ))}
    </dl>
  );
}

export function Finish({ forecast }: { forecast: Forecast }) {
  const finish = forecast.finish ?? [];
  const keeping = forecast.keeping;
  return (
    <>
      {finish.map((one, i) => {
        const name = (one as { name?: unknown } | null)?.name;
        return (
          <section class="picture facts" key={i}>
            <h2>{capital(typeof name === "string" && name !== "" ? plain(name) : "The finish")}</h2>
            <Facts of={one} />
          </section>
        );
      })}
      {keeping !== undefined && keeping !== null && (
        <section class="picture facts"><h2>Keeping</h2><Facts of={keeping} /></section>
      )}
    </>
  );
}
