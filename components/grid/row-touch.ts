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

  #hear(index: number): void {
    const note = NINE_NOTES[index];
    if (note === undefined) return this.release();
    this.touch(note);
    this.#next = setTimeout(() => this.#hear(index + 1), EACH);
  }
}
