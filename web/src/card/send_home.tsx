// What was learnt, on its way home: a small file, and a code to be photographed.

import { encode } from "uqr";
import { useMemo } from "preact/hooks";
import { useSignal } from "@preact/signals";
import { saveFile } from "../picture_file.ts";
import { Plain, Quiet } from "../plain.tsx";
import { card, carried, forgetBake, keeping, say, view } from "./store.ts";
import { bakedCode, bakedFile, mostCodeBytes } from "./trial_file.ts";

/** A code as one path of squares, with the four quiet squares around it that readers need. */
export function Code({ text, label }: { text: string; label: string }) {
  const path = useMemo(() => {
    const { data, size } = encode(text, { ecc: "L", border: 4 });
    const squares = data.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : [])));
    return { size, d: squares.join("") };
  }, [text]);
  return (
    <svg class="code" viewBox={`0 0 ${path.size} ${path.size}`} role="img" aria-label={label} shape-rendering="crispEdges">
      <rect width={path.size} height={path.size} fill="#fff" />
      <path d={path.d} fill="#000" />
    </svg>
  );
}

const safeName = (title: string): string =>
  title.toLowerCase().normalize("NFKD").replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "").slice(0, 40) || "bake";

export function SendHome() {
  const asked = useSignal(false);
  const bake = keeping.read().bake;
  const recipe = carried.value?.recipe;
  const tell = say.value;
  if (!bake || !recipe) {
    return null;
  }
  const name = `${safeName(card.title)}.baked.json`;
  const text = JSON.stringify(bakedFile(bake, card.title, card.recipe_id, recipe));
  const short = bakedCode(bake, card.title, card.recipe_id);
  const fits = new TextEncoder().encode(short).length <= mostCodeBytes;
  const save = (): void => saveFile(name, "application/json", text);
  const share = async (): Promise<void> => {
    const file = new File([text], name, { type: "application/json" });
    if (navigator.canShare?.({ files: [file] })) {
      await navigator.share({ files: [file], title: card.title }).catch(() => undefined);
    } else {
      save();
    }
  };
  return (
    <section class="send-home">
      <header class="card-bar">
        <Plain onClick={() => (view.value = "card")}>{tell("Back to the card")}</Plain>
      </header>
      <h1>{tell("Send it home")}</h1>
      <p class="lead">
        {tell("What you saw goes back to the one who sent you this card: as a small file, or as a code they photograph. Their maslin learns from it.")}
      </p>
      <div class="ways">
        <Plain class="strong" onClick={save}>{tell("Save the file")}</Plain>
        <Plain onClick={() => void share()}>{tell("Share it")}</Plain>
      </div>
      {fits
        ? <Code text={short} label={tell("A code that holds your notes")} />
        : <Quiet>{tell("There are too many notes for one code: send the file.")}</Quiet>}
      <Quiet>{tell("In the terminal: maslin trial import FILE")}</Quiet>
      {asked.value ? (
        <div class="sure" role="group">
          <p>{tell("The notes of this bake will be gone from this phone.")}</p>
          <Plain class="strong" onClick={forgetBake}>{tell("Forget them")}</Plain>
          <Plain onClick={() => (asked.value = false)}>{tell("Keep them")}</Plain>
        </div>
      ) : (
        <Plain onClick={() => (asked.value = true)}>{tell("Forget this bake and begin another")}</Plain>
      )}
    </section>
  );
}
