import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import type { ConcertNote, PipeNote, Rest, Tuplet } from "../../src/score/bar.ts";
import type { Frame } from "../../src/score/frame.ts";
import { bpm } from "../../src/units/bpm.ts";
import { ticks } from "../../src/units/ticks.ts";

/* Short words for music in tests: lengths are in ticks, 960 to the quarter. */

/** A chanter note; what is not said is plain. */
export function pipeNote(note: ChanterNote, length: number, more: Partial<PipeNote> = {}): PipeNote {
  return {
    kind: "note",
    note,
    ticks: ticks(length),
    tuplet: null,
    tied: false,
    gracenotes: [],
    syllables: [],
    strikeIn: false,
    cutOff: false,
    ...more,
  };
}

/** A chanter note with gracenotes before it. */
export function gracedNote(gracenotes: readonly PlainNote[], note: ChanterNote, length: number): PipeNote {
  return pipeNote(note, length, { gracenotes });
}

/** Concert pitches struck together, lowest first. */
export function concertNote(pitches: string, length: number, more: Partial<ConcertNote> = {}): ConcertNote {
  return {
    kind: "note",
    pitches: pitches.split(" ").map(concertPitch),
    ticks: ticks(length),
    tuplet: null,
    tied: false,
    syllables: [],
    ...more,
  };
}

/** Time without a note. */
export function rest(length: number, tuplet: Tuplet = null): Rest {
  return { kind: "rest", ticks: ticks(length), tuplet };
}

/** A bar of time: 4/4 in E flat at 96 to the quarter, unless said otherwise. */
export function frame(more: Partial<Frame> = {}): Frame {
  return {
    meter: { beats: 4, unit: 4 },
    short: null,
    key: { tonic: "Eb", mode: "major" },
    tempo: { beat: ticks(960), perMinute: bpm(96) },
    section: null,
    tune: null,
    chords: [],
    repeatStart: false,
    repeatEnd: false,
    ending: null,
    ...more,
  };
}
