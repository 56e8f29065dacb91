// Handing the recipe on to another kitchen: what it has, and the card for it.

import { signal } from "@preact/signals";
import type { Kitchen, Recipe } from "./api.ts";
import { quickDraws } from "./forecast_runner.ts";
import { changed, ChoiceField, FigureField, KitchenFields } from "./kitchen_panel.tsx";
import { saveFile } from "./picture_file.ts";
import { Plain, Problem, Quiet } from "./plain.tsx";
import { posted, sentenceOf } from "./server.ts";
import { bench, recipeNow } from "./store.ts";
import { spokenTitle } from "./titles.ts";

const theirs = signal<Kitchen>({});
const spoken = signal<string | undefined>(undefined);
const card = signal("");
const problem = signal("");
const busy = signal(false);

/** The languages of a card, tag and name: data/words/languages.tsv, put in by the build. */
declare const cardTongues: Record<string, string>;
/** Forms of the card, each with the end of the file it is saved as; without one it is shown. */
const forms = [
  ["text", "Show their card", ""], ["label", "Show its label", ""], ["html", "Save it as a page", "html"],
  ["jsonld", "Save it for a website", "jsonld"], ["", "Save a card that weighs itself anew", "card.html"],
] as const;

async function ask(recipe: Recipe, as: string, end: string): Promise<void> {
  busy.value = true;
  problem.value = "";
  const kitchen = bench.value.kitchen;
  try {
    const { body, html, content_type } = await posted<{ body: string; html?: string; content_type?: string }>(
      as === "" ? "living-card" : "hand-on",
      as === "" ? { recipe, kitchen } : { recipe, to: theirs.value, kitchen, as, draws: quickDraws, language: spoken.value });
    if (end === "") {
      card.value = body;
    } else {
      saveFile(`${spokenTitle(recipe.title ?? "") || "recipe"}.${end}`, content_type ?? "text/html", html ?? body);
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
  const change = (next: Kitchen): void => {
    theirs.value = next;
    card.value = "";
  };
  const say = (field: "fridge" | "power_hours" | "at_hand") => (value: unknown) => change(changed(kitchen, field, value));
  return recipe && (
    <details class="hand-on">
      <summary>Hand it on</summary>
      <Quiet>To a kitchen where things are otherwise. What you do not know of it, leave open.</Quiet>
      <div class="kitchen">
        <KitchenFields id="their-" kitchen={kitchen} onSet={change} />
        <ChoiceField id="their-fridge" label="A fridge" value={kitchen.fridge === undefined ? undefined : String(kitchen.fridge)}
          choices={{ true: "Yes", false: "None" }} onSet={(said) => say("fridge")(said && said === "true")} />
        <FigureField id="their-power" label="Power is on" unit="h a day" low={0} high={24}
          value={kitchen.power_hours} onSet={say("power_hours")} />
        <p class="field wide">
          <label for="their-larder">At hand, with commas</label>
          <input id="their-larder" placeholder="not known" value={kitchen.at_hand?.join(", ") ?? ""}
            onChange={(event) => {
              const named = event.currentTarget.value.split(",").map((one) => one.trim()).filter(Boolean);
              say("at_hand")(named.length === 0 ? undefined : named);
            }} />
        </p>
        <ChoiceField id="their-tongue" label="The card's language" value={spoken.value} choices={cardTongues}
          onSet={(tag) => { spoken.value = tag; card.value = ""; }} />
      </div>
      <Problem>{problem.value}</Problem>
      <p class="ask-ways">
        {forms.map(([as, words, end]) => (
          <Plain key={as} disabled={busy.value} onClick={() => void ask(recipe, as, end)}>{words}</Plain>
        ))}
      </p>
      {card.value !== "" && <pre class="their-card" tabIndex={0} aria-label="Their card">{card.value}</pre>}
    </details>
  );
}
