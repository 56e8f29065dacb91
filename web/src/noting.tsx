// What a baker notes beside the buttons: words, a score, a picture, a colour picked from it.

import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { GaugeSetter } from "./baking/sight_buttons.tsx";
import { inEnglish } from "./baking/words.ts";
import { Chooser } from "./chooser.tsx";
import { colourAt, drawn } from "./picking.ts";
import { Plain, Problem } from "./plain.tsx";
import { sentenceOf } from "./server.ts";

/** Keeps a note; `picture` is an address that holds the whole picture (data:image/jpeg). */
export type Keep = (text: string, picture?: string) => Promise<unknown>;

const moves: Readonly<Record<string, [number, number]>> = {
  ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1],
};
const stride = 0.02;
const within = (share: number): number => Math.max(0, Math.min(1, share));

/** The picture; a tap or the arrow keys take the colour of a spot. */
function Spot({ canvas, onColour }: { canvas: HTMLCanvasElement; onColour: (colour: string) => void }) {
  const place = useRef<HTMLButtonElement>(null);
  const at = useSignal<[number, number]>([0.5, 0.5]);
  const take = (across: number, down: number): void => {
    at.value = [within(across), within(down)];
    onColour(colourAt(canvas, ...at.value));
  };
  const [across, down] = at.value;
  useEffect(() => {
    place.current?.prepend(canvas);
    take(across, down);
  }, []);
  return (
    <Plain class="spot" ref={place} aria-label="Picture: tap the crust, or use the arrow keys, to take its colour"
      onClick={({ clientX, clientY, detail }) => {
        const { left, top, width, height } = canvas.getBoundingClientRect();
        detail > 0 ? take((clientX - left) / width, (clientY - top) / height) : take(across, down);
      }}
      onKeyDown={(event) => {
        const move = moves[event.key];
        if (move) {
          event.preventDefault();
          take(across + move[0] * stride, down + move[1] * stride);
        }
      }}>
      <span style={{ left: `${across * 100}%`, top: `${down * 100}%` }} />
    </Plain>
  );
}

interface NotingProps {
  /** What the names of its fields begin with. */
  id: string;
  keep: Keep;
  /** Words to begin with, when a note is to be written anew. */
  draft?: string;
  /** Whether there is a crust to take a colour from. */
  crust: boolean;
}

export function Noting({ id, keep, draft = "", crust }: NotingProps) {
  const words = useSignal(draft);
  const sense = useSignal("");
  const colour = useSignal("#a8672f");
  const picture = useSignal<HTMLCanvasElement | null>(null);
  const problem = useSignal("");
  const field = (name: string, label: string, value: typeof words, hint: string) => (
    <>
      <label for={id + name}>{label}</label>
      <input id={id + name} autocomplete="off" data-draft="yes" maxLength={1000} placeholder={hint} value={value.value}
        onInput={(event) => (value.value = event.currentTarget.value)} />
    </>
  );
  const send = async (text: string, shown?: string): Promise<void> => {
    try {
      await keep(text, shown);
      problem.value = "";
    } catch (error) {
      problem.value = sentenceOf(error);
    }
  };
  return (
    <div class="noting">
      <form class="say" onSubmit={(event) => {
        event.preventDefault();
        const text = words.value.trim();
        if (text !== "") {
          words.value = "";
          void send(text);
        }
      }}>
        {field("words", "In your own words", words, "15 g flour left, tacky, core 96 °C …")}
        <Plain type="submit">Note it</Plain>
      </form>
      <details>
        <summary>A picture{crust && ", the crust's colour"}, a score</summary>
        <Chooser words="Take or choose a picture" accept="image/*" onFile={async (file) => {
          try {
            picture.value = file ? await drawn(file) : picture.value;
            problem.value = "";
          } catch {
            problem.value = "This cannot be shown: choose a JPEG, PNG or WebP picture.";
          }
        }} />
        {picture.value && <Spot key={picture.value} canvas={picture.value} onColour={(found) => (colour.value = found)} />}
        {crust && (
          <p class="say">
            <label for={`${id}colour`}>Colour of the crust</label>
            <input id={`${id}colour`} type="color" value={colour.value} onInput={(event) => (colour.value = event.currentTarget.value)} />
            <output>{colour.value}</output>
            <Plain onClick={() => void send(`crust colour ${colour.value}`)}>Note the colour</Plain>
          </p>
        )}
        {picture.value && (
          <Plain onClick={() => {
            const whole = picture.value?.toDataURL("image/jpeg", 0.8);
            picture.value = null;
            void send("picture", whole);
          }}>Keep the picture</Plain>
        )}
        <p class="say">{field("sense", "What you score", sense, "crumb, crust, flavour …")}</p>
        <GaugeSetter gauge={{ words: "Score", unit: "of 9", low: 1, high: 9, step: 1, start: 7, note: String }} say={inEnglish}
          onNote={(value) => void send(`${sense.value.trim() || "overall"} ${value}/9`)} />
      </details>
      <Problem>{problem.value}</Problem>
    </div>
  );
}
