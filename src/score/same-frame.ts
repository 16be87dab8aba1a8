import type { Frame, Section, Tune } from "./frame.ts";

/** Whether two frames are the same in everything, so that one may stand for the other. */
export function sameFrame(one: Frame, other: Frame): boolean {
  if (one === other) return true;
  return (
    one.meter.beats === other.meter.beats &&
    one.meter.unit === other.meter.unit &&
    one.short === other.short &&
    one.key.tonic === other.key.tonic &&
    one.key.mode === other.key.mode &&
    one.tempo.beat === other.tempo.beat &&
    one.tempo.perMinute === other.tempo.perMinute &&
    sameSection(one.section, other.section) &&
    sameTune(one.tune, other.tune) &&
    sameChords(one, other) &&
    one.repeatStart === other.repeatStart &&
    one.repeatEnd === other.repeatEnd &&
    one.ending === other.ending
  );
}

function sameSection(one: Section | null, other: Section | null): boolean {
  return one?.name === other?.name && one?.letter === other?.letter;
}

function sameTune(one: Tune | null, other: Tune | null): boolean {
  return one?.title === other?.title && one?.tuneType === other?.tuneType && one?.composer === other?.composer;
}

function sameChords(one: Frame, other: Frame): boolean {
  if (one.chords.length !== other.chords.length) return false;
  return one.chords.every(({ at, symbol }, index) => at === other.chords[index]?.at && symbol === other.chords[index]?.symbol);
}
