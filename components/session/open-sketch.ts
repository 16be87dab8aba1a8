import type { Score } from "../../src/score/score.ts";
import { Autosave, type SaveState } from "./autosave.ts";
import { Session } from "./session.ts";
import type { SketchId, SketchStore } from "./sketch-store.ts";

/** A sketch that is open: its session, and what keeps it on the device (null where this browser keeps nothing). */
export interface OpenSketch {
  readonly id: SketchId;
  readonly session: Session;
  readonly autosave: Autosave | null;
  /** Writes what is outstanding and lets go of the sketch. */
  readonly close: () => Promise<void>;
}

/** The setting that names the sketch that was open last. */
export const LAST_SKETCH = "last sketch";

/** Opens a sketch that is stored already, at the step its log has reached. */
export function openStoredSketch(
  store: SketchStore,
  id: SketchId,
  score: Score,
  step: number,
  changed: (state: SaveState) => void,
): OpenSketch {
  return joined(new Session(score), new Autosave(store, id, score, step, changed), id);
}

/** Opens a sketch that is not on the device yet and, where there is a store, puts it there. */
export function openFreshSketch(store: SketchStore | null, score: Score, changed: (state: SaveState) => void): OpenSketch {
  const id = crypto.randomUUID();
  const autosave = store === null ? null : new Autosave(store, id, score, 0, changed);
  autosave?.replaced(score);
  return joined(new Session(score), autosave, id);
}

function joined(session: Session, autosave: Autosave | null, id: SketchId): OpenSketch {
  const stop = session.subscribeToScore((score, change) => {
    if (change.kind === "edited") autosave?.edited(score, change.edits);
    else autosave?.replaced(score);
  });
  return {
    id,
    session,
    autosave,
    close: async () => {
      stop();
      await autosave?.close();
    },
  };
}

/** How long another tab may take to let go, in milliseconds: on a reload the page before needs a moment. */
const PATIENCE = 800;

/**
 * Takes hold of a sketch for this tab, so that two tabs never write over one another. Resolves with what lets go of it
 * again, or with null when another tab has it. Where the browser has no locks, it is simply granted.
 */
export function holdSketch(id: SketchId): Promise<(() => void) | null> {
  if (!("locks" in navigator)) return Promise.resolve(() => undefined);
  return new Promise((resolve) => {
    const held = (): Promise<void> => new Promise((release) => resolve(() => release()));
    navigator.locks.request(`ninefold ${id}`, { signal: AbortSignal.timeout(PATIENCE) }, held).catch(() => resolve(null));
  });
}
