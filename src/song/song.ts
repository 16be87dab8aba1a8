import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import type { Bpm } from "../units/bpm.ts";
import type { LeftOut } from "./left-out.ts";
import type { SongTicks } from "./song-ticks.ts";

/** A song as it was read, at concert pitch, as it is written: repeats are marked, not played out. It knows no chanter. */
export interface Song {
  readonly format: "musicxml" | "midi" | "abc";
  /** The song's name; empty where the file has none. */
  readonly title: string;
  /** Who wrote it, as the file says; empty where it does not. */
  readonly composer: string;
  /** In order of time, without gaps: each begins where the one before ends. At least one. */
  readonly bars: readonly SongBar[];
  /** In order of time; empty where the file says nothing. */
  readonly tempos: readonly SongTempo[];
  /** In order of time; empty where the file says nothing (MIDI often does not). */
  readonly keys: readonly SongKey[];
  /** In order of time, as symbols. */
  readonly chords: readonly SongChord[];
  /** As they stand in the file, from the top. At least one. */
  readonly lines: readonly SongLine[];
  /** What the file has and the song has not. */
  readonly leftOut: readonly LeftOut[];
  /** How times were put on a grid; null where the file's times are exact. */
  readonly quantising: Quantising | null;
}

/** A meter as it is written. */
export interface SongMeter {
  readonly beats: number;
  /** The lower figure: 4 for quarters. A power of two. */
  readonly unit: number;
}

/** A bar, or the piece of one that a repeat sign cuts off. */
export interface SongBar {
  /** What a reader is shown: a pickup is 0; pieces of a bar share their number. */
  readonly number: number;
  readonly onset: SongTicks;
  /** As long as what is in it; a bar with nothing is as long as its meter says. */
  readonly length: SongTicks;
  /** Null in free meter. */
  readonly meter: SongMeter | null;
  readonly pickup: boolean;
  /** Whether a repeat begins at its start. */
  readonly repeatFrom: boolean;
  /** How often what is repeated is played, where a repeat ends at its end; else 0. */
  readonly repeatTimes: number;
  /** On which passes it is played, ascending; empty on all. */
  readonly endings: readonly number[];
}

/** A tempo from a moment on. */
export interface SongTempo {
  readonly onset: SongTicks;
  /** Quarters in a minute, whatever note the file counts. */
  readonly quarters: Bpm;
}

/** The seven modes of the church, by the names players use. */
export type SongMode = "major" | "dorian" | "phrygian" | "lydian" | "mixolydian" | "minor" | "locrian";

/** A key from a moment on, at concert pitch. */
export interface SongKey {
  readonly onset: SongTicks;
  /** Sharps (positive) or flats (negative) of its signature. */
  readonly fifths: number;
  readonly mode: SongMode;
  /** Whether the file names the mode; if not, it is taken to be major. */
  readonly modeStated: boolean;
}

/** A chord symbol at a moment. */
export interface SongChord {
  readonly onset: SongTicks;
  /** At concert pitch where it is a chord: `F#m7/A`. Texts that are none are left out. */
  readonly symbol: string;
}

/** One voice of the song: never two notes at once. */
export interface SongLine {
  /** As the file names it; `Line 2` where it does not. No two have the same. */
  readonly name: string;
  /** In order of time. At least one. */
  readonly notes: readonly SongNote[];
  /** How many of its moments were chords, of which the top note was taken. */
  readonly chordsThinned: number;
}

/** A note, tied notes joined. */
export interface SongNote {
  /** Place of the bar it begins in. */
  readonly bar: number;
  readonly onset: SongTicks;
  /** Above zero. */
  readonly duration: SongTicks;
  /** Sounding, MIDI numbering: C4 is 60. */
  readonly semitone: number;
  /** Sounding, spelled as the file does, or as the key suggests where the file has numbers only. */
  readonly pitch: ConcertPitch;
  /** At most one for each verse, in order of verses. */
  readonly syllables: readonly SongSyllable[];
}

/** A syllable sung on a note. */
export interface SongSyllable {
  /** From 1. */
  readonly verse: number;
  readonly text: string;
  /** Whether the word goes on after it. */
  readonly goesOn: boolean;
}

/** The grid that played times were put on. */
export interface Quantising {
  /** Song ticks from line to line of the finer grid. */
  readonly grid: SongTicks;
  /** How far the worst moved onset was moved, in quarters. */
  readonly largestError: number;
  /** Over all onsets, in quarters. */
  readonly meanError: number;
}
