// Small pictures of what is seen: a dough in its bowl, a crust, how a dough stands, a core.

import { lump } from "../grains.ts";
import type { Sign } from "./sights.ts";

const crustInks = {
  pale: "var(--cut-crumb)", light: "var(--cut-light)", gold: "var(--cut-gold)",
  brown: "var(--cut-brown)", dark: "var(--dark-crust)", burnt: "var(--cut-burnt)",
} as const;

const level = 14;

/** A straight jar with a band where the dough began; it stands as high as it has grown. */
function Rise({ rise }: { rise: number }) {
  const top = 51 - level * rise;
  return (
    <>
      <path class="sign-dough" d={`M15 51 V${top + 3} Q28 ${top - 4} 41 ${top + 3} V51 Z`} />
      <path class="sign-glass" d="M14 4 V48 Q14 52 18 52 H38 Q42 52 42 48 V4" />
      <line class="sign-mark" x1="9" x2="47" y1={51 - level} y2={51 - level} />
    </>
  );
}

export function SignPicture({ sign }: { sign: Sign }) {
  return (
    <svg class="sign" viewBox="0 0 56 56" aria-hidden="true">
      {"rise" in sign && <Rise rise={sign.rise} />}
      {"crust" in sign && (
        <path class="sign-crust" d="M5 42 C3 22 14 12 28 12 C42 12 53 22 51 42 C46 46 10 46 5 42 Z"
          style={{ fill: crustInks[sign.crust] }} />
      )}
      {"feel" in sign && (
        <g transform="translate(28 46)"><path class="sign-dough" d={lump(sign.feel, 15)} /></g>
      )}
      {"core" in sign && (
        <>
          <path class="sign-crust" d="M5 42 C3 22 14 12 28 12 C42 12 53 22 51 42 C46 46 10 46 5 42 Z"
            style={{ fill: sign.core === "raw" ? "var(--cut-raw)" : "var(--cut-gold)" }} />
          <ellipse cx="28" cy="32" rx="13" ry="7"
            style={{ fill: sign.core === "raw" ? "var(--dough-shade)" : "var(--cut-crumb)" }} />
        </>
      )}
    </svg>
  );
}
