import type { Line, Score } from "../score/score.ts";
import { touchedBars } from "../score/touched-bars.ts";
import type { BarDrawing } from "./drawing.ts";
import { engravedBar } from "./engrave-part.ts";

/** What of one part is drawn. */
interface DeskPart {
  readonly score: Score;
  readonly line: Line;
  /** Where its syllables stand, desk pixels under the top line. */
  readonly syllableBaseline: number;
}

/**
 * The drawings of one part's bars on the desk, carried from score to score: after an edit, what a bar depends on is put together again only for the
 * bars it touched and those beside them. All others are the identical drawings without a look.
 */
export class DeskBars {
  #part: DeskPart | null = null;
  readonly #drawings = new Map<number, BarDrawing>();

  /** From here on, drawings are of this score. */
  show(part: DeskPart): void {
    const affected = this.#part === null ? null : affectedBars(this.#part, part);
    if (affected === null) this.#drawings.clear();
    else for (const bar of affected) this.#drawings.delete(bar);
    this.#part = part;
  }

  /**
   * The drawing of a bar at a width, desk pixels.
   * @throws RangeError when nothing is shown, or there is no such bar.
   */
  drawing(bar: number, width: number): BarDrawing {
    if (this.#part === null) throw new RangeError("No part is shown.");
    const known = this.#drawings.get(bar);
    if (known?.width === width) return known;
    const { score, line, syllableBaseline } = this.#part;
    const place = { spacing: "desk", width, firstInSystem: bar === 0, lastInSystem: false, syllableBaseline } as const;
    const drawing = engravedBar(score, line, bar, place);
    this.#drawings.set(bar, drawing);
    return drawing;
  }
}

/** The bars whose drawings may be others; `null`: all of them. */
function affectedBars(before: DeskPart, now: DeskPart): readonly number[] | null {
  if (before.line.id !== now.line.id || before.syllableBaseline !== now.syllableBaseline) return null;
  return touchedBars(before.score, now.score)?.flatMap((bar) => [bar - 1, bar, bar + 1]) ?? null;
}
