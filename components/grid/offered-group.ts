import type { GracenoteChoice, GracenoteOffer } from "../../src/arranging/gracenote-offers.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import { noteName } from "../../src/pipes/note-names.ts";
import type { GroupToHear } from "../../src/playback/heard-group.ts";
import type { GracenotePicture } from "./gracenote-picture.ts";

/* One offer, ready for the ear, the eye and the screen reader. */

/** The offer as it is to be heard: after what sounds before it in the bars as written. */
export function groupOf({ line, place }: GracenoteChoice, { gracenotes, further }: GracenoteOffer): GroupToHear {
  const before = place.before[0] ?? null;
  return {
    setup: line.setup,
    before: before && { note: before.note.note, seconds: before.seconds },
    notes: [{ note: place.note.note, gracenotes, seconds: place.seconds }, ...further],
  };
}

/** The offer as it is drawn. */
export function pictureOf({ line, place }: GracenoteChoice, { gracenotes, further, placement }: GracenoteOffer): GracenotePicture {
  const before = place.before[0]?.note.note ?? null;
  return { setup: line.setup, before, notes: [{ note: place.note.note, gracenotes }, ...further], placement };
}

/** In names: `low G, D, C`, and where it comes if not on the beat; a figure note by note, `high G on B; D on B; E on B`. */
export function shownSpelling({ gracenotes, further, placement }: GracenoteOffer, note: ChanterNote): string {
  const names = gracenotes.map(noteName).join(", ");
  if (further.length === 0) return placement === "before-beat" ? `${names}, before the beat` : names;
  return [
    `${names} on ${noteName(note)}`,
    ...further.map((one) => `${one.gracenotes.map(noteName).join(", ")} on ${noteName(one.note)}`),
  ].join("; ");
}

/** Words with a large letter in front. */
export function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
