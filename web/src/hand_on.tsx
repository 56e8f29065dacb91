// Handing the recipe on to another kitchen: what it has, and the card for it.

import { signal } from "@preact/signals";
import type { Kitchen, OvenKind, Recipe } from "./api.ts";
import { quickDraws } from "./forecast_runner.ts";
import { ChoiceField, countries, FigureField, ovens } from "./kitchen_panel.tsx";
import { saveFile } from "./picture_file.ts";
import { posted } from "./server.ts";
import { bench, recipeNow, sentenceOf } from "./store.ts";
import { spokenTitle } from "./titles.ts";

const theirs = signal<Kitchen>({});
const card = signal("");
const problem = signal("");
const busy = signal(false);

async function ask(recipe: Recipe, as: "text" | "html"): Promise<void> {
  busy.value = true;
  try {
    const answer = await posted<{ body: string; content_type: string }>("hand-on", {
      recipe, to: theirs.value, kitchen: bench.value.kitchen, as, draws: quickDraws,
    });
    problem.value = "";
    if (as === "text") {
      card.value = answer.body;
    } else {
      saveFile(`${spokenTitle(recipe.title ?? "") || "recipe"}.html`, answer.content_type, answer.body);
    }
  } catch (error) {
    problem.value = sentenceOf(error);
  } finally {
    busy.value = false;
  }
}

export function HandOn() {
  const recipe = recipeNow.value;
  const kitchen = theirs.value;
  const change = (next: Partial<Kitchen>): void => {
    // What is left open stays out: an unknown of their kitchen.
    theirs.value = Object.fromEntries(
      Object.entries({ ...kitchen, ...next }).filter(([, value]) => value !== undefined));
    card.value = "";
  };
  return recipe && (
    <details class="hand-on">
      <summary>Hand it on</summary>
      <p class="quiet">To a kitchen where things are otherwise. What you do not know of it, leave open.</p>
      <div class="kitchen">
        <ChoiceField id="their-country" label="Their country" value={kitchen.country} choices={countries}
          onSet={(country) => change({ country } as Partial<Kitchen>)} />
        <ChoiceField id="their-oven" label="Their oven" value={kitchen.oven?.kind} choices={ovens}
          onSet={(kind) => change({ oven: kind === undefined ? undefined : { kind: kind as OvenKind } } as Partial<Kitchen>)} />
        <FigureField id="their-height" label="Height above the sea" unit="m" low={-430} high={5500} value={kitchen.altitude_m}
          onSet={(altitude_m) => change({ altitude_m } as Partial<Kitchen>)} />
        <ChoiceField id="their-measures" label="They measure with"
          value={kitchen.measures === undefined ? undefined : kitchen.measures.length > 0 ? "scale" : "cups"}
          choices={{ scale: "A scale", cups: "Cups and spoons" }}
          onSet={(means) => change({ measures: means === undefined ? undefined : means === "scale" ? ["scale"] : [] } as Partial<Kitchen>)} />
      </div>
      <p class="problem" role="alert">{problem.value}</p>
      <p class="ask-ways">
        <button type="button" class="plain" disabled={busy.value} onClick={() => void ask(recipe, "text")}>Show their card</button>
        <button type="button" class="plain" disabled={busy.value} onClick={() => void ask(recipe, "html")}>Save it as a page</button>
      </p>
      {card.value !== "" && <pre class="their-card" tabIndex={0} aria-label="Their card">{card.value}</pre>}
    </details>
  );
}
