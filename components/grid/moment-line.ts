import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { Moment } from "../../src/score/address.ts";
import { timeOf } from "../../src/score/bar-starts.ts";
import { momentOnBeat } from "../../src/score/moment-on-beat.ts";
import { placeOfMoment } from "./bar-places.ts";
import { type HeldNote, heldNoteAt } from "./chosen-notes.ts";
import type { GridScene } from "./grid-scene.ts";
import { soundingNote } from "./overlay.ts";

/** How much of the view is behind the moment after the page has turned. */
const BEHIND = 0.08;

/** Draws where playing is. Nothing else moves by itself: the line is moved, and the page turned when the line comes to its edge. */
export class MomentLine {
  readonly #sounds: (note: ChanterNote | null) => void;
  #moment: Moment | null = null;
  /** Where the line was last, px; null when nothing was playing. */
  #place: number | null = null;

  /** @param sounds called when another note sounds, or none. */
  constructor(sounds: (note: ChanterNote | null) => void) {
    this.#sounds = sounds;
  }

  get moment(): Moment | null {
    return this.#moment;
  }

  /** The note under the moment, with all it is tied to; null where none is written. */
  held(scene: GridScene): HeldNote | null {
    const moment = this.#moment;
    if (moment === null || moment.bar >= scene.score.frames.length) return null;
    return heldNoteAt(scene.score, scene.line.id, timeOf(scene.score.frames, moment));
  }

  /** Moves the line; null: nothing plays, and it goes. */
  show(moment: Moment | null, scene: GridScene | null, line: SVGElement | null, scroller: HTMLElement | null): void {
    this.#moment = moment;
    if (line === null || scroller === null || scene === null) return;
    line.classList.toggle("still", moment === null);
    if (moment === null || moment.bar >= scene.score.frames.length) {
      this.#place = null;
      this.#sounds(null);
      return;
    }
    const shown = matchMedia("(prefers-reduced-motion: reduce)").matches ? onBeat(scene, moment) : moment;
    const x = placeOfMoment(scene.score.frames, scene.widths, shown);
    line.setAttribute("transform", `translate(${Math.round(x * 10) / 10} 0)`);
    this.#turnPage(x, scroller);
    this.#sounds(soundingNote(scene, timeOf(scene.score.frames, moment)));
  }

  /** Turns when the line leaves the view. Who has scrolled away from it is left there. */
  #turnPage(x: number, scroller: HTMLElement): void {
    const { scrollLeft, clientWidth } = scroller;
    const isSeen = (place: number): boolean => place >= scrollLeft && place <= scrollLeft + clientWidth;
    const wasSeen = this.#place === null || isSeen(this.#place);
    if (wasSeen && !isSeen(x)) scroller.scrollLeft = x - clientWidth * BEHIND;
    this.#place = x;
  }
}

function onBeat({ score }: GridScene, moment: Moment): Moment {
  const frame = score.frames[moment.bar];
  return frame === undefined ? moment : momentOnBeat(frame, moment);
}
