import { nothing, svg } from "lit";
import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import type { EmbellishmentPlacement } from "../../src/pipes/embellishment.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { centsOverLowA } from "../../src/pipes/sounding.ts";

/** The picture's size, px, and the cents at its top and foot: the chanter's compass and a little more. */
export const PICTURE_WIDTH = 96;
export const PICTURE_HEIGHT = 40;
const TOP = 1290;
const FOOT = -290;

/** How wide one gracenote is drawn, and how thick a held note is, px. */
const GRACENOTE = 4;
const INK = 4;

/** A note of a picture, with what is played before it. */
export interface PicturedNote {
  readonly note: ChanterNote;
  readonly gracenotes: readonly PlainNote[];
}

/** What a picture shows: the note before, and the notes that are graced; all at the heights at which they sound. */
export interface GracenotePicture {
  readonly setup: PipeSetup;
  readonly before: ChanterNote | null;
  readonly notes: readonly PicturedNote[];
  readonly placement: EmbellishmentPlacement;
}

/** Path data of a picture, px: held notes as areas, fingers moving as a line, beats as rules. */
export interface PicturePaths {
  readonly held: string;
  readonly moving: string;
  readonly beats: string;
}

/**
 * Draws gracenotes as the grid does, small: thick ink where a note is held, a thin line where fingers move, a rule where the beat falls.
 *
 *     before       beat
 *     ━━━━━━━━━━━┓  ┊
 *                ┃┏┓┊━━━━━━━━━━━━
 *                ┗┛┗┊    note
 */
export function picturePaths({ setup, before, notes, placement }: GracenotePicture): PicturePaths {
  const height = (note: ChanterNote) => tenth(((TOP - centsOverLowA(setup, note)) / (TOP - FOOT)) * PICTURE_HEIGHT);
  const lead = before === null ? 8 : 26;
  const each = (PICTURE_WIDTH - lead) / notes.length;
  let held = "";
  let moving = "";
  let beats = "";
  let last = before;
  let from = 0;
  for (const [index, { note, gracenotes }] of notes.entries()) {
    const beat = tenth(lead + index * each);
    const room = gracenotes.length * GRACENOTE;
    const starts = placement === "before-beat" && last !== null ? beat - room : beat;
    if (last !== null) held += area(from, starts, height(last));
    beats += `M${beat} 0V${PICTURE_HEIGHT}`;
    moving += `M${starts} ${height(last ?? gracenotes[0] ?? note)}`;
    let x = starts;
    for (const gracenote of gracenotes) {
      x += GRACENOTE;
      moving += `V${height(gracenote)}H${tenth(x)}`;
    }
    moving += `V${height(note)}`;
    last = note;
    from = x;
  }
  if (last !== null) held += area(from, PICTURE_WIDTH, height(last));
  return { held, moving, beats };
}

/** The picture, decoration to the eye alone: its words say the same. */
export function drawPicture(picture: GracenotePicture) {
  const { held, moving, beats } = picturePaths(picture);
  return svg`<svg class="picture" viewBox=${`0 0 ${PICTURE_WIDTH} ${PICTURE_HEIGHT}`} width=${PICTURE_WIDTH} height=${PICTURE_HEIGHT} aria-hidden="true">
    <path class="beat" d=${beats}></path>${moving === "" ? nothing : svg`<path class="moving" d=${moving}></path>`}<path class="held" d=${held}></path>
  </svg>`;
}

function area(left: number, right: number, y: number): string {
  return right <= left ? "" : `M${tenth(left)} ${tenth(y - INK / 2)}H${tenth(right)}v${INK}H${tenth(left)}z`;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
