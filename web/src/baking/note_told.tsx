// A note of the bake in hand as the program read it: what was understood, what is asked, its picture.

import { signal } from "@preact/signals";
import { Noting } from "../noting.tsx";
import { Plain, Quiet } from "../plain.tsx";
import { Shot } from "../shot.tsx";
import { told } from "./page_bake.ts";
import type { Session } from "./session.ts";
import { isBake } from "./sights.ts";

/** The words of a note that is to be written anew; each time a field of its own. */
const anew = signal<{ words: string; times: number }>({ words: "", times: 0 });

/** What was written last: of it the baker is told what was read. */
const written = signal("");

export function NoteTold({ session, of }: { session: Session; of: string }) {
  const note = session.standing.value.notes.find(({ key }) => key === of);
  if (!note) {
    return null;
  }
  const { text, at_ms, step, picture } = note;
  const read = told.value.find((one) => !one.corrected && one.text === text && Date.parse(one.at) === at_ms);
  return (
    <>
      {picture && <Shot at={picture} of={text} />}
      {read && text === written.value && <Quiet>{read.read_as.length > 0 ? `Read as ${read.read_as.join("; ")}.` : "Kept as it stands."}</Quiet>}
      {read?.questions.map((question) => (
        <div key={question} class="problem">
          <p>{question}</p>
          <Plain onClick={async () => {
            await session.takeBack(of);
            await session.note(step, text, { sure: true, at_ms: at_ms + 1 });
          }}>It was so</Plain>
          <Plain onClick={() => {
            anew.value = { words: text, times: anew.value.times + 1 };
            void session.takeBack(of);
          }}>Write it anew</Plain>
        </div>
      ))}
    </>
  );
}

/** What is noted in words and pictures of the step in hand. */
export function NoteFurther({ session: { inHand, checklist, note } }: { session: Session }) {
  const step = inHand.value?.step ?? null;
  const baked = checklist.find(isBake)?.step ?? 0;
  const { words, times } = anew.value;
  return <Noting key={times} id="note-" draft={words} crust={step === null || step >= baked}
    keep={(text, picture) => {
      written.value = text;
      return note(step, text, picture ? { picture } : {});
    }} />;
}
