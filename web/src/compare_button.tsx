// Chooses a version or a bake, and then another to be set beside it.

import { choose, chosen, type Side } from "./looking_back.ts";
import { Plain, Unseen } from "./plain.tsx";

export function CompareButton(side: Side) {
  const other = chosen.value;
  const own = other?.called === side.called;
  return (
    <Plain aria-pressed={own} onClick={() => void choose(side)}>
      {other && !own ? "with this" : "Compare"}<Unseen>: {side.words}</Unseen>
    </Plain>
  );
}
