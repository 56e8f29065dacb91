// How much flour to keep by, and when to stop adding it.

import type { Forecast } from "../api.ts";
import { gramsFigure } from "../numbers.ts";
import type { ChecklistStep } from "./log.ts";
import type { Say } from "./words.ts";

/** Only where the flour goes in, or while it is worked. */
const holdsFlour = (step: ChecklistStep): boolean => step.kind === "knead" || /flour|dough/i.test(step.text);

export function HoldBackCard({ forecast, step, say }: { forecast: Forecast | null; step: ChecklistStep; say: Say }) {
  const back = forecast?.dough?.hold_back;
  if (!back || !(back.keep_by_grams > 0) || !holdsFlour(step)) {
    return null;
  }
  return (
    <div class="hold-back">
      <p>
        {say(back.of === "flour" ? "Keep {grams} g of the flour back." : "Keep {grams} g of the liquid back.",
          { grams: gramsFigure(back.keep_by_grams) })}{" "}
        {back.likely_grams !== undefined && back.likely_grams > 0 &&
          say("Likely {grams} g of it goes in after all.", { grams: gramsFigure(back.likely_grams) })}
      </p>
      {(back.steps ?? []).length > 0 && (
        <details>
          <summary>{say("How to judge")}</summary>
          <ol>{(back.steps ?? []).map((one, i) => <li key={i}>{one.do}</li>)}</ol>
        </details>
      )}
    </div>
  );
}
