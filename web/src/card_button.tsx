// A living card of the recipe on the bench, to send to a friend.

import { useSignal } from "@preact/signals";
import { askLivingCard, ProblemError } from "./api.ts";
import { saveFile } from "./picture_file.ts";
import { bench, recipeNow } from "./store.ts";

export function CardButton() {
  const problem = useSignal("");
  const recipe = recipeNow.value;
  if (!recipe) {
    return null;
  }
  const write = async (): Promise<void> => {
    problem.value = "";
    try {
      const { html } = await askLivingCard(recipe, bench.value.kitchen);
      const name = (recipe.title ?? "").toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "");
      saveFile(`${name || "recipe"}.card.html`, "text/html", html);
    } catch (error) {
      problem.value = error instanceof ProblemError ? error.message : "The card could not be written.";
    }
  };
  return (
    <>
      <button type="button" class="plain" onClick={() => void write()}>Card for a friend</button>
      {problem.value !== "" && <span class="problem" role="alert">{problem.value}</span>}
    </>
  );
}
