// The head: the name, undo and redo, the kitchen, another recipe.

import { BakeButton } from "./baking/page_baking.tsx";
import { devices, devicesOpen } from "./joining.ts";
import { kitchenOpen, kitchenWords } from "./kitchen_panel.tsx";
import { canRedoDeed, canUndoDeed } from "./deeds.ts";
import { lookBack, redoBack, undoBack, view } from "./looking_back.ts";
import { Plain, Unseen } from "./plain.tsx";
import { bench, canRedo, canUndo, clearBench, redo, tongue, undo } from "./store.ts";

function Ear() {
  // An ear with two kinds of grain.
  const kernel = "M0-8C4.6-4.4 4.6 3 0 7 -4.6 3 -4.6-4.4 0-8Z";
  return (
    <svg class="ear" viewBox="-16 -24 32 48" aria-hidden="true">
      <path class="stalk" d="M0 22V-4" />
      <path class="wheat" d={kernel} transform="translate(0 -14)" />
      <path class="rye" d={kernel} transform="translate(-6.5 -4) rotate(-24)" />
      <path class="wheat" d={kernel} transform="translate(6.5 -4) rotate(24)" />
      <path class="wheat" d={kernel} transform="translate(-6.5 9) rotate(-24)" />
      <path class="rye" d={kernel} transform="translate(6.5 9) rotate(24)" />
    </svg>
  );
}

export function HeadBar() {
  // What is undone is what is on show.
  const back = view.value === "back";
  const working = bench.value.recipe !== null && !back;
  const american = tongue.value === "american";
  return (
    <header class="head">
      <p class="name"><Ear />maslin</p>
      <nav aria-label="Bench">
        <BakeButton />
        {working && (
          <Plain class="plain kitchen-button" aria-expanded={kitchenOpen.value}
            aria-controls="kitchen" onClick={() => (kitchenOpen.value = !kitchenOpen.value)}>
            <span class="quiet">Kitchen</span> {kitchenWords()}
          </Plain>
        )}
        <Plain disabled={!(back ? canUndoDeed : canUndo).value} onClick={() => back ? undoBack() : undo()}
          aria-keyshortcuts="Control+Z" title="Ctrl Z">Undo</Plain>
        <Plain disabled={!(back ? canRedoDeed : canRedo).value} onClick={() => back ? redoBack() : redo()}
          aria-keyshortcuts="Control+Shift+Z" title="Ctrl Shift Z">Redo</Plain>
        <Plain
          onClick={() => (tongue.value = american ? "british" : "american")}>
          <Unseen>Words and degrees: </Unseen>
          <span class="wide">{american ? "American, " : "British, "}</span>
          {american ? "°F" : "°C"}
        </Plain>
        {devices.value?.lan && (
          <Plain aria-expanded={devicesOpen.value} aria-controls="devices"
            onClick={() => (devicesOpen.value = !devicesOpen.value)}>Devices</Plain>
        )}
        <span class="far">
          <Plain aria-current={back ? "page" : undefined}
            onClick={() => back ? (view.value = "bench") : void lookBack()}>
            {back ? "The bench" : "Kept"}
          </Plain>
          {working && (
            <Plain onClick={clearBench}>Another recipe</Plain>
          )}
        </span>
      </nav>
    </header>
  );
}
