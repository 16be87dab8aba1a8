import { type ChanterNote, NINE_NOTES } from "../../src/pipes/chanter-note.ts";

/** How long each of the nine sounds when they are asked for one after the other, in milliseconds. */
const EACH = 550;

/** Sounds notes for as long as their name is pressed; a note that was begun is always let go of. */
export class RowTouch {
  readonly #tell: (event: "row-touched" | "row-released", note: ChanterNote) => void;
  #sounding: ChanterNote | null = null;
  #next: ReturnType<typeof setTimeout> | null = null;

  constructor(tell: (event: "row-touched" | "row-released", note: ChanterNote) => void) {
    this.#tell = tell;
  }

  /** Sounds a note; one that sounds already gives way to it. */
  touch(note: ChanterNote): void {
    if (note === this.#sounding) return;
    this.release();
    this.#sounding = note;
    this.#tell("row-touched", note);
  }

  /** Lets go of whatever sounds. */
  readonly release = (): void => {
    if (this.#next !== null) clearTimeout(this.#next);
    this.#next = null;
    if (this.#sounding === null) return;
    const note = this.#sounding;
    this.#sounding = null;
    this.#tell("row-released", note);
  };

  /** Sounds the nine, lowest first. */
  readonly hearAll = (): void => {
    this.#hear(0);
  };

  /** A name is pressed with mouse or finger. */
  readonly pressed = (event: PointerEvent): void => {
    const name = nameOf(event);
    if (name !== null && event.button === 0) this.touch(name.dataset.note as ChanterNote);
  };

  /** Up and down go from name to name; Enter and the space bar sound the one that has the focus. */
  readonly keyPressed = (event: KeyboardEvent): void => {
    const name = nameOf(event);
    if (name === null) return;
    if (event.key === "ArrowUp") (name.previousElementSibling as HTMLElement | null)?.focus();
    else if (event.key === "ArrowDown") (name.nextElementSibling as HTMLElement | null)?.focus();
    else if (event.key === "Enter" || event.key === " ") this.touch(name.dataset.note as ChanterNote);
    else return;
    event.preventDefault();
  };

  #hear(index: number): void {
    const note = NINE_NOTES[index];
    if (note === undefined) {
      this.release();
      return;
    }
    this.touch(note);
    this.#next = setTimeout(() => this.#hear(index + 1), EACH);
  }
}

function nameOf(event: Event): HTMLElement | null {
  return (event.target as HTMLElement).closest<HTMLElement>("[data-note]");
}
