import type { ConcertPitch, Letter } from "../../pitch/concert-pitch.ts";
import type { SongMeter, SongSyllable } from "../../song/song.ts";
import { commonDivisor, exactSongTicks, SONG_TICKS_PER_QUARTER } from "../../song/song-ticks.ts";
import type { AbcKey, Quarters } from "./abc-fields.ts";
import type { DraftedBar } from "./numbered-bars.ts";

/** A note of an ABC voice; its time is its event's. */
export interface AbcNote {
  readonly pitch: ConcertPitch;
  readonly semitone: number;
  /** Where it stands, whatever its accidentals: what a tie goes by. */
  readonly place: string;
  readonly tiedFrom: boolean;
  tiedTo: boolean;
  /** Its own length, as a part of the event's. */
  readonly share: number;
}

/** A note, a chord or a rest. A rest has no notes. */
export interface AbcEvent {
  readonly onset: number;
  /** Song ticks; a broken rhythm after it changes it. */
  duration: number;
  readonly notes: AbcNote[];
  readonly syllables: SongSyllable[];
  /** Place of its bar in the voice. */
  readonly bar: number;
}

/** How a voice stands at a moment of reading. */
export class AbcVoice {
  readonly id: string;
  name: string;
  readonly events: AbcEvent[] = [];
  readonly bars: DraftedBar[] = [];
  /** Events of the line of music above, which words are sung to. */
  sung: AbcEvent[] = [];
  verses = 0;
  unit: Quarters;
  key: AbcKey;
  meter: SongMeter | null;
  /** Semitones from what is written to what sounds: of the key field and of the voice's own. */
  keyShift: number;
  voiceShift: number;
  /** Song ticks. */
  barStart = 0;
  /** Accidentals of this bar by letter. */
  accidentals = new Map<Letter, number>();
  /** Places of notes that a tie goes on from, with what they were altered by. */
  ties = new Map<string, number>();
  /** Factor on the next event's length, from a broken rhythm. */
  broken: Quarters | null = null;
  /** Lengths within a tuplet are multiplied by `times` for `left` more events. */
  tuplet: { readonly times: Quarters; left: number } | null = null;
  repeatFrom = false;
  endings: readonly number[] = [];
  #rounded = 0;
  #start: number;

  constructor(id: string, name: string, from: Pick<AbcVoice, "unit" | "key" | "meter" | "keyShift">, start = 0) {
    this.id = id;
    this.name = name;
    this.unit = from.unit;
    this.key = from.key;
    this.meter = from.meter;
    this.keyShift = from.keyShift;
    this.voiceShift = 0;
    this.#start = start;
    this.barStart = start;
  }

  /** Song ticks to the end of the last event. */
  get at(): number {
    const last = this.events.at(-1);
    return last ? last.onset + last.duration : this.#start;
  }

  /** Moves an empty moment on to a later time: an overlay begins where its bar does. */
  moveTo(at: number): void {
    if (at > this.at) this.events.push({ onset: this.at, duration: at - this.at, notes: [], syllables: [], bar: this.bars.length });
  }

  /** How many lengths were no whole number of song ticks. */
  get rounded(): number {
    return this.#rounded;
  }

  /** Quarters as song ticks; counted where they are no whole number. */
  ticks([numerator, denominator]: Quarters): number {
    const exact = exactSongTicks(numerator, denominator);
    if (exact !== null) return exact;
    this.#rounded += 1;
    return Math.round((numerator / denominator) * SONG_TICKS_PER_QUARTER);
  }

  /** Ends the bar. A bar line with nothing before it belongs to the bar before. */
  endBar(repeatTimes: number): void {
    const content = this.at - this.barStart;
    const before = this.bars.at(-1);
    if (content > 0) {
      const { meter, repeatFrom, endings } = this;
      this.bars.push({ content, meter, repeatFrom, repeatTimes, endings, number: null });
      this.repeatFrom = false;
    } else if (before && repeatTimes > 0) this.bars[this.bars.length - 1] = { ...before, repeatTimes };
    this.barStart = this.at;
    this.accidentals.clear();
  }
}

/** One fraction by another. */
export function multiplied([a, b]: Quarters, [c, d]: Quarters): Quarters {
  const [numerator, denominator] = [a * c, b * d];
  const divisor = commonDivisor(numerator, denominator) || 1;
  return [numerator / divisor, denominator / divisor];
}
