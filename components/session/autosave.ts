import type { Edit } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import type { SketchId, SketchStore } from "./sketch-store.ts";

/** How the sketch stands with the device: all written, being written, or not to be written and why. */
export type SaveState = { readonly kind: "saved" } | { readonly kind: "saving" } | { readonly kind: "failed"; readonly reason: string };

/** How long the hand must rest before the whole sketch is written, in milliseconds. */
const REST = 1200;

/**
 * Keeps a sketch on the device while it is edited: every step is logged at once, the whole is written when the hand rests.
 * It says "saved" only when the browser has completed every write. A failed write is tried again with the next step.
 */
export class Autosave {
  readonly #store: SketchStore;
  readonly #id: SketchId;
  readonly #changed: (state: SaveState) => void;
  #score: Score;
  #step: number;
  #writing = 0;
  /** Whether the log no longer leads to the present score, so that only a checkpoint will do. */
  #logBroken = false;
  #timer: ReturnType<typeof setTimeout> | null = null;
  #queue: Promise<void> = Promise.resolve();

  constructor(store: SketchStore, id: SketchId, score: Score, step: number, changed: (state: SaveState) => void) {
    this.#store = store;
    this.#id = id;
    this.#score = score;
    this.#step = step;
    this.#changed = changed;
  }

  get id(): SketchId {
    return this.#id;
  }

  /** Takes note of a step: the edits that led from the score before to this one. */
  edited(score: Score, edits: readonly Edit[]): void {
    this.#score = score;
    const step = ++this.#step;
    if (this.#logBroken) {
      this.#checkpointSoon(0);
      return;
    }
    this.#write(async () => {
      try {
        await this.#store.log(this.#id, step, edits, score.revision);
      } catch (error) {
        // A log with a gap must not be gone on with: from here on only the whole sketch tells the truth.
        this.#logBroken = true;
        throw error;
      }
    });
    this.#checkpointSoon(REST);
  }

  /** Takes note of a score that no edit led to (undo, redo, a file opened): written whole at once. */
  replaced(score: Score): void {
    this.#score = score;
    this.#step += 1;
    // Steps logged from now on build upon this score, which is not on the device before the checkpoint is.
    this.#logBroken = true;
    this.#checkpointSoon(0);
  }

  /** Writes the whole sketch now; resolves when it is on the device. */
  async flush(): Promise<void> {
    this.#stopTimer();
    this.#checkpoint();
    await this.#queue;
  }

  /** Writes what is outstanding and does no more. */
  async close(): Promise<void> {
    if (this.#timer !== null || this.#logBroken) await this.flush();
    await this.#queue;
  }

  #checkpointSoon(wait: number): void {
    this.#stopTimer();
    this.#timer = setTimeout(() => {
      this.#timer = null;
      this.#checkpoint();
    }, wait);
    this.#changed({ kind: "saving" });
  }

  #stopTimer(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
  }

  #checkpoint(): void {
    const step = this.#step;
    const score = this.#score;
    this.#write(async () => {
      await this.#store.checkpoint(this.#id, step, score, Date.now());
      if (step === this.#step) this.#logBroken = false;
    });
  }

  #write(act: () => Promise<void>): void {
    this.#writing += 1;
    this.#changed({ kind: "saving" });
    let failure: unknown = null;
    this.#queue = this.#queue
      .then(act)
      .catch((error: unknown) => {
        failure = error;
      })
      .then(() => {
        this.#writing -= 1;
        if (failure !== null) this.#changed({ kind: "failed", reason: reasonOf(failure) });
        // The log alone already holds every step, so the sketch is safe before the whole is written.
        else if (this.#writing === 0 && !this.#logBroken) this.#changed({ kind: "saved" });
      });
  }
}

function reasonOf(error: unknown): string {
  if (error instanceof DOMException && error.name === "QuotaExceededError") {
    return "This device is full, so the last edit is only on screen. Save to a file.";
  }
  return "This browser did not keep the last edit. Save to a file.";
}
