import { newScore } from "../../src/score/new-score.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Score } from "../../src/score/score.ts";
import type { SaveState } from "./autosave.ts";
import { holdSketch, LAST_SKETCH, type OpenSketch, openFreshSketch, openStoredSketch } from "./open-sketch.ts";
import { readSketchFile } from "./sketch-file.ts";
import { type SketchId, SketchStore, type SketchSummary } from "./sketch-store.ts";

/**
 * Which sketch is open and which others this device keeps. One sketch is open at a time; another is opened only once
 * everything of the one before is written.
 */
export class Workspace {
  #store: SketchStore | null = null;
  #sketch: OpenSketch | null = null;
  #letGo: (() => void) | null = null;
  #saveState: SaveState = { kind: "saved" };
  readonly #changed: () => void;

  /** @param changed called whenever another sketch is open or its save state is another. */
  constructor(changed: () => void) {
    this.#changed = changed;
  }

  get sketch(): OpenSketch | null {
    return this.#sketch;
  }

  /** How the open sketch stands with the device. */
  get saveState(): SaveState {
    return this.#saveState;
  }

  /** Whether this browser keeps sketches between visits. */
  get keeps(): boolean {
    return this.#store !== null;
  }

  /**
   * Opens the sketch that was open last or, on a first visit, the one given.
   * @returns what the user should be told (or an empty text), and whether this is a first visit.
   */
  async start(first: () => Promise<string>): Promise<{ readonly told: string; readonly first: boolean }> {
    this.#store = await SketchStore.open().catch(() => null);
    // Ask once that the browser does not clear our sketches when space runs short; a refusal changes nothing else.
    void navigator.storage?.persist?.().catch(() => false);
    const last = await this.setting(LAST_SKETCH);
    if (typeof last === "string") {
      const trouble = await this.openStored(last).catch((error: unknown) => messageOf(error));
      if (this.#sketch !== null) return { told: trouble, first: false };
      if (trouble !== "") {
        await this.#openFresh(scoreFromSavedForm(await first()));
        return { told: `The last sketch could not be read and is left as it was. ${trouble}`, first: false };
      }
    }
    await this.#openFresh(scoreFromSavedForm(await first()));
    return { told: "", first: true };
  }

  /** Every sketch on this device, the one changed last first. */
  async list(): Promise<readonly SketchSummary[]> {
    await this.#sketch?.autosave?.flush();
    return (await this.#store?.list()) ?? [];
  }

  /**
   * Opens a sketch of this device. Where another tab has it open, a copy is opened instead.
   * @returns what the user should be told, or an empty text.
   * @throws ReadError when its text cannot be read; it stays where it is.
   */
  async openStored(id: SketchId): Promise<string> {
    const store = this.#store;
    if (store === null || id === this.#sketch?.id) return "";
    const letGo = await holdSketch(id);
    const found = await store.read(id).catch((error: unknown) => {
      letGo?.();
      throw error;
    });
    if (found === null) {
      letGo?.();
      return "";
    }
    if (letGo === null) {
      await this.#openFresh({ ...found.score, title: found.score.title === "" ? "" : `${found.score.title} (copy)` });
      return "This sketch is open in another tab, so this is a copy of it.";
    }
    await this.#closePresent();
    this.#letGo = letGo;
    this.#sketch = openStoredSketch(store, id, found.score, found.step, this.#saveStateChanged);
    await this.#opened();
    return found.lost === 0 ? "" : `The last ${found.lost} steps were made by another version and could not be done again.`;
  }

  /** Opens a new sketch: the pipes alone, eight empty bars. */
  async openNew(): Promise<void> {
    await this.#openFresh(newScore());
  }

  /**
   * Opens a copy of a sketch from its saved form.
   * @throws ReadError
   */
  async openText(text: string): Promise<void> {
    await this.#openFresh(scoreFromSavedForm(text));
  }

  /**
   * Opens a sketch from a file.
   * @throws ReadError
   */
  async openFile(file: File): Promise<void> {
    await this.#openFresh(await readSketchFile(file));
  }

  /** Removes a sketch that is not open; what comes back puts it there again. */
  async remove(id: SketchId): Promise<() => Promise<void>> {
    const nothing = async (): Promise<void> => undefined;
    if (this.#store === null || id === this.#sketch?.id) return nothing;
    return this.#store.remove(id);
  }

  /** Writes whatever is outstanding, as when the page is being left. */
  async flush(): Promise<void> {
    await this.#sketch?.autosave?.flush();
  }

  /** A setting of this device, or undefined. */
  async setting(name: string): Promise<unknown> {
    return this.#store?.setting(name).catch(() => undefined);
  }

  /** Keeps a setting of this device; where that fails, nothing the user wrote is lost. */
  async keepSetting(name: string, value: unknown): Promise<void> {
    await this.#store?.keepSetting(name, value).catch(() => undefined);
  }

  async #openFresh(score: Score): Promise<void> {
    await this.#closePresent();
    this.#sketch = openFreshSketch(this.#store, score, this.#saveStateChanged);
    this.#letGo = await holdSketch(this.#sketch.id);
    await this.#opened();
  }

  async #closePresent(): Promise<void> {
    await this.#sketch?.close();
    this.#letGo?.();
    this.#letGo = null;
    this.#sketch = null;
  }

  async #opened(): Promise<void> {
    this.#changed();
    if (this.#sketch !== null) await this.keepSetting(LAST_SKETCH, this.#sketch.id);
  }

  readonly #saveStateChanged = (state: SaveState): void => {
    this.#saveState = state;
    this.#changed();
  };
}

/** The sentence an error carries, for the user. */
export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
