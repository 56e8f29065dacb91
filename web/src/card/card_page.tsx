// The card: whose it is and whether it is whole, the amounts in this kitchen's measures, what
// will happen, the method, and the bake.

import { BakingView } from "../baking/baking_view.tsx";
import { figure } from "../numbers.ts";
import { Plain, Problem, Quiet } from "../plain.tsx";
import { spokenTitle } from "../titles.ts";
import { degrees } from "../words.ts";
import { statedDigest } from "./card_data.ts";
import { KitchenChoice } from "./kitchen_choice.tsx";
import { ovens } from "./kitchen_questions.ts";
import { Outcome } from "./outcome.tsx";
import { SendHome } from "./send_home.tsx";
import {
  answer, answers, bake, bakeOpen, card, carried, checklist, day, forecast, keeping, language, problem,
  say, session, speak, tongue, view, whole, working,
} from "./store.ts";

function Integrity() {
  const tell = say.value;
  const digest = statedDigest();
  const words = {
    same: tell("This card is as it was written."),
    changed: tell("This card was changed since it was written. Trust it as much as you trust who sent it."),
    unchecked: tell("This browser cannot tell whether the card was changed."),
  };
  return (
    <footer class="integrity">
      {whole.value && <p class={whole.value}>{words[whole.value]}</p>}
      <Quiet>
        maslin {card.maslin}, {card.written_at.slice(0, 10)}. {tell("Recipe")} {card.recipe_id.slice(0, 12)}.{" "}
        <span class="digest">SHA-256 {digest}</span>
      </Quiet>
    </footer>
  );
}

function kitchenWords(): string {
  const { means, oven, room_celsius, altitude_m, mug_ml } = answers.value;
  const tell = say.value;
  const words = [
    means === "scale" ? tell("A scale") : means === "cups" ? tell("Cups and spoons")
      : means === "mug" ? `${tell("A mug and a spoon")}, ${mug_ml} ml` : "",
    oven === null ? "" : tell(ovens.find(([, kind]) => kind === oven)?.[0] ?? ""),
    room_celsius === null ? "" : degrees(room_celsius, tongue.value),
    altitude_m === null || altitude_m === 0 ? "" : `${figure(altitude_m)}\u00a0m`,
  ].filter((one) => one !== "");
  return words.length === 0 ? tell("Not told yet") : words.join(", ");
}

function Amounts() {
  const now = carried.value;
  const tell = say.value;
  const weighs = answers.value.means === "scale" || answers.value.means === null;
  return (
    <section class="amounts" aria-label={tell("What goes in")}>
      <h2>{tell("What goes in")}</h2>
      {(now?.parts ?? []).map((part) => (
        <div key={part.name} class="part">
          {(now?.parts.length ?? 0) > 1 && <h3>{part.name}</h3>}
          <ul>
            {part.lines.map((line, i) => (
              <li key={i}>
                <span class="amount">{line.words || "–"}</span>
                <span class="ingredient">
                  {line.name}{line.note !== "" && <span class="quiet">, {line.note}</span>}
                </span>
                {!weighs && line.grams > 0 && <span class="quiet grams">{figure(line.grams)} g</span>}
              </li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}

function Method() {
  const tell = say.value;
  return (
    <section class="card-method" aria-label={tell("How it is made")}>
      <h2>{tell("How it is made")}</h2>
      <ol>{checklist.value.map((step) => <li key={step.step}>
        {step.text}{step.as_found !== "" && <span class="quiet"> {tell("In the words of the recipe:")} {step.as_found}</span>}
      </li>)}</ol>
    </section>
  );
}

function Advice() {
  const now = carried.value;
  const tell = say.value;
  if (!now) {
    return null;
  }
  const cautions = now.cautions.map(({ text }) => text);
  return (
    <>
      {(now.changes.length > 0 || now.notes.length > 0) && (
        <section class="advice">
          <h2>{tell("What is different for you")}</h2>
          <ul>
            {now.changes.map((one, i) => <li key={i}><strong>{one.what}</strong>: {one.from} → {one.to}. <span class="quiet">{one.why}</span></li>)}
            {now.notes.map((note, i) => <li key={`n${i}`}>{note}</li>)}
          </ul>
        </section>
      )}
      {now.baking.length > 0 && (
        <section class="advice">
          <h2>{tell("At the fire")}</h2>
          <ul>{now.baking.map(({ words }, i) => <li key={i}>{words}</li>)}</ul>
        </section>
      )}
      {cautions.length > 0 && (
        <section class="advice cautions">
          <h2>{tell("Take care")}</h2>
          <ul>{[...new Set(cautions)].map((text) => <li key={text}>{text}</li>)}</ul>
        </section>
      )}
    </>
  );
}

function Languages() {
  return card.languages.length < 2 ? null : (
    <select class="languages" aria-label={say.value("Language")} value={language.value}
      onChange={(event) => speak(event.currentTarget.value)}>
      {card.languages.map(({ tag, name }) => <option key={tag} value={tag}>{name}</option>)}
    </select>
  );
}

function Card() {
  const tell = say.value;
  return (
    <main class="card">
      <header class="card-bar">
        <Plain class="plain kitchen-line" onClick={() => (view.value = "kitchen")}>
          <span class="quiet">{tell("Your kitchen")}</span> {kitchenWords()}
        </Plain>
        <Languages />
      </header>
      {whole.value === "changed" && <Problem>{tell("This card was changed since it was written. Trust it as much as you trust who sent it.")}</Problem>}
      {!keeping.lasts && <p class="problem">{tell("This browser keeps nothing: send your notes home before you close the card.")}</p>}
      {problem.value !== "" && <Problem>{problem.value}</Problem>}
      <h1>{spokenTitle(carried.value?.title || card.title)}</h1>
      <p class="lead">{[carried.value?.yield, carried.value?.setting].filter(Boolean).join(" · ")}</p>
      <Amounts />
      <div aria-busy={working.value} data-weighed={working.value ? "no" : "yes"} class={working.value ? "stale" : ""}>
        {forecast.value && <Outcome forecast={forecast.value} day={day.value} checklist={checklist.value} say={tell} tongue={tongue.value} />}
      </div>
      <Advice />
      <Method />
      <Integrity />
      <footer class="card-foot">
        <Plain class="strong" disabled={carried.value === null} onClick={() => void bake()}>
          {bakeOpen.value ? tell("Go on baking") : tell("Bake it")}
        </Plain>
        {bakeOpen.value && <Plain onClick={() => (view.value = "home")}>{tell("Send it home")}</Plain>}
      </footer>
    </main>
  );
}

/** What the answers do, while they are given. */
function LiveLine() {
  const now = forecast.value;
  const tell = say.value;
  const first = now?.proves?.[0]?.minutes_to_target?.p50;
  const oven = now?.bake?.minutes_to_done?.p50;
  return (
    <p class="live-line" role="status" data-weighed={working.value ? "no" : "yes"}>
      {working.value || !now ? tell("Working it out…") : [
        first === undefined ? "" : `${tell("First prove")} ${figure(first)} min`,
        oven === undefined ? "" : `${tell("The bake")} ${figure(oven)} min`,
      ].filter(Boolean).join(" · ")}
    </p>
  );
}

function KitchenView() {
  const tell = say.value;
  return (
    <main class="card">
      <header class="card-bar"><Quiet>{spokenTitle(card.title)}</Quiet><Languages /></header>
      <h1>{tell("Your kitchen")}</h1>
      <p class="lead">{tell("Tap what you have. The recipe is weighed anew for it; what you leave out stays open.")}</p>
      {problem.value !== "" && <Problem>{problem.value}</Problem>}
      <KitchenChoice answers={answers.value} measures={card.measures} language={language.value} tongue={tongue.value}
        say={tell} onChange={answer} />
      <footer class="card-foot">
        <LiveLine />
        <Plain class="strong" onClick={() => { keeping.write({ kitchen: keeping.read().kitchen ?? {} }); view.value = "card"; scrollTo(0, 0); }}>
          {tell("Show the recipe")}
        </Plain>
      </footer>
    </main>
  );
}

export function CardPage() {
  switch (view.value) {
    case "kitchen":
      return <KitchenView />;
    case "home":
      return <SendHome />;
    case "baking":
      return session.value && (
        <BakingView session={session.value} say={say.value} tongue={tongue.value}
          onLeave={() => (view.value = "card")} onFinish={() => (view.value = "home")} finishWords={say.value("Send it home")} />
      );
    default:
      return <Card />;
  }
}
