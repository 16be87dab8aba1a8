import { check } from "../../src/score/check.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { Session } from "../session/session.ts";
import { UNCHECKED } from "./findings-list.ts";

/** Findings are not urgent: they wait until the edit is on the screen, in milliseconds. */
const AFTER_EDIT = 60;

/** Of a sketch just opened, grid and parts come first: so long, in milliseconds, nobody has looked for findings. */
const AFTER_OPENING = 250;

/** Looks through the open sketch whenever the hand rests a moment, and tells what there is to look at when it is something else than before. */
export class FindingsWatch {
  readonly #found: (findings: readonly Finding[]) => void;
  #session: Session | null = null;
  #told: readonly Finding[] = UNCHECKED;
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(found: (findings: readonly Finding[]) => void) {
    this.#found = found;
  }

  /** Another sketch is open. */
  take(session: Session): void {
    this.#session = session;
    this.#tell(UNCHECKED);
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
      if (this.#session !== null) this.#tell(check(this.#session.shown));
    }, wait);
  }

  #tell(findings: readonly Finding[]): void {
    // The same findings are the same objects: then there is nothing to show, and nothing is drawn again for it.
    const isSame = findings.length === this.#told.length && findings.every((finding, index) => finding === this.#told[index]);
    if (isSame && (this.#told === UNCHECKED) === (findings === UNCHECKED)) return;
    this.#told = findings;
    this.#found(findings);
  }
}
