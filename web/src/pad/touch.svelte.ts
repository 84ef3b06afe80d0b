// One way to touch a picture, for finger, mouse and keyboard: a point, or a line from a beginning to an end.

import { placeIn, type Point } from "./geometry.ts";

export interface Touched {
  /** The picture's own coordinates that may be touched. */
  box: () => { left: number; right: number; top: number; bottom: number };
  /** How far an arrow key moves the mark; with Shift a fifth of it. */
  step: number;
  /** Does a touch go from somewhere to somewhere? */
  drag: boolean;
  /** May a finger that goes up or down scroll the page? */
  scrolls: boolean;
  /** Where the keyboard's mark begins. */
  rest: () => Point;
  set: (from: Point, to: Point) => void;
  clear: () => void;
}

export class Touch {
  from: Point | null = $state(null);
  to: Point | null = $state(null);
  /** The keyboard's mark; shown only while the keyboard is used. */
  cursor: Point | null = $state(null);

  private pointer = -1;

  constructor(private readonly touched: Touched) {}

  down = (event: PointerEvent & { currentTarget: SVGSVGElement }): void => {
    if (event.button !== 0 || this.pointer !== -1) return;
    this.pointer = event.pointerId;
    event.currentTarget.setPointerCapture(event.pointerId);
    this.cursor = null;
    this.from = this.to = this.inside(placeIn(event.currentTarget, event));
    if (event.pointerType === "mouse") event.preventDefault();
  };

  move = (event: PointerEvent & { currentTarget: SVGSVGElement }): void => {
    if (event.pointerId !== this.pointer) return;
    this.to = this.inside(placeIn(event.currentTarget, event));
    if (!this.touched.drag) this.from = this.to;
  };

  /**
   * Tells the browser that a drawing finger does not scroll. Otherwise it sees a fling, and swallows the tap that comes
   * right after: the touch on "Keep ball". A finger that goes up or down a picture that may be scrolled away is left alone.
   */
  own = (svg: SVGSVGElement): (() => void) => {
    const hold = (event: TouchEvent): void => {
      if (!event.cancelable || !this.from || !this.to) return;
      const across = Math.abs(this.to.x - this.from.x) >= Math.abs(this.to.y - this.from.y);
      if (!this.touched.scrolls || across) event.preventDefault();
    };
    svg.addEventListener("touchmove", hold, { passive: false });
    return () => svg.removeEventListener("touchmove", hold);
  };

  up = (event: PointerEvent & { currentTarget: SVGSVGElement }): void => {
    if (event.pointerId !== this.pointer) return;
    this.move(event);
    const { from, to } = this;
    this.forget();
    if (from && to) this.touched.set(from, to);
  };

  /** The browser took the touch for a scroll: nothing was meant. */
  forget = (): void => {
    this.pointer = -1;
    this.from = this.to = null;
  };

  blur = (): void => {
    this.cursor = null;
    this.forget();
  };

  key = (event: KeyboardEvent): void => {
    const step = this.touched.step * (event.shiftKey ? 0.2 : 1);
    const moves: Record<string, [number, number]> = {
      ArrowLeft: [-step, 0],
      ArrowRight: [step, 0],
      ArrowUp: [0, -step],
      ArrowDown: [0, step],
    };
    const by = moves[event.key];
    if (by) {
      const at = this.cursor ?? this.touched.rest();
      this.cursor = this.inside({ x: at.x + by[0], y: at.y + by[1] });
      if (this.from) this.to = this.cursor;
    } else if (event.key === "Enter" || event.key === " ") this.press();
    else if (event.key === "Delete" || event.key === "Backspace") this.drop();
    else if (event.key === "Escape" && this.from) this.forget();
    else return;
    event.preventDefault();
  };

  private press(): void {
    this.cursor ??= this.inside(this.touched.rest());
    if (this.touched.drag && !this.from) {
      this.from = this.to = this.cursor;
      this.touched.set(this.from, this.from);
      return;
    }
    const from = this.from ?? this.cursor;
    this.forget();
    this.touched.set(from, this.cursor);
  }

  private drop(): void {
    this.forget();
    this.touched.clear();
  }

  private inside(at: Point): Point {
    const { left, right, top, bottom } = this.touched.box();
    return { x: Math.min(right, Math.max(left, at.x)), y: Math.min(bottom, Math.max(top, at.y)) };
  }
}
