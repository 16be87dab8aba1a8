import { CHANTER_NOTES, type ChanterNote } from "./chanter-note.ts";
import { fingeringOf, type Hole } from "./fingerings.ts";
import type { PipeSetup } from "./pipe-setup.ts";

/** How every chanter note is fingered, hole by hole, thumb first. */
export type FingeringTable = Readonly<Record<ChanterNote, readonly Hole[]>>;

const tables = new WeakMap<PipeSetup, FingeringTable>();

/** Every fingering of a setup, as the piper has it; the same table for the same setup. */
export function fingeringTable(setup: PipeSetup): FingeringTable {
  let table = tables.get(setup);
  if (!table) {
    table = Object.fromEntries(CHANTER_NOTES.map((note) => [note, fingeringOf(setup, note)])) as unknown as FingeringTable;
    tables.set(setup, table);
  }
  return table;
}
