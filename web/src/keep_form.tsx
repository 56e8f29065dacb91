// Keeping what is on the bench: as which recipe, and why it is as it is.

import { useSignal } from "@preact/signals";
import { keep, keeping, keepProblem } from "./looking_back.ts";
import { Plain, Problem } from "./plain.tsx";
import { bench } from "./store.ts";
import { spokenTitle } from "./titles.ts";

export function KeepForm({ title }: { title: string }) {
  const now = bench.value.kept;
  const name = useSignal<string | null>(null);
  const why = useSignal("");
  const named = name.value ?? now?.name ?? spokenTitle(title);
  return (
    <form class="keep" aria-label="Keep this version" onSubmit={(event) => {
      event.preventDefault();
      void keep(named.trim(), why.value.trim()).then(() => {
        why.value = "";
      });
    }}>
      <p>
        <label for="keep-name">Keep it as</label>
        <input id="keep-name" autocomplete="off" maxLength={120} data-draft="yes" value={named}
          onInput={(event) => (name.value = event.currentTarget.value)} />
      </p>
      <p>
        <label for="keep-why">because</label>
        <input id="keep-why" autocomplete="off" maxLength={200} data-draft="yes" placeholder="less sweet, for Anna"
          value={why.value} onInput={(event) => (why.value = event.currentTarget.value)} />
      </p>
      <Plain type="submit" disabled={keeping.value || named.trim() === ""}>Keep</Plain>
      <Problem>{keepProblem.value}</Problem>
      <p class="quiet" aria-live="polite">{now ? `Kept as ${now.name}, version ${now.place}.` : ""}</p>
    </form>
  );
}
