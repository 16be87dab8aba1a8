import { barStarts, momentAt } from "../../src/score/bar-starts.ts";
import { stretchChosen } from "./asked.ts";
import { barAtPlace } from "./bar-places.ts";
import { askedBy, type Gesture, ghostOf, type Hand } from "./gesture.ts";
import type { GridHost } from "./grid-host.ts";
import { stepEnd, stepStart } from "./grid-step.ts";
import { type Hit, handAt, hitAt } from "./hit-test.ts";

/** How far a mouse, or a finger, moves before a press becomes a drag, px. */
const STILL = { mouse: 3, touch: 8 } as const;

/** How long a finger rests before it chooses a stretch, in milliseconds. */
const LONG_PRESS = 450;

/** How near the edge of the view a drag begins to scroll, and how far each time, px. */
const EDGE = 28;
const EDGE_STEP = 12;

/** A press in progress. */
interface Press {
  readonly pointer: number;
  readonly x: number;
  readonly y: number;
  readonly still: number;
  readonly hit: Hit;
  readonly hand: Hand;
  /** The part of the view the press began in. */
  readonly surface: HTMLElement;
  gesture: Gesture;
  moved: boolean;
}

/** The grid by mouse, pen and finger. A drag shows a ghost; the edit is sent once, when the hand lets go. */
export class GridPointer {
  readonly #host: GridHost;
  readonly #scroller: () => HTMLElement;
  #press: Press | null = null;
  #longPress: ReturnType<typeof setTimeout> | null = null;
  #edgeScroll = 0;
  #last: { readonly x: number; readonly y: number } = { x: 0, y: 0 };

  constructor(host: GridHost, scroller: () => HTMLElement) {
    this.#host = host;
    this.#scroller = scroller;
  }

  /** Whether a press is held down. */
  get holding(): boolean {
    return this.#press !== null;
  }

  readonly down = (event: PointerEvent): void => {
    if (event.button !== 0 || this.#press !== null) return;
    const surface = event.currentTarget as HTMLElement;
    const { x, y } = this.#placeOf(event);
    const { score, pipes, field } = this.#host;
    const hand = handAt(field, x, y);
    const hit = hitAt(field, x, y);
    const gesture: Gesture = event.shiftKey
      ? { kind: "stretch", pressed: hand }
      : hit.kind === "row"
        ? { kind: "place", pressed: hand }
        : hit.kind === "note"
          ? { kind: "move", held: hit.held, pressed: hand }
          : { kind: hit.kind, held: hit.held };
    const still = event.pointerType === "mouse" ? STILL.mouse : STILL.touch;
    this.#press = { pointer: event.pointerId, x: event.clientX, y: event.clientY, still, hit, hand, surface, gesture, moved: false };
    surface.setPointerCapture(event.pointerId);
    event.preventDefault();
    const time = hit.kind === "row" ? stepStart(score.frames, hand.time, this.#host.step) : hit.held.from;
    this.#host.moveCaret({ time, note: hit.kind === "row" ? hand.note : hit.held.note }, true);
    if (hit.kind === "note" && !event.shiftKey) {
      this.#host.choose({ kind: "note", at: { line: pipes.id, ...momentAt(score.frames, hit.held.from) } });
    }
    if (gesture.kind === "place") this.#show();
    if (event.pointerType !== "mouse") this.#longPress = setTimeout(this.#pressedLong, LONG_PRESS);
  };

  readonly move = (event: PointerEvent): void => {
    const press = this.#press;
    if (press === null) {
      if (event.pointerType === "mouse") this.#hover(event);
      return;
    }
    if (event.pointerId !== press.pointer) return;
    this.#last = { x: event.clientX, y: event.clientY };
    if (!press.moved && Math.hypot(event.clientX - press.x, event.clientY - press.y) < press.still) return;
    press.moved = true;
    this.#forgetLongPress();
    press.surface.classList.add("holding");
    this.#scrollAtEdge();
    this.#show();
  };

  readonly up = (event: PointerEvent): void => {
    const press = this.#press;
    if (press === null || event.pointerId !== press.pointer) return;
    this.#last = { x: event.clientX, y: event.clientY };
    const hand = press.moved ? this.#hand() : press.hand;
    this.cancel();
    const { score, pipes, step } = this.#host;
    if (!press.moved && press.gesture.kind !== "place" && press.gesture.kind !== "stretch") return;
    const wanted = askedBy(score, pipes.id, press.gesture, hand, step);
    if (wanted === null) return;
    if (wanted.edits.length === 0) this.#host.choose(wanted.selection);
    else this.#host.ask(wanted);
    // A letter typed next goes on after the drawn note, as it does after a typed one.
    if (press.gesture.kind === "place") {
      const { to, note } = ghostOf(score, press.gesture, hand, step);
      this.#host.moveCaret({ time: to, note }, true);
    }
  };

  /** Forgets the press; nothing is changed. */
  readonly cancel = (): void => {
    const press = this.#press;
    this.#press = null;
    this.#forgetLongPress();
    cancelAnimationFrame(this.#edgeScroll);
    if (press?.surface.hasPointerCapture(press.pointer)) press.surface.releasePointerCapture(press.pointer);
    press?.surface.classList.remove("holding");
    this.#host.showGhost(null);
  };

  readonly leave = (): void => {
    if (this.#press === null) this.#host.showGhost(null);
  };

  /** A press on the line of chords chooses the bar under it; with Shift all bars from the chosen stretch to it. */
  readonly barPressed = (event: MouseEvent): void => {
    const { score, pipes, field, selection } = this.#host;
    const bar = barAtPlace(field.widths, this.#placeOf(event).x);
    const starts = barStarts(score.frames);
    const chosen = selection.kind === "stretch" && event.shiftKey ? selection.from.bar : bar;
    const from = starts[Math.min(chosen, bar)] ?? 0;
    const to = starts[Math.max(chosen, bar) + 1] ?? 0;
    this.#host.moveCaret({ ...this.#host.caret, time: starts[bar] ?? 0 }, true);
    this.#host.choose(stretchChosen(score, pipes.id, from, to));
  };

  readonly #pressedLong = (): void => {
    const press = this.#press;
    if (press === null || press.moved || press.hit.kind === "start" || press.hit.kind === "end") return;
    press.gesture = { kind: "stretch", pressed: press.hand };
    press.moved = true;
    this.#last = { x: press.x, y: press.y };
    this.#show();
  };

  #hover(event: PointerEvent): void {
    const { x, y } = this.#placeOf(event);
    const { field, score, step } = this.#host;
    const hit = hitAt(field, x, y);
    (event.currentTarget as HTMLElement).dataset.over = hit.kind;
    if (hit.kind !== "row") {
      this.#host.showGhost(null);
      return;
    }
    const { time, note } = handAt(field, x, y);
    this.#host.showGhost({ kind: "note", from: stepStart(score.frames, time, step), to: stepEnd(score.frames, time, step), note });
  }

  #show(): void {
    const press = this.#press;
    if (press === null) return;
    const hand = press.moved ? this.#hand() : press.hand;
    this.#host.showGhost(ghostOf(this.#host.score, press.gesture, hand, this.#host.step));
  }

  #hand(): Hand {
    const { x, y } = this.#placeOf({ clientX: this.#last.x, clientY: this.#last.y });
    return handAt(this.#host.field, x, y);
  }

  /** Px from the start of the score and from the grid's top. */
  #placeOf({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }): { readonly x: number; readonly y: number } {
    const scroller = this.#scroller();
    const box = scroller.getBoundingClientRect();
    return { x: clientX - box.left + scroller.scrollLeft, y: clientY - box.top };
  }

  /** Scrolls on for as long as the hand stays at the edge of the view. */
  #scrollAtEdge(): void {
    cancelAnimationFrame(this.#edgeScroll);
    const scroller = this.#scroller();
    const box = scroller.getBoundingClientRect();
    const by = this.#last.x > box.right - EDGE ? EDGE_STEP : this.#last.x < box.left + EDGE ? -EDGE_STEP : 0;
    if (by === 0) return;
    this.#edgeScroll = requestAnimationFrame(() => {
      if (this.#press === null) return;
      scroller.scrollLeft += by;
      this.#show();
      this.#scrollAtEdge();
    });
  }

  #forgetLongPress(): void {
    if (this.#longPress !== null) clearTimeout(this.#longPress);
    this.#longPress = null;
  }
}
