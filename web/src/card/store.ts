// All state of the card: the kitchen as answered, the recipe carried to it, the forecast, and
// the bake in hand. Views read signals and call the functions below.

import { computed, signal } from "@preact/signals";
import type { Forecast, Kitchen } from "../api.ts";
import { type Day, minutesOf, wallClock } from "../day.ts";
import { newKey, type Session, bakingSession } from "../baking/session.ts";
import { type Say, sayer } from "../baking/words.ts";
import { type Tongue, tongueOf } from "../words.ts";
import { type CardData, type Carried, integrity, type Integrity, packedEngine, readCard, statedDigest } from "./card_data.ts";
import { type Engine, openEngine, Outrun } from "./engine.ts";
import { type Answers, answersOf, kitchenOf } from "./kitchen_questions.ts";
import { bookOf, type Keeping, keepingOf } from "./keeping.ts";

export const card: CardData = readCard();
export const keeping: Keeping = keepingOf(statedDigest());

const kept = keeping.read();
const ownLanguage = (): string => {
  const wanted = typeof navigator === "undefined" ? ["en"] : navigator.languages;
  const tags = card.languages.map(({ tag }) => tag);
  return wanted.flatMap((one) => tags.filter((tag) => tag === one || tag.split("-")[0] === one.split("-")[0]))[0] ?? "en-GB";
};

export const language = signal(kept.language || ownLanguage());
export const say = computed<Say>(() => sayer(card.languages.find(({ tag }) => tag === language.value)?.words));
export const tongue = computed<Tongue>(() => tongueOf(language.value));

export const answers = signal<Answers>(answersOf(kept.kitchen));
export const kitchen = computed<Kitchen>(() => kitchenOf(answers.value, card.measures));
export const carried = signal<Carried | null>(null);
export const forecast = signal<Forecast | null>(null);
export const day = signal<Day | null>(null);
export const working = signal(true);
export const problem = signal("");
export const whole = signal<Integrity | null>(null);
/** What is on show. */
export const view = signal<"card" | "kitchen" | "baking" | "home">(kept.kitchen === null ? "kitchen" : "card");
export const session = signal<Session | null>(null);
export const bakeOpen = signal(kept.bake !== null);

let engine: Engine | null = null;
let newest = 0;
// Read before the first view writes its own.
const resumes = location.hash === "#baking" && kept.bake !== null;

export const checklist = computed(() => carried.value?.parts.flatMap((part) => part.steps) ?? []);

/** The recipe carried to the kitchen as answered, and its forecast. */
export async function weighAnew(): Promise<void> {
  if (!engine) {
    return;
  }
  working.value = true;
  performance.mark("re-weigh");
  try {
    const question = { recipe: card.recipe, kitchen: kitchen.value, home: card.home, language: language.value };
    const mine = ++newest;
    const there = await engine.carry(question);
    if (mine !== newest) {
      return;
    }
    carried.value = there;
    performance.mark("carried");
    const told = await engine.foretell({ recipe: there.recipe, kitchen: question.kitchen });
    forecast.value = told;
    problem.value = "";
    performance.mark("re-weighed");
    const planned = await engine.day(minutesOf(wallClock()) ?? 0);
    if (mine !== newest) {
      return;
    }
    day.value = planned;
    working.value = false;
  } catch (error) {
    if (!(error instanceof Outrun)) {
      problem.value = error instanceof Error ? error.message : String(error);
      working.value = false;
    }
  }
}

let later: ReturnType<typeof setTimeout> | undefined;
export function answer(change: Partial<Answers>): void {
  answers.value = { ...answers.value, ...change };
  keeping.write({ kitchen: kitchen.value });
  working.value = true;
  clearTimeout(later);
  later = setTimeout(() => void weighAnew(), 60);
}

export function speak(tag: string): void {
  language.value = tag;
  document.documentElement.lang = tag;
  keeping.write({ language: tag });
  void weighAnew();
}

function openSession(): Session | null {
  const bake = keeping.read().bake;
  const here = engine;
  const recipe = carried.value?.recipe;
  if (!bake || !here || !recipe) {
    return null;
  }
  return bakingSession({
    title: carried.value?.title ?? card.title,
    checklist: checklist.value,
    book: bookOf(keeping),
    async look(notes) {
      const seen = await Promise.all(notes.map(async (note) =>
        (await here.read(note.text)).map((one) => (note.step === null ? one : { ...one, step: note.step }))));
      return here.seen({ recipe, kitchen: bake.kitchen }, seen.flat());
    },
  });
}

/** Goes on with the bake in hand, or begins one. */
export async function bake(): Promise<void> {
  if (keeping.read().bake === null) {
    keeping.write({ bake: { key: newKey(), started_at_ms: Date.now(), kitchen: kitchen.value, entries: [] } });
  }
  session.value ??= openSession();
  bakeOpen.value = true;
  view.value = "baking";
  await session.value?.open();
}

export function forgetBake(): void {
  keeping.write({ bake: null });
  session.value = null;
  bakeOpen.value = false;
  view.value = "card";
}

export async function begin(): Promise<void> {
  document.documentElement.lang = language.value;
  whole.value = await integrity();
  try {
    engine = await openEngine(packedEngine(), card.tables);
    await weighAnew();
    if (resumes) {
      await bake();
    }
  } catch (error) {
    problem.value = `This browser cannot run the card's engine (${error instanceof Error ? error.message : error}). The recipe as it was written stands below.`;
    working.value = false;
  }
}
