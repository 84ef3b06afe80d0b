import { describe, expect, it } from "vitest";
import type { Answer } from "./ask.ts";
import { memoryShelf, Outbox, type Entry, type Shelf } from "./outbox.ts";

const fault = { place: "", found: "", expected: "" };
const yes: Answer<unknown> = { ok: true, value: {}, remembered: false };
const no = (status: number): Answer<unknown> => ({ ok: false, status, fault, more: [] });
const entry = (n: number): Omit<Entry, "key"> => ({ method: "PUT", path: `/api/swings/s-${n}`, body: { n }, says: `swing ${n}` });

/** A small generator with a seed: the same story every time. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return state / 4294967296;
  };
}

describe("the outbox", () => {
  it("sends in the order of entry, each once", async () => {
    const sent: string[] = [];
    const box = new Outbox(memoryShelf(), async (one) => (sent.push(one.path), yes));
    for (let n = 0; n < 30; ++n) box.add(entry(n));
    expect(await box.drain()).toBe(true);
    expect(sent).toEqual(Array.from({ length: 30 }, (_, n) => `/api/swings/s-${n}`));
    expect(box.all()).toEqual([]);
    await box.drain();
    expect(sent).toHaveLength(30);
  });

  it("keeps the order when the clock stands still or runs back", async () => {
    const times = [1000, 1000, 400, 1000];
    const box = new Outbox(memoryShelf(), async () => no(0), () => {}, () => times.shift() ?? 1000);
    for (let n = 0; n < 4; ++n) box.add(entry(n));
    expect(box.waiting().map((one) => one.path.at(-1))).toEqual(["0", "1", "2", "3"]);
  });

  it("keeps everything while the server is away, also for the next page", async () => {
    const shelf = memoryShelf();
    const box = new Outbox(shelf, async () => no(0));
    box.add(entry(1));
    box.add(entry(2));
    expect(await box.drain()).toBe(false);
    const sent: unknown[] = [];
    const next = new Outbox(shelf, async (one) => (sent.push(one.body), yes));
    expect(next.waiting()).toHaveLength(2);
    await next.drain();
    expect(sent).toEqual([{ n: 1 }, { n: 2 }]);
  });

  it("does not let a later entry overtake one that waits", async () => {
    const box = new Outbox(memoryShelf(), async (one) => (one.path.endsWith("s-1") ? no(503) : yes));
    box.add(entry(1));
    box.add(entry(2));
    await box.drain();
    expect(box.waiting().map((one) => one.says)).toEqual(["swing 1", "swing 2"]);
  });

  it("sets aside what the book refuses, says why, and goes on", async () => {
    const box = new Outbox(memoryShelf(), async (one) => (one.path.endsWith("s-1") ? no(400) : yes));
    box.add(entry(1));
    box.add(entry(2));
    expect(await box.drain()).toBe(true);
    expect(box.refused().map((one) => one.says)).toEqual(["swing 1"]);
    expect(box.waiting()).toEqual([]);
    box.discard(box.refused()[0]!.key);
    expect(box.all()).toEqual([]);
  });

  it("waits, instead of giving up, when it is not paired, too fast, or the server is in trouble", async () => {
    for (const status of [0, 401, 403, 429, 500, 502, 503]) {
      const box = new Outbox(memoryShelf(), async () => no(status));
      box.add(entry(1));
      expect(await box.drain()).toBe(false);
      expect(box.waiting()).toHaveLength(1);
    }
  });

  it("keeps entries that the storage refuses, and says that they do not last", async () => {
    const full: Shelf = { ...memoryShelf(), length: 0, key: () => null, setItem: () => { throw new Error("full"); } };
    const sent: string[] = [];
    const box = new Outbox(full, async (one) => (sent.push(one.says), yes));
    box.add(entry(1));
    expect(box.lasting).toBe(false);
    await box.drain();
    expect(sent).toEqual(["swing 1"]);
    expect(box.lasting).toBe(true);
  });

  it("joins a run that is under way instead of sending beside it", async () => {
    let open = 0;
    let most = 0;
    const box = new Outbox(memoryShelf(), async () => {
      most = Math.max(most, ++open);
      await new Promise((done) => setTimeout(done, 1));
      --open;
      return yes;
    });
    for (let n = 0; n < 5; ++n) box.add(entry(n));
    await Promise.all([box.drain(), box.drain(), box.drain()]);
    expect(most).toBe(1);
  });

  it("leaves other things in the storage alone", () => {
    const shelf = memoryShelf();
    shelf.setItem("strikewright.look", "dark");
    expect(new Outbox(shelf, async () => yes).all()).toEqual([]);
  });

  it("loses and doubles nothing over a thousand answers that were lost on the way", async () => {
    const random = chance(7);
    const shelf = memoryShelf();
    const book = new Map<string, unknown>();
    const order: string[] = [];
    const send = async (one: Entry): Promise<Answer<unknown>> => {
      const luck = random();
      if (luck < 0.3) return no(0);
      if (!book.has(one.path)) order.push(one.path);
      book.set(one.path, one.body);
      return luck < 0.6 ? no(0) : yes;
    };
    let box = new Outbox(shelf, send);
    for (let n = 0; n < 1000; ++n) {
      box.add(entry(n));
      if (random() < 0.3) await box.drain();
      if (random() < 0.05) box = new Outbox(shelf, send);
    }
    while (!(await box.drain()));
    expect(order).toEqual(Array.from({ length: 1000 }, (_, n) => `/api/swings/s-${n}`));
    expect(book.size).toBe(1000);
  });
});
