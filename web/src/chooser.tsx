// A button that opens a file from this device.

import { useRef } from "preact/hooks";
import { Plain } from "./plain.tsx";

export function Chooser({ words, accept, onFile }: { words: string; accept: string; onFile: (file: File | undefined) => void }) {
  const chooser = useRef<HTMLInputElement>(null);
  return (
    <>
      <Plain onClick={() => chooser.current?.click()}>{words}</Plain>
      <input ref={chooser} type="file" hidden tabIndex={-1} aria-hidden="true" accept={accept}
        onChange={({ currentTarget }) => {
          onFile(currentTarget.files?.[0]);
          // The same file may be opened again.
          currentTarget.value = "";
        }} />
    </>
  );
}
