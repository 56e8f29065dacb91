// The empty bench: paste, drop or open what was found, or try the pamphlet.

import { useSignal } from "@preact/signals";
import { Chooser } from "./chooser.tsx";
import { Plain, Problem } from "./plain.tsx";
import { bench, read, readDemo, reading, readProblem } from "./store.ts";

const mostBytes = 2_000_000;

/** Reads a dropped or chosen file as text, or says why not. */
async function readFile(file: File | undefined): Promise<void> {
  if (!file) {
    return;
  }
  if (/^(image|video|audio)\//.test(file.type)) {
    readProblem.value =
      `${file.name} is a picture or a clip: copy its words out, or open its captions (.vtt, .srt).`;
  } else if (file.size > mostBytes) {
    readProblem.value = `${file.name} is over 2 MB: cut out the recipe and paste that.`;
  } else {
    await read({ text: await file.text(), name: file.name });
  }
}

export function Ask({ text = bench.value.found, done }: { text?: string; done?: () => void }) {
  const draft = useSignal(text);
  const over = useSignal(false);
  const weigh = async (found: string): Promise<void> => {
    await read({ text: found });
    if (readProblem.value === "") {
      done?.();
    }
  };
  return (
    <form
      class={`ask ${over.value ? "over" : ""}`}
      onSubmit={(event) => {
        event.preventDefault();
        void weigh(draft.value);
      }}
      onDragOver={(event) => {
        event.preventDefault();
        over.value = true;
      }}
      onDragLeave={() => (over.value = false)}
      onDrop={(event) => {
        event.preventDefault();
        over.value = false;
        const file = event.dataTransfer?.files[0];
        const dropped = event.dataTransfer?.getData("text/plain") ?? "";
        void (file ? readFile(file).then(done) : weigh((draft.value = dropped)));
      }}
    >
      <h1><label for="found-text">Found a recipe? Lay it here as it is.</label></h1>
      <p class="lead">
        Cups, handfuls and all. You get it back in grams, with how sure each gram is, and
        what the dough, the rise and the oven will make of it in your kitchen.
      </p>
      <textarea
        id="found-text"
        rows={9}
        spellcheck={false}
        placeholder={"4 cups strong flour\n1 cup roast pumpkin, mashed …"}
        value={draft.value}
        onInput={(event) => (draft.value = event.currentTarget.value)}
        onPaste={(event) => {
          // A paste into an empty field is the whole wish: weigh it at once.
          const pasted = event.clipboardData?.getData("text/plain") ?? "";
          if (draft.value.trim() === "" && pasted.trim() !== "") {
            event.preventDefault();
            draft.value = pasted;
            void weigh(pasted);
          }
        }}
      />
      <Problem>{readProblem.value}</Problem>
      <div class="ask-ways">
        <Plain type="submit" class="strong" disabled={draft.value.trim() === "" || reading.value}>
          {reading.value ? "Weighing …" : "Weigh it"}
        </Plain>
        <Chooser words="Open a file" accept=".txt,.md,.html,.htm,.vtt,.srt,.json,text/*"
          onFile={(file) => void readFile(file).then(done)} />
        {done ? (
          <Plain onClick={done}>Keep it as it was</Plain>
        ) : (
          <Plain onClick={() => void readDemo()}>
            Nothing at hand? Try the parish pamphlet
          </Plain>
        )}
      </div>
    </form>
  );
}
