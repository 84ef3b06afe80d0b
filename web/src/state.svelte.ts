// What every screen shares: the server's words and settings, what waits, which way the page looks.

import { ask, away, forget, listen, look, type Answer } from "./ask.ts";
import type { About, Fault, Settings, Words } from "./contract.ts";
import { memoryShelf, Outbox, type Entry, type Shelf } from "./outbox.ts";
import { placeOf, type Place } from "./route.ts";

export type Look = "system" | "light" | "dark";
export type Stage = "starting" | "away" | "unpaired" | "ready";

interface Shared {
  stage: Stage;
  about: About | null;
  words: Words | null;
  settings: Settings;
  place: Place;
  waiting: Entry[];
  refused: Entry[];
  lasting: boolean;
  online: boolean;
  /** Grows whenever the server is there again: what is shown may be old. */
  returned: number;
  look: Look;
  /** Said once, aloud and on the screen. */
  told: string;
}

export const shared: Shared = $state({
  stage: "starting",
  about: null,
  words: null,
  settings: { units: "metric", from: "usual", place: "", surface: "fairway", sure: {} },
  place: placeOf(location.hash),
  waiting: [],
  refused: [],
  lasting: true,
  online: true,
  returned: 0,
  look: "system",
  told: "",
});

/** Grows with every change of the book that the server tells of: what shows a lesson or a pupil looks again. */
export const tidings = $state({ count: 0, pupil: "", lesson: "", revision: 0 });

function shelf(): Shelf {
  try {
    localStorage.setItem("strikewright.try", "1");
    localStorage.removeItem("strikewright.try");
    return localStorage;
  } catch {
    shared.lasting = false;
    return memoryShelf();
  }
}

/** What this browser keeps for the page; as long as the page where it keeps nothing. */
export const kept = shelf();

export const outbox = new Outbox(kept, send, showOutbox, Date.now, alone);

/** A device that was unpaired meanwhile keeps its entries and asks to be paired. */
async function send(entry: Entry): Promise<Answer<unknown>> {
  const answer = await ask(entry.method, entry.path, entry.body);
  if (!answer.ok && answer.status === 401) shared.stage = "unpaired";
  return answer;
}

function showOutbox(): void {
  shared.waiting = outbox.waiting();
  shared.refused = outbox.refused();
  shared.lasting = outbox.lasting && kept === globalThis.localStorage;
}

/** One page at a time sends, where the browser can hold the others back. */
async function alone(work: () => Promise<boolean>): Promise<boolean> {
  return navigator.locks ? await navigator.locks.request("strikewright.outbox", work) : await work();
}

let again: ReturnType<typeof setTimeout> | undefined;

/** Puts an entry into the outbox and sends what waits. Resolves when it has been tried: true when all has gone in. */
export async function keep(entry: Omit<Entry, "key">): Promise<boolean> {
  outbox.add(entry);
  return drain();
}

export async function drain(): Promise<boolean> {
  const all = await outbox.drain();
  // An entry that was added while the last one was on its way joined that run or is sent now.
  const done = all && outbox.waiting().length > 0 ? await outbox.drain() : all;
  setOnline(done);
  clearTimeout(again);
  if (!done) again = setTimeout(() => void drain(), 2000);
  return done;
}

function setOnline(is: boolean): void {
  if (is && !shared.online) shared.returned++;
  shared.online = is;
}

export function tell(text: string): void {
  shared.told = "";
  queueMicrotask(() => (shared.told = text));
}

export function tellFault(answer: { fault: Fault; status: number }): void {
  if (answer.status === away) tell("The server does not answer.");
  else if (answer.status === 401) shared.stage = "unpaired";
  else tell(`${answer.fault.place}: found ${answer.fault.found}, expected ${answer.fault.expected}`);
}

/** The three documents that every screen needs. */
export async function start(): Promise<void> {
  const about = await look<About>("/api/about");
  if (!stands(about)) return;
  const [words, settings] = await Promise.all([look<Words>("/api/words"), look<Settings>("/api/settings")]);
  if (!stands(words) || !stands(settings)) return;
  shared.about = about.value;
  shared.words = words.value;
  shared.settings = settings.value;
  shared.stage = "ready";
  listenAnew();
  void drain();
}

function stands<T>(answer: Answer<T>): answer is Extract<Answer<T>, { ok: true }> {
  if (answer.ok) return true;
  shared.stage = answer.status === 401 || answer.status === 403 ? "unpaired" : "away";
  if (shared.stage === "away") setTimeout(() => void start(), 2000);
  return false;
}

export async function refreshAbout(): Promise<void> {
  const about = await look<About>("/api/about");
  if (about.ok) shared.about = about.value;
}

export function forgetAll(): void {
  forget();
  tidings.count++;
}

let hush = (): void => {};

/** A browser that was refused, as an unpaired device is, never asks for changes again by itself. */
function listenAnew(): void {
  hush();
  hush = listen(
    (what) => {
      tidings.pupil = what.pupil;
      tidings.lesson = what.lesson;
      tidings.revision = what.revision;
      tidings.count++;
      if (!what.pupil && !what.lesson) void look<Settings>("/api/settings").then((s) => s.ok && (shared.settings = s.value));
    },
    (open) => {
      if (open) void drain();
      else setOnline(false);
    },
  );
}

export function setLook(next: Look): void {
  shared.look = next;
  if (next === "system") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = next;
  try {
    if (next === "system") kept.removeItem("strikewright.look");
    else kept.setItem("strikewright.look", next);
  } catch {
    // A browser that keeps nothing forgets the choice with the page; nothing hangs on it.
  }
}

const before = kept.getItem("strikewright.look");
if (before === "light" || before === "dark") setLook(before);
showOutbox();
addEventListener("hashchange", () => (shared.place = placeOf(location.hash)));
addEventListener("online", () => void drain());
addEventListener("storage", showOutbox);
document.addEventListener("visibilitychange", () => !document.hidden && void drain());
