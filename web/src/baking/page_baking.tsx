// The baking view on the page the program serves, and the button that leads to it.

import { Plain } from "../plain.tsx";
import { bench, forecast, recipeNow, tongue } from "../store.ts";
import { lookBack } from "../looking_back.ts";
import { BakingView } from "./baking_view.tsx";
import { NoteFurther, NoteTold } from "./note_told.tsx";
import { bakeProblem, endBake, leaveBake, session, startBake, unsent } from "./page_bake.ts";
import { inEnglish } from "./words.ts";

export function PageBaking() {
  const waiting = unsent.value;
  return session.value && (
    <main>
      <BakingView session={session.value} say={inEnglish} tongue={tongue.value}
        waiting={waiting === 0 ? "" : waiting < 0 ? "Keeping it …" : `${waiting} ${waiting === 1 ? "entry waits" : "entries wait"} here until maslin answers. Nothing is lost.`}
        further={<NoteFurther session={session.value} />}
        about={(key) => session.value && <NoteTold session={session.value} of={key} />}
        onLeave={leaveBake} finishWords="Close the bake"
        onFinish={() => void endBake().then((name) => name === undefined ? undefined : lookBack(name))} />
    </main>
  );
}

export function BakeButton() {
  const recipe = recipeNow.value;
  return (
    <>
      {recipe && (
        <Plain class="plain bake-button"
          onClick={() => void startBake(bench.value.kept?.name ?? recipe.title ?? "A bake", recipe, bench.value.kitchen, forecast.value)}>
          {session.value ? "Go on baking" : "Bake it"}
        </Plain>
      )}
      {bakeProblem.value !== "" && <span class="problem" role="alert">{bakeProblem.value}</span>}
    </>
  );
}
