import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import type { Edit } from "../../src/score/edit.ts";
import { savedFormOf, scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Score } from "../../src/score/score.ts";

/** Names one sketch on this device. */
export type SketchId = string;

/** What a list of sketches shows of each. */
export interface SketchSummary {
  readonly id: SketchId;
  readonly title: string;
  /** Milliseconds since 1970, as the device's clock had it. */
  readonly changed: number;
  readonly bars: number;
}

/** A whole sketch as it was last written in full, in its saved form. */
interface Checkpoint {
  readonly id: SketchId;
  readonly text: string;
  readonly title: string;
  readonly changed: number;
  readonly bars: number;
  /** The last step of the log that this text contains. */
  readonly step: number;
}

/** One step made since the checkpoint. */
interface LoggedStep {
  readonly id: SketchId;
  readonly step: number;
  readonly edits: readonly Edit[];
  /** The revision the score had after it. */
  readonly revision: number;
}

interface SketchSchema extends DBSchema {
  checkpoints: { key: SketchId; value: Checkpoint };
  steps: { key: [SketchId, number]; value: LoggedStep };
  settings: { key: string; value: unknown };
}

/** A sketch as it was found on the device, with the step the log has reached. */
export interface StoredSketch {
  readonly score: Score;
  readonly step: number;
  /** How many logged steps could not be done again; 0 unless the store was written by another version. */
  readonly lost: number;
}

/**
 * The sketches kept on this device. Each edit is logged at once as a small record, so that a crash loses nothing that was
 * acknowledged; the whole sketch is written in idle time and the log behind it cleared. A promise that resolves means
 * that the browser has completed the transaction.
 */
export class SketchStore {
  readonly #database: IDBPDatabase<SketchSchema>;

  private constructor(database: IDBPDatabase<SketchSchema>) {
    this.#database = database;
  }

  /** Opens the store, making it on the first visit. Rejects where the browser keeps nothing (some private windows). */
  static async open(name = "ninefold"): Promise<SketchStore> {
    const database = await openDB<SketchSchema>(name, 1, {
      upgrade(fresh) {
        fresh.createObjectStore("checkpoints", { keyPath: "id" });
        fresh.createObjectStore("steps", { keyPath: ["id", "step"] });
        fresh.createObjectStore("settings");
      },
    });
    return new SketchStore(database);
  }

  /** Every sketch, the one changed last first. */
  async list(): Promise<readonly SketchSummary[]> {
    const all = await this.#database.getAll("checkpoints");
    return all.map(({ id, title, changed, bars }) => ({ id, title, changed, bars })).sort((left, right) => right.changed - left.changed);
  }

  /**
   * Reads a sketch and does again what was logged since it was last written whole. Null where there is no such sketch.
   * @throws ReadError when the stored text cannot be read; it is left where it is.
   */
  async read(id: SketchId): Promise<StoredSketch | null> {
    const transaction = this.#database.transaction(["checkpoints", "steps"], "readonly");
    const [checkpoint, steps] = await Promise.all([
      transaction.objectStore("checkpoints").get(id),
      transaction.objectStore("steps").getAll(stepsOf(id)),
      transaction.done,
    ]);
    if (!checkpoint) return null;
    let score = scoreFromSavedForm(checkpoint.text);
    let step = checkpoint.step;
    for (const [position, logged] of steps.entries()) {
      if (logged.step <= checkpoint.step) continue;
      const outcome = applyEdits(score, logged.edits);
      if (!outcome.ok) return { score, step, lost: steps.length - position };
      score = { ...outcome.value, revision: logged.revision };
      step = logged.step;
    }
    return { score, step, lost: 0 };
  }

  /** The exact stored text of a sketch, for saving to a file what this version cannot read. Null where there is none. */
  async textOf(id: SketchId): Promise<string | null> {
    return (await this.#database.get("checkpoints", id))?.text ?? null;
  }

  /** Logs one step. Small and quick: durability is relaxed, since a checkpoint follows in idle time. */
  async log(id: SketchId, step: number, edits: readonly Edit[], revision: number): Promise<void> {
    const transaction = this.#database.transaction("steps", "readwrite", { durability: "relaxed" });
    await Promise.all([transaction.store.put({ id, step, edits, revision }), transaction.done]);
  }

  /** Writes a sketch whole and clears the log up to that step. */
  async checkpoint(id: SketchId, step: number, score: Score, now: number): Promise<void> {
    const record: Checkpoint = { id, step, text: savedFormOf(score), title: score.title, changed: now, bars: score.frames.length };
    const transaction = this.#database.transaction(["checkpoints", "steps"], "readwrite", { durability: "strict" });
    await Promise.all([
      transaction.objectStore("checkpoints").put(record),
      transaction.objectStore("steps").delete(IDBKeyRange.bound([id, 0], [id, step])),
      transaction.done,
    ]);
  }

  /** Takes a sketch away and gives back what would put it back. */
  async remove(id: SketchId): Promise<() => Promise<void>> {
    const transaction = this.#database.transaction(["checkpoints", "steps"], "readwrite", { durability: "strict" });
    const checkpoint = await transaction.objectStore("checkpoints").get(id);
    const steps = await transaction.objectStore("steps").getAll(stepsOf(id));
    await Promise.all([
      transaction.objectStore("checkpoints").delete(id),
      transaction.objectStore("steps").delete(stepsOf(id)),
      transaction.done,
    ]);
    return async () => {
      const again = this.#database.transaction(["checkpoints", "steps"], "readwrite", { durability: "strict" });
      if (checkpoint) await again.objectStore("checkpoints").put(checkpoint);
      for (const step of steps) await again.objectStore("steps").put(step);
      await again.done;
    };
  }

  /** A setting of this device (which sketch was open, theme, levels), or undefined. */
  async setting(name: string): Promise<unknown> {
    return this.#database.get("settings", name);
  }

  /** Keeps a setting of this device. */
  async keepSetting(name: string, value: unknown): Promise<void> {
    await this.#database.put("settings", value, name);
  }

  /** Lets go of the database; further calls reject. */
  close(): void {
    this.#database.close();
  }
}

function stepsOf(id: SketchId): IDBKeyRange {
  return IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]);
}
