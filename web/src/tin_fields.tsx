// The tin or tray of the kitchen, with the sizes that its kind has.

import type { Tin } from "./api.ts";
import { ChoiceField, FigureField } from "./kitchen_panel.tsx";

type Size = "length_mm" | "width_mm" | "diameter_mm" | "depth_mm";
const sizes: Readonly<Record<Size, string>> = {
  length_mm: "Tin, length", width_mm: "Tin, width", diameter_mm: "Tin, across", depth_mm: "Tin, depth",
};
const kinds: Readonly<Record<string, string>> = {
  loaf: "Loaf tin", ring: "Ring tin", round: "Round tin", muffin: "Tin of cups", tray: "Tray", free: "None, on the stone",
};
const sidesOf = (kind: string): readonly Size[] =>
  kind === "free" ? [] : kind === "loaf" || kind === "tray"
    ? ["length_mm", "width_mm", "depth_mm"]
    : ["diameter_mm", "depth_mm"];

export function TinFields({ id, tin, onSet }: { id: string; tin: Tin | undefined; onSet: (tin: Tin | undefined) => void }) {
  const kind = tin?.kind;
  return (
    <>
      <ChoiceField id={`${id}tin`} label="Baked in" value={kind} choices={kinds}
        onSet={(chosen) => onSet(chosen === undefined ? undefined : { ...tin, kind: chosen })} />
      {kind !== undefined && sidesOf(kind).map((size) => (
        <FigureField key={size} id={`${id}tin-${size}`} label={sizes[size]} unit="mm" low={5} high={2000}
          value={tin?.[size]}
          onSet={(mm) => {
            const { [size]: _, ...others } = tin ?? {};
            onSet(mm === undefined ? others : { ...others, [size]: mm });
          }} />
      ))}
    </>
  );
}
