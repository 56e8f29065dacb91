// The whole page: an empty bench for the first visit, else found text, weighed
// recipe and pictures side by side.

import { useEffect } from "preact/hooks";
import { Ask } from "./ask.tsx";
import { FoundText } from "./found_text.tsx";
import { onShow } from "./baking/page_bake.ts";
import { PageBaking } from "./baking/page_baking.tsx";
import { DevicesPanel } from "./devices_panel.tsx";
import { HeadBar } from "./head_bar.tsx";
import { Join } from "./join.tsx";
import { KitchenPanel } from "./kitchen_panel.tsx";
import { LookBack } from "./look_back.tsx";
import { redoBack, undoBack, view } from "./looking_back.ts";
import { Pictures } from "./pictures.tsx";
import { bench, redo, undo } from "./store.ts";
import { unpaired } from "./server.ts";
import { Summary } from "./summary.tsx";
import { WeighedRecipe } from "./weighed_recipe.tsx";

const typing = (target: EventTarget | null): boolean =>
  target instanceof HTMLTextAreaElement ||
  (target instanceof HTMLInputElement && target.type !== "range" && target.dataset["draft"] === "yes");

function keys(event: KeyboardEvent): void {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || typing(event.target)) {
    return;
  }
  const key = event.key.toLowerCase();
  if (key === "z" && !event.shiftKey) {
    event.preventDefault();
    view.value === "back" ? void undoBack() : undo();
  } else if (key === "y" || (key === "z" && event.shiftKey)) {
    event.preventDefault();
    view.value === "back" ? void redoBack() : redo();
  }
}

export function Page() {
  useEffect(() => {
    addEventListener("keydown", keys);
    return () => removeEventListener("keydown", keys);
  }, []);
  const recipe = bench.value.recipe;
  if (unpaired.value) {
    return <Join />;
  }
  if (onShow.value) {
    return <PageBaking />;
  }
  return (
    <>
      <a class="skip" href="#weighed">Skip to the recipe</a>
      <HeadBar />
      <DevicesPanel />
      {view.value === "back" ? <LookBack /> : recipe === null ? (
        <main id="weighed" class="empty" tabIndex={-1}>
          <Ask />
        </main>
      ) : (
        <main class="bench">
          <KitchenPanel />
          <FoundText />
          <WeighedRecipe recipe={recipe} />
          <Pictures />
        </main>
      )}
      {recipe !== null && view.value === "bench" && <Summary />}
    </>
  );
}
