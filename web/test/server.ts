// The real program on a book of its own, for the browser tests.

import { spawn, type ChildProcess } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const program = process.env.STRIKEWRIGHT ?? fileURLToPath(new URL("../../build/dev/strikewright", import.meta.url));

export interface KeptSwing {
  id: string;
  number: number;
  club: string;
  condition: string;
  ball: boolean;
  seen: { column: string; text: string }[];
  given: string;
  purpose: string;
}

export class Server {
  private child: ChildProcess | null = null;
  private readonly folder = mkdtempSync(join(tmpdir(), "strikewright-book-"));
  private port = 0;
  url = "";

  private constructor(private readonly options: string[]) {}

  /** `options`: further ones of `serve`, such as --share. */
  static async start(...options: string[]): Promise<Server> {
    const server = new Server(options);
    await server.run();
    return server;
  }

  /** Starts the program, again on the same port and book. */
  async run(): Promise<void> {
    const child = spawn(program, ["serve", "--book", join(this.folder, "test.book"), "--port", String(this.port), ...this.options], { stdio: ["ignore", "pipe", "pipe"] });
    this.child = child;
    let said = "";
    const address = await new Promise<string>((found, failed) => {
      const hear = (bytes: Buffer): void => {
        said += bytes.toString();
        const match = /https?:\/\/(?:127\.0\.0\.1|localhost):([0-9]+)/.exec(said);
        if (match) found(match[0]);
      };
      child.stdout!.on("data", hear);
      child.stderr!.on("data", hear);
      child.on("error", failed);
      child.on("exit", (code) => failed(new Error(`${program} serve ended with ${code}: ${said}`)));
    });
    this.url = `${address}/`;
    this.port = Number(new URL(address).port);
    while (!(await this.answers())) await new Promise((done) => setTimeout(done, 20));
  }

  private async answers(): Promise<boolean> {
    try {
      return (await fetch(`${this.url}api/about`)).ok;
    } catch {
      return false;
    }
  }

  /** Kills the program without a warning, as a lost machine would. */
  async kill(): Promise<void> {
    const child = this.child;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const ended = new Promise((done) => child.once("exit", done));
    child.kill("SIGKILL");
    await ended;
  }

  /** The program's process id; 0 when it does not run. */
  get pid(): number {
    return this.child?.pid ?? 0;
  }

  async end(): Promise<void> {
    await this.kill();
    rmSync(this.folder, { recursive: true, force: true });
  }

  async ask<T>(method: string, path: string, body?: unknown): Promise<T> {
    const reply = await fetch(this.url + path, {
      method,
      headers: { "Content-Type": "application/json" },
      body: body === undefined ? undefined : JSON.stringify(body),
    });
    const text = await reply.text();
    if (!reply.ok) throw new Error(`${method} ${path}: ${reply.status} ${text}`);
    return JSON.parse(text) as T;
  }

  /** A pupil with a lesson, without the page. */
  async lesson(pupil: { name?: string; hand?: string; skill?: string; cautions?: string; birth_year?: number } = {}, swings: { column: string; text: string }[][] = []): Promise<{ pupil: string; lesson: string }> {
    const mark = Math.random().toString(36).slice(2, 8);
    const ids = { pupil: `p-${mark}`, lesson: `l-${mark}` };
    await this.ask("PUT", `api/pupils/${ids.pupil}`, { id: ids.pupil, name: "Test Pupil", hand: "right", skill: "club", ...pupil });
    await this.ask("PUT", `api/lessons/${ids.lesson}`, { id: ids.lesson, pupil: ids.pupil, club: "7i", surface: "fairway", condition: "normal", ball: true });
    for (const [k, seen] of swings.entries()) {
      const id = `s-${mark}-${k}`;
      await this.ask("PUT", `api/swings/${id}`, { id, lesson: ids.lesson, club: "7i", condition: "normal", surface: "fairway", ball: true, seen });
    }
    return ids;
  }

  /** An exercise given in a lesson, without the page. */
  async give(ids: { pupil: string; lesson: string }, exercise: string, more: object = {}): Promise<string> {
    const id = `g-${Math.random().toString(36).slice(2, 8)}`;
    await this.ask("PUT", `api/given/${id}`, { id, ...ids, exercise, cause: "weight", why: "It works on the weight.", ...more });
    return id;
  }

  async swings(lesson: string): Promise<KeptSwing[]> {
    return (await this.ask<{ swings: never[] }>("GET", `api/lessons/${lesson}`)).swings;
  }
}
