// What was entered waits here until the server has it: in order, once, over a lost network and a closed page.
//
// Every entry has a storage key of its own, so that two open pages never overwrite each other's waiting entries. An
// entry is taken out only when the server has said that it keeps it. Sending twice makes one record (the page makes the
// names), so an answer that was lost on its way costs nothing.

import type { Fault } from "./contract.ts";
import { away, type Answer } from "./ask.ts";

export interface Entry {
  key: string;
  method: "PUT" | "DELETE";
  path: string;
  body?: unknown;
  /** What it is, in words, for the list of what is waiting. */
  says: string;
  /** Set when the server has answered that it will never keep this. */
  refused?: Fault;
}

/** What the outbox needs of a browser's storage. */
export interface Shelf {
  readonly length: number;
  key(index: number): string | null;
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

export type Send = (entry: Entry) => Promise<Answer<unknown>>;

const mark = "strikewright.waits.";

/** A shelf for browsers that let a page keep nothing: lasts as long as the page. */
export function memoryShelf(): Shelf {
  const kept = new Map<string, string>();
  return {
    get length() {
      return kept.size;
    },
    key: (index) => [...kept.keys()][index] ?? null,
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => void kept.set(key, value),
    removeItem: (key) => void kept.delete(key),
  };
}

export class Outbox {
  private last = 0;
  private going: Promise<boolean> | null = null;
  private readonly here: Shelf = memoryShelf();
  /** Are all entries on the lasting shelf? Otherwise the page must not be closed. */
  lasting = true;

  constructor(
    private readonly shelf: Shelf,
    private readonly send: Send,
    private readonly changed: () => void = () => {},
    private readonly now: () => number = Date.now,
    /** Lets one page at a time send. */
    private readonly alone: (work: () => Promise<boolean>) => Promise<boolean> = (work) => work(),
  ) {}

  /** Entries in the order in which they were made, refused ones among them. */
  all(): Entry[] {
    const entries: Entry[] = [];
    for (const shelf of [this.shelf, this.here]) {
      for (let k = 0; k < shelf.length; ++k) {
        const key = shelf.key(k);
        if (!key?.startsWith(mark)) continue;
        const text = shelf.getItem(key);
        if (text !== null) entries.push(JSON.parse(text) as Entry);
      }
    }
    return entries.sort((a, b) => (a.key < b.key ? -1 : 1));
  }

  waiting(): Entry[] {
    return this.all().filter((entry) => !entry.refused);
  }

  refused(): Entry[] {
    return this.all().filter((entry) => entry.refused);
  }

  add(entry: Omit<Entry, "key">): void {
    // The clock orders entries of several pages; where it stands still or runs back, what is there already does.
    const newest = Number(this.all().at(-1)?.key.slice(mark.length).split(".")[0] ?? 0);
    this.last = Math.max(this.now(), this.last + 1, newest + 1);
    const key = `${mark}${String(this.last).padStart(16, "0")}.${random()}`;
    this.write({ ...entry, key });
    this.changed();
  }

  /** Takes a refused entry out for good. */
  discard(key: string): void {
    this.remove(key);
    this.changed();
  }

  /** Sends what waits. True when nothing is left to send. Calls while one is under way join it. */
  drain(): Promise<boolean> {
    this.going ??= this.alone(() => this.sendAll()).finally(() => (this.going = null));
    return this.going;
  }

  private async sendAll(): Promise<boolean> {
    for (let entry = this.waiting()[0]; entry; entry = this.waiting()[0]) {
      const answer = await this.send(entry);
      if (answer.ok) this.remove(entry.key);
      else if (isLasting(answer.status)) this.write({ ...entry, refused: answer.fault });
      else return false;
      this.changed();
    }
    return true;
  }

  private write(entry: Entry): void {
    const text = JSON.stringify(entry);
    try {
      this.shelf.setItem(entry.key, text);
      this.here.removeItem(entry.key);
    } catch {
      this.here.setItem(entry.key, text);
      this.lasting = false;
    }
  }

  private remove(key: string): void {
    this.shelf.removeItem(key);
    this.here.removeItem(key);
    this.lasting = this.here.length === 0;
  }
}

/** Will the same request be refused again, whenever it is sent? Not so: no answer, not paired (yet), too many, the server's own trouble. */
function isLasting(status: number): boolean {
  return status >= 400 && status < 500 && ![401, 403, 408, 421, 425, 429].includes(status) && status !== away;
}

function random(): string {
  return Math.random().toString(36).slice(2, 8);
}
