// One flail on the screen: asks for its picture whenever a lever moves, one question at a time, the newest always last.

import { ask, away } from "../ask.ts";
import type { FlailAsked, FlailPicture } from "../contract.ts";

export class Flail {
  picture: FlailPicture | null = $state(null);
  trouble = $state("");
  private busy = false;
  private next: FlailAsked | null = null;

  async show(asked: FlailAsked): Promise<void> {
    this.next = asked;
    if (this.busy) return;
    this.busy = true;
    while (this.next) {
      const now: FlailAsked = this.next;
      this.next = null;
      const answer = await ask<FlailPicture>("POST", "/api/flail", now);
      if (answer.ok) {
        this.picture = answer.value;
        this.trouble = "";
      } else this.trouble = answer.status === away ? "The server does not answer." : `${answer.fault.place}: found ${answer.fault.found}, expected ${answer.fault.expected}`;
    }
    this.busy = false;
  }
}
