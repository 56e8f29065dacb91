// Under each picture: its figures as a table, and the picture as a file.

import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { saveFile, svgFile } from "./picture_file.ts";
import { Plain, Unseen } from "./plain.tsx";

const fileName = (title: string): string =>
  `${title.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "picture"}.svg`;

function save(button: Element, title: string): void {
  const picture = button.closest(".picture");
  if (picture) {
    saveFile(fileName(title), "image/svg+xml", svgFile(picture, title));
  }
}

/** Hands the pictures it stands among to the person as one SVG file. */
export function SavePicture({ title }: { title: string }) {
  return (
    <p class="save">
      <Plain onClick={(event) => save(event.currentTarget, title)}>
        Save<Unseen> {title}</Unseen> as SVG
      </Plain>
    </p>
  );
}

export function Figures({ title, children }: { title: string; children: ComponentChildren }) {
  // A table that is not on show is not written at each turn of the bench.
  const open = useSignal(false);
  return (
    <details class="figures" onToggle={(event) => (open.value = event.currentTarget.open)}>
      <summary aria-label={`${title} in figures`}>In figures</summary>
      {open.value && children}
      {open.value && <SavePicture title={title} />}
    </details>
  );
}
