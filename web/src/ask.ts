// The only place that talks to the server.

import type { Fault } from "./contract.ts";

export type Answer<T> =
  | { ok: true; value: T; remembered: boolean }
  | { ok: false; status: number; fault: Fault; more: Fault[] };

/** No answer at all: the server is away, or the network between. Status 0 is not an HTTP status. */
export const away = 0;

/** Answers to questions, for as long as the page is open: what is shown while the server is away. */
const remembered = new Map<string, unknown>();

/** How long the server may take before it counts as away. */
const patience_ms = 15_000;

const noAnswer: Answer<never> = { ok: false, status: away, fault: { place: "server", found: "no answer", expected: "a running server" }, more: [] };

/** A request that waits for the whole answer. Never throws: no answer is a fault with status `away`. */
export async function ask<T>(method: string, path: string, body?: unknown): Promise<Answer<T>> {
  try {
    const reply = await fetch(path, {
      method,
      credentials: "same-origin",
      cache: "no-store",
      headers: body === undefined ? {} : { "Content-Type": "application/json" },
      body: body === undefined ? undefined : JSON.stringify(body),
      signal: AbortSignal.timeout(patience_ms),
    });
    return await understood<T>(reply);
  } catch {
    return noAnswer;
  }
}

async function understood<T>(reply: Response): Promise<Answer<T>> {
  const text = await reply.text();
  let document: unknown;
  try {
    document = text === "" ? {} : JSON.parse(text);
  } catch {
    document = null;
  }
  if (reply.ok && document !== null) return { ok: true, value: document as T, remembered: false };
  const said = document as { error?: Fault; more?: Fault[] } | null;
  const fault = said?.error ?? { place: reply.url, found: `status ${reply.status}`, expected: "an answer in JSON" };
  return { ok: false, status: reply.status, fault, more: said?.more ?? [] };
}

/** Fetches a file that the server makes, to be handed on under `name`. */
export async function fileOf(path: string, name: string): Promise<Answer<File>> {
  try {
    const reply = await fetch(path, { credentials: "same-origin", cache: "no-store", signal: AbortSignal.timeout(patience_ms) });
    if (!reply.ok) return await understood<File>(reply);
    const bytes = await reply.blob();
    return { ok: true, value: new File([bytes], name, { type: bytes.type }), remembered: false };
  } catch {
    return noAnswer;
  }
}

/** Asks for a document; while the server is away, the last one seen on this page, marked so. */
export async function look<T>(path: string): Promise<Answer<T>> {
  const answer = await ask<T>("GET", path);
  if (answer.ok) remembered.set(path, answer.value);
  else if (answer.status === away && remembered.has(path)) {
    return { ok: true, value: remembered.get(path) as T, remembered: true };
  }
  return answer;
}

/** Lets go of everything remembered: after a pupil was erased, nothing of them may stay on a screen. */
export function forget(): void {
  remembered.clear();
}

export function said(fault: Fault): string {
  return `${fault.place}: found ${fault.found}, expected ${fault.expected}`;
}

/**
 * Calls `changed` whenever the book has changed, also from another screen; `open` tells whether the server is there.
 * @returns what ends it
 */
export function listen(changed: (what: { pupil: string; lesson: string; revision: number }) => void, open: (is: boolean) => void): () => void {
  const source = new EventSource("/api/changes");
  source.addEventListener("changed", (event) => changed(JSON.parse((event as MessageEvent<string>).data)));
  source.addEventListener("open", () => open(true));
  source.addEventListener("error", () => open(false));
  return () => source.close();
}
