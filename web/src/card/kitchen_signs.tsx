// Small pictures of what a kitchen has: a scale, cups, ovens, how warm and how high it is.

import type { OvenKind } from "../api.ts";
import type { Means } from "./kitchen_questions.ts";

const frame = (content: preact.ComponentChildren) => (
  <svg class="kitchen-sign" viewBox="0 0 64 48" aria-hidden="true">{content}</svg>
);

const cup = "M0 0 L2 18 Q3 22 7 22 H17 Q21 22 22 18 L24 0 Z";

export function MeansSign({ means }: { means: Means }) {
  if (means === "scale") {
    return frame(<>
      <path class="fill" d="M12 12 H52 L46 20 H18 Z" />
      <path class="line" d="M32 20 V26 M14 44 V32 Q14 26 20 26 H44 Q50 26 50 32 V44 Z" />
      <path class="line" d="M32 40 L38 32" />
    </>);
  }
  return means === "cups"
    ? frame(<>
        <g transform="translate(6 16)"><path class="fill" d={cup} /><path class="line" d="M24 5 H31" /></g>
        <g transform="translate(42 26) scale(0.6)"><path class="fill" d={cup} /><path class="line" d="M24 5 H34" /></g>
      </>)
    : frame(<>
        <g transform="translate(8 14) scale(1.2)"><path class="fill" d={cup} /></g>
        <path class="line" d="M36 20 Q46 20 45 28 Q44 34 35 34" />
        <path class="line" d="M56 42 L50 20" /><ellipse class="fill" cx="49" cy="13" rx="4.5" ry="7" transform="rotate(-16 49 13)" />
      </>);
}

const flame = (x: number, y: number) => (
  <path class="flame" d={`M${x} ${y} c-5 -5 1 -8 0 -12 c5 4 6 8 0 12 Z`} />
);

export function OvenSign({ oven }: { oven: OvenKind }) {
  const box = <><rect class="line" x="12" y="6" width="40" height="38" rx="3" /><rect class="fill" x="18" y="16" width="28" height="20" rx="2" /></>;
  switch (oven) {
    case "conventional":
      return frame(<>{box}<path class="line" d="M20 11 H44" /></>);
    case "fan":
      return frame(<>{box}<g transform="translate(32 26)"><path class="line" d="M0 0 C6 -8 10 0 0 0 C8 6 0 10 0 0 C-6 8 -10 0 0 0 C-8 -6 0 -10 0 0" /></g></>);
    case "gas":
      return frame(<>{box}{flame(24, 44)}{flame(32, 44)}{flame(40, 44)}</>);
    case "wood":
      return frame(<>
        <path class="fill" d="M8 44 V30 Q8 8 32 8 Q56 8 56 30 V44 Z" />
        <path class="hole" d="M22 44 V34 Q22 26 32 26 Q42 26 42 34 V44 Z" />{flame(32, 44)}
      </>);
    case "charcoal_drum":
      return frame(<>
        <rect class="fill" x="12" y="12" width="40" height="20" rx="10" /><path class="line" d="M32 12 V6 M18 32 L14 44 M46 32 L50 44" />
        <path class="coal" d="M20 28 h5 M29 28 h6 M39 28 h5" />
      </>);
    case "toaster":
      return frame(<>
        <rect class="line" x="8" y="14" width="48" height="28" rx="3" /><rect class="fill" x="13" y="19" width="30" height="18" rx="2" />
        <path class="line" d="M49 22 V23 M49 30 V31" /><path class="coal" d="M16 21 H40 M16 35 H40" />
      </>);
    case "steamer":
      return frame(<>
        <path class="fill" d="M16 22 H48 V38 Q48 42 44 42 H20 Q16 42 16 38 Z" /><path class="line" d="M12 22 H52 M16 32 H48" />
        <path class="line" d="M24 16 q-3 -3 0 -6 t0 -6 M32 16 q-3 -3 0 -6 t0 -6 M40 16 q-3 -3 0 -6 t0 -6" />
      </>);
    case "none":
      return frame(<>
        <path class="fill" d="M10 28 H46 V34 Q46 38 42 38 H14 Q10 38 10 34 Z" /><path class="line" d="M46 30 H60 M10 26 Q28 16 46 26 Z M28 21 V17" />
        {flame(22, 48)}{flame(34, 48)}
      </>);
    default:
      return frame(<>
        <path class="fill" d="M14 18 H50 V32 Q50 36 46 36 H18 Q14 36 14 32 Z" /><path class="line" d="M10 18 H54 M32 18 V13 M28 13 H36" />
        {flame(26, 47)}{flame(38, 47)}
      </>);
  }
}

export function RoomSign({ celsius }: { celsius: number }) {
  const top = 34 - ((celsius - 12) / 26) * 26;
  return frame(<>
    <path class="line" d="M28 32 V8 Q28 4 32 4 Q36 4 36 8 V32" /><circle class="line" cx="32" cy="38" r="7" />
    <circle class="warm" cx="32" cy="38" r="4.5" /><path class="warm-line" d={`M32 36 V${top.toFixed(1)}`} />
  </>);
}

export function HeightSign({ metres }: { metres: number }) {
  const peak = 40 - (metres / 2600) * 34;
  return frame(<>
    <path class="water" d="M2 44 q6 -4 12 0 t12 0 t12 0 t12 0 t12 0" />
    {metres > 0 && <path class="fill" d={`M6 42 L26 ${(peak + 6).toFixed(1)} L34 ${(peak + 10).toFixed(1)} L42 ${peak.toFixed(1)} L60 42 Z`} />}
    {metres > 2000 && <path class="snow" d={`M42 ${peak.toFixed(1)} L36 ${(peak + 9).toFixed(1)} H48.5 Z`} />}
  </>);
}

export const MugSign = ({ ml }: { ml: number }) => frame(
  <g transform={`translate(${32 - ml / 20} ${44 - ml / 9.5}) scale(${ml / 230})`}><path class="fill" d={cup} /><path class="line" d="M24 4 Q31 5 30 11 Q29 16 22.5 16" /></g>,
);
