import { check } from "../../src/score/check.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { Session } from "../session/session.ts";
import { UNCHECKED } from "./findings-list.ts";

/** Findings are not urgent: they wait until the edit is on the screen, in milliseconds. */
const AFTER_EDIT = 60;

/** Of a sketch just opened, grid and parts come first: so long, in milliseconds, nobody has looked for findings. */
const AFTER_OPENING = 250;

/** What there is to look at. Either list is the identical one for as long as nothing in it is another, so that nothing is drawn again for it. */
export interface Found {
  /** In the order of their numbers: the first is 1. */
  readonly findings: readonly Finding[];
  /** Those that have no number: every tune has them. */
  readonly crossings: readonly Finding[];
}

/** Looks through the open sketch whenever the hand rests a moment, and tells what there is to look at when it is something else than before. */
export class FindingsWatch {
  readonly #found: (found: Found) => void;
  #session: Session | null = null;
  #told: Found = { findings: UNCHECKED, crossings: UNCHECKED };
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(found: (found: Found) => void) {
    this.#found = found;
  }

  /** Another sketch is open. */
  take(session: Session): void {
    this.#session = session;
    this.#tell({ findings: UNCHECKED, crossings: UNCHECKED });
    this.#lookIn(AFTER_OPENING);
  }

  /** The sketch is another one than it was. */
  changed(): void {
    this.#lookIn(AFTER_EDIT);
  }

  stop(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
  }

  #lookIn(wait: number): void {
    this.stop();
    this.#timer = setTimeout(() => {
      this.#timer = null;
      if (this.#session !== null) this.#look(this.#session);
    }, wait);
  }

  #look({ shown }: Session): void {
    const all = check(shown);
    this.#tell({
      findings: kept(
        this.#told.findings,
        all.filter(({ kind }) => kind !== "crossing"),
      ),
      crossings: kept(
        this.#told.crossings,
        all.filter(({ kind }) => kind === "crossing"),
      ),
    });
  }

  #tell(found: Found): void {
    if (found.findings === this.#told.findings && found.crossings === this.#told.crossings) return;
    this.#told = found;
    this.#found(found);
  }
}

/** The list there was, if the new one holds the same: findings that are the same are the same objects. Nothing found is not the same as not looked. */
function kept(before: readonly Finding[], now: readonly Finding[]): readonly Finding[] {
  const isSame = before !== UNCHECKED && now.length === before.length && now.every((finding, index) => finding === before[index]);
  return isSame ? before : now;
}
