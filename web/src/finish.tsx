// What becomes of glazes, fillings and soaked fruit, when to cut, and how long it keeps.

import type { FinishEntry, Forecast, Range } from "./api.ts";
import { SavePicture } from "./figures.tsx";
import { chances, facts, rangeAt, said, saidRange, titles, type Unit } from "./finish_words.ts";
import { CoolingPicture } from "./cooling_picture.tsx";
import { GlazePicture } from "./glaze_picture.tsx";
import { KeepingStrip } from "./keeping_strip.tsx";
import { isExact } from "./numbers.ts";
import { tongue } from "./store.ts";
import { capital, entryOf, plain } from "./words.ts";

const pictured = new Set(["glaze", "cooling", "keeping"]);

function Row({ label, range, unit }: { label: string; range: Range; unit: Unit }) {
  const print = (value: number): string => said(value, unit, tongue.value);
  return (
    <div>
      <dt>{label}</dt>
      <dd>
        <strong>{print(range.p50)}</strong>
        {!isExact(range, print) && <span class="spread"> {saidRange(range.p10, range.p90, unit, tongue.value)}</span>}
      </dd>
    </div>
  );
}

function Entry({ entry, glaze }: { entry: FinishEntry; glaze: FinishEntry | undefined }) {
  const listed = (entryOf(facts, entry.what) ?? []).flatMap(({ field, label, unit }) => {
    const range = rangeAt(entry, field);
    return range ? [<Row key={field} label={label} range={range} unit={unit} />] : [];
  });
  const warned = Object.entries(chances).flatMap(([field, words]) => {
    const chance = entry[field];
    return typeof chance === "number" && chance > 0.1
      ? [<p key={field} class="warned">{Math.round(chance * 100)} in 100: {words}.</p>]
      : [];
  });
  if (listed.length === 0 && warned.length === 0) {
    return null;
  }
  const part = entry.part && entry.part !== "dough" ? entry.part : "";
  const title = capital(part || entryOf(titles, entry.what) || plain(entry.what));
  return (
    <section class="picture facts">
      <h2>{title}</h2>
      {entry.what === "glaze" && <GlazePicture entry={entry} />}
      {entry.what === "cooling" && <CoolingPicture entry={entry} glaze={glaze} />}
      {entry.what === "keeping" && <KeepingStrip entry={entry} />}
      <dl>{listed}</dl>
      {warned}
      {pictured.has(entry.what) && <SavePicture title={title} />}
    </section>
  );
}

export function Finish({ forecast }: { forecast: Forecast }) {
  const entries = (forecast.finish ?? []).filter((entry) => entry && typeof entry.what === "string");
  // Of keeping, what the whole piece does; its parts are in the figures.
  const keeping = (forecast.keeping ?? []).filter((entry) => entry && !entry.part);
  const glaze = entries.find(({ what }) => what === "glaze");
  return <>{[...entries, ...keeping].map((entry, i) => <Entry key={i} entry={entry} glaze={glaze} />)}</>;
}
