// The bake on the page the program serves: kept in the browser first, then sent whole to the
// program, which adds what it does not have. One sending at a time; what fails is tried again.

import { signal } from "@preact/signals";
import { askForecast, type Forecast, type Kitchen, ProblemError, type Recipe } from "../api.ts";
import { trialOf } from "../library.ts";
import { posted, sentenceOf } from "../server.ts";
import { type NoteRead, pictureAt, sendBaked, sendPicture } from "../trial_api.ts";
import { forgetBake, keepBake, type KeptBake, keptBake } from "./kept_bake.ts";
import type { Entry, Note } from "./log.ts";
import { bakingSession, newKey, type Session } from "./session.ts";

export const session = signal<Session | null>(null);
/** Entries the program does not have yet; below none while one is being kept. */
export const unsent = signal(0);
export const onShow = signal(false);
export const bakeProblem = signal("");

let bake: KeptBake | null = null;
let sending: Promise<void> | null = null;
let again: ReturnType<typeof setTimeout> | undefined;
const again_ms = 3000;
const draws = 512;

/** Where an address says that a bake is on show, so that a reload comes back to it. */
const mark = "#baking";

/** The notes of the bake as the program read them. */
export const told = signal<readonly NoteRead[]>([]);

/** A picture that the program does not have yet. */
const unsentPicture = (entry: Entry | undefined): entry is Note & { picture: string } =>
  entry?.is === "note" && entry.picture?.startsWith("data:") === true;

/** Only what is kept is said to wait: a reload may follow at once. */
async function keepNow(now: KeptBake): Promise<void> {
  bake = now;
  unsent.value = -1;
  await keepBake(now);
  if (bake?.entries === now.entries) {
    unsent.value = bake.entries.length - bake.sent;
  }
}

/** Up to the next picture at once; a picture by itself, so that all arrive in their order. */
async function send(): Promise<void> {
  while (bake && bake.sent < bake.entries.length) {
    const { key, title, recipe, kitchen, started_at_ms, entries, sent, trial } = bake;
    const next = entries[sent];
    let change: Partial<KeptBake>;
    if (unsentPicture(next)) {
      const { pictures: [id] } = await sendPicture(trial, next.picture, next);
      change = { sent: sent + 1, entries: bake.entries.map((entry) => entry === next ? { ...next, picture: pictureAt(id ?? "") } : entry) };
    } else {
      const end = entries.findIndex((entry, i) => i > sent && unsentPicture(entry));
      const count = end < 0 ? entries.length : end;
      const { notes } = await sendBaked({
        maslin_baked: 1, from: "page", key, title, recipe, kitchen, started_at_ms, entries: entries.slice(0, count),
      });
      change = { sent: count, notes };
    }
    if (bake?.key === key) {
      told.value = change.notes ?? told.value;
      await keepNow({ ...bake, ...change });
    }
  }
}

/** Sends what is unsent; answers when it is there, fails when it is not. */
function sendNow(): Promise<void> {
  clearTimeout(again);
  sending ??= send()
    .catch((error: unknown) => {
      again = setTimeout(() => void sendNow().then(() => session.value?.lookAgain(), () => undefined), again_ms);
      throw error;
    })
    .finally(() => (sending = null));
  return sending;
}

async function look(): Promise<Forecast> {
  const now = bake;
  try {
    await sendNow();
    if (!bake) {
      throw new ProblemError("No bake is in hand.");
    }
    const { key, recipe, kitchen, notes } = bake;
    const observations = (notes ?? []).filter((note) => !note.corrected).flatMap((note) => note.observations);
    const forecast = await askForecast({
      recipe, kitchen, draws, ...(observations.length > 0 ? { observations } : {}),
    });
    // The bake may have been closed in between.
    if (bake?.key === key) {
      bake = { ...bake, forecast };
      await keepBake(bake);
    }
    return forecast;
  } catch (error) {
    // Without the program the last forecast stands; the notes wait.
    if (now?.forecast && unsent.value > 0) {
      return now.forecast;
    }
    throw error;
  }
}

function openSession(kept: KeptBake): Session {
  bake = kept;
  told.value = kept.notes ?? [];
  unsent.value = kept.entries.length - kept.sent;
  const opened = bakingSession({
    title: kept.title,
    checklist: kept.checklist,
    book: {
      load: async () => bake?.entries ?? [],
      async keep(entry) {
        if (bake) {
          await keepNow({ ...bake, entries: [...bake.entries, entry] });
          void sendNow().catch(() => undefined);
        }
      },
    },
    look,
  });
  opened.forecast.value = kept.forecast;
  return opened;
}

export function showBake(): void {
  onShow.value = true;
  history.replaceState(null, "", mark);
}

export function leaveBake(): void {
  onShow.value = false;
  history.replaceState(null, "", location.pathname);
}

/** Begins a bake of the recipe, or goes on with the one in hand. */
export async function startBake(title: string, recipe: Recipe, kitchen: Kitchen, forecast: Forecast | null): Promise<void> {
  bakeProblem.value = "";
  try {
    if (!session.value) {
      const started_at_ms = Date.now();
      const key = newKey();
      const trial = await sendBaked({ maslin_baked: 1, from: "page", key, title, recipe, kitchen, started_at_ms, entries: [] });
      const kept: KeptBake = {
        key, trial: trial.trial, title, recipe, kitchen, started_at_ms, checklist: trial.checklist,
        entries: [], sent: 0, forecast,
      };
      await keepBake(kept);
      session.value = openSession(kept);
    }
    showBake();
    await session.value.open();
  } catch (error) {
    bakeProblem.value = sentenceOf(error);
  }
}

/** Closes the trial, from which the kitchen learns; answers what the bake was of, or nothing while
    the program is away. */
export async function endBake(): Promise<string | undefined> {
  const ended = bake;
  if (!ended) {
    return undefined;
  }
  try {
    await sendNow();
    // What was closed before its answer was lost is closed.
    await posted(`trials/${ended.trial}/close`, {}).catch(async (error: unknown) => {
      if ((await trialOf(ended.trial)).closed_at === null) {
        throw error;
      }
    });
  } catch (error) {
    if (session.value) {
      session.value.problem.value = sentenceOf(error);
    }
    return undefined;
  }
  bake = null;
  session.value = null;
  await forgetBake();
  leaveBake();
  return ended.title;
}

// The one address the browser may be told to run as a worker.
interface WorkerPolicy {
  createScriptURL(address: string): string;
}
interface PolicyMaker {
  createPolicy(name: string, rules: WorkerPolicy): WorkerPolicy;
}

function keepPage(): void {
  if (!("serviceWorker" in navigator) || !isSecureContext) {
    return;
  }
  const maker = (globalThis as { trustedTypes?: PolicyMaker }).trustedTypes;
  const address = "/worker.js";
  const trusted = maker?.createPolicy("worker", { createScriptURL: () => address }).createScriptURL(address) ?? address;
  navigator.serviceWorker.register(trusted).catch(() => undefined);
}

/** Takes up the bake that was in hand, and keeps the page for when the program is away. */
export async function beginBaking(): Promise<void> {
  keepPage();
  addEventListener("online", () => void sendNow().catch(() => undefined));
  const kept = await keptBake().catch(() => null);
  if (kept) {
    session.value = openSession(kept);
    if (location.hash === mark) {
      onShow.value = true;
    }
    await session.value.open();
  }
}
