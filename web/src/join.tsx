// A device that is not joined yet: the code of the computer, and nothing else.

import { useSignal } from "@preact/signals";
import { join, joinProblem } from "./joining.ts";
import { Plain, Problem } from "./plain.tsx";

export function Join() {
  const code = useSignal("");
  return (
    <main class="empty join">
      <form onSubmit={(event) => {
        event.preventDefault();
        void join(code.value);
      }}>
        <h1><label for="join-code">Join this kitchen</label></h1>
        <p class="lead">
          The computer that runs maslin shows a code of eight letters and figures, on its page
          under Devices and where it was started. Type it here once; this device is then known.
        </p>
        <input id="join-code" class="join-code" autocomplete="off" autocapitalize="characters" spellcheck={false}
          placeholder="K7QM-4TXA" maxLength={12} value={code.value}
          onInput={(event) => (code.value = event.currentTarget.value)} />
        <Problem>{joinProblem.value}</Problem>
        <p class="ask-ways">
          <Plain type="submit" class="strong" disabled={code.value.trim().length < 8}>Join</Plain>
        </p>
      </form>
    </main>
  );
}
