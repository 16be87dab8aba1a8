import type { Letter } from "../../pitch/concert-pitch.ts";
import { LETTERS } from "../../pitch/letter.ts";
import { semitoneOf } from "../../pitch/semitone.ts";
import { pitchFromSpelling } from "../../pitch/spelling.ts";
import { type Transposition, transposedSpelling, UNISON } from "../../pitch/transpose.ts";
import type { LeftOutKind } from "../../song/left-out.ts";
import type { SongMeter, SongMode } from "../../song/song.ts";
import { exactSongTicks, SONG_TICKS_PER_QUARTER } from "../../song/song-ticks.ts";
import { ReadError } from "../../units/read-error.ts";
import type { DraftedNote } from "./drafted-note.ts";
import type { LeftOutLedger } from "./left-out-ledger.ts";
import { harmonySymbol, meterOf, metronomeQuarters, syllablesOf, transpositionOf, writtenQuarters } from "./musicxml-marks.ts";
import { MOST_QUARTERS } from "./reading-limits.ts";
import { child, children, numberAt, textAt, type XmlElement } from "./xml-tree.ts";

/** A note in its measure. */
export interface MeasureNote extends Omit<DraftedNote, "onset"> {
  /** Place of its measure. */
  readonly measure: number;
  /** Song ticks from the measure's start. */
  readonly at: number;
  readonly voice: string;
  readonly staff: string;
}

/** Something at a moment of a measure. */
export interface AtMoment<Value> {
  readonly measure: number;
  /** Song ticks from the measure's start. */
  readonly at: number;
  readonly value: Value;
}

/** What one measure of one part says about the bar. */
export interface ReadMeasure {
  /** Song ticks to the end of the last thing in it. */
  content: number;
  /** `undefined`: none is written; null: free meter. */
  meter: SongMeter | null | undefined;
  repeatFrom: boolean;
  repeatTimes: number;
  endings: readonly number[];
}

/** A key as written in a file. */
export interface ReadKey {
  readonly fifths: number;
  readonly mode: SongMode;
  readonly modeStated: boolean;
}

const MODES: Readonly<Record<string, SongMode>> = {
  major: "major",
  ionian: "major",
  minor: "minor",
  aeolian: "minor",
  dorian: "dorian",
  phrygian: "phrygian",
  lydian: "lydian",
  mixolydian: "mixolydian",
  locrian: "locrian",
};

/** Notations that say how to play and neither pitch nor length. */
const MARKS = new Set(["slur", "articulations", "dynamics", "fermata", "technical", "arpeggiate", "non-arpeggiate"]);
const ORNAMENTS = new Set(["ornaments", "glissando", "slide"]);
const JUMPS = ["dacapo", "dalsegno", "segno", "coda", "tocoda", "fine"];

/** Reads one part of a partwise MusicXML file, measure after measure. Time goes by divisions, which may change on the way. */
export class MusicxmlPartReader {
  readonly notes: MeasureNote[] = [];
  readonly measures: ReadMeasure[] = [];
  readonly keys: AtMoment<ReadKey>[] = [];
  readonly tempos: AtMoment<number>[] = [];
  readonly chords: AtMoment<string>[] = [];
  readonly #id: string;
  readonly #ledger: LeftOutLedger;
  #divisions = 1;
  #transposition: Transposition = UNISON;
  #endings: readonly number[] = [];
  #at = 0;
  #chordAt = 0;

  constructor(id: string, ledger: LeftOutLedger) {
    this.#id = id;
    this.#ledger = ledger;
  }

  /** @throws ReadError with the line in the file */
  readMeasure(element: XmlElement): void {
    this.#at = 0;
    this.#chordAt = 0;
    const measure: ReadMeasure = { content: 0, meter: undefined, repeatFrom: false, repeatTimes: 0, endings: this.#endings };
    this.measures.push(measure);
    for (const one of element.children) this.#read(one, measure);
  }

  get #measure(): number {
    return this.measures.length - 1;
  }

  #leaveOut(kind: LeftOutKind, example = ""): void {
    this.#ledger.add(kind, this.#id, this.#measure, example);
  }

  #read(element: XmlElement, measure: ReadMeasure): void {
    switch (element.name) {
      case "note":
        this.#readNote(element, measure);
        break;
      case "backup":
        this.#at = Math.max(0, this.#at - this.#ticks(element, numberAt(element, "duration") ?? 0));
        break;
      case "forward":
        this.#moveTo(this.#at + this.#ticks(element, numberAt(element, "duration") ?? 0), measure);
        break;
      case "attributes":
        this.#readAttributes(element, measure);
        break;
      case "direction":
        this.#readDirection(element);
        break;
      case "sound":
        this.#readSound(element);
        break;
      case "harmony":
        this.#readHarmony(element);
        break;
      case "barline":
        this.#readBarline(element, measure);
        break;
      default:
    }
  }

  #moveTo(at: number, measure: ReadMeasure): void {
    this.#at = at;
    measure.content = Math.max(measure.content, at);
  }

  /** Divisions as song ticks; a time that is no whole number of them is put on the nearest, and said. */
  #ticks(element: XmlElement, divisions: number): number {
    const quarters = divisions / this.#divisions;
    if (!(quarters >= 0 && quarters <= MOST_QUARTERS)) {
      throw new ReadError({ where: `line ${element.line}`, expected: "a length of zero or more", found: `${divisions} divisions` });
    }
    const exact = exactSongTicks(divisions, this.#divisions);
    if (exact !== null) return exact;
    this.#leaveOut("rounded-times");
    return Math.round(quarters * SONG_TICKS_PER_QUARTER);
  }

  #readAttributes(attributes: XmlElement, measure: ReadMeasure): void {
    const divisions = numberAt(attributes, "divisions");
    if (divisions !== null) {
      if (!(divisions > 0))
        throw new ReadError({ where: `line ${attributes.line}`, expected: "divisions above zero", found: `${divisions}` });
      this.#divisions = divisions;
    }
    const transpose = child(attributes, "transpose");
    if (transpose) this.#transposition = transpositionOf(transpose);
    const key = child(attributes, "key");
    if (key) this.#readKey(key);
    const time = child(attributes, "time");
    if (!time) return;
    const meter = meterOf(time);
    if (meter === undefined) this.#leaveOut("unread", `time ${textAt(time, "beats")}/${textAt(time, "beat-type")}`);
    else measure.meter = meter;
  }

  #readKey(key: XmlElement): void {
    const fifths = numberAt(key, "fifths");
    if (fifths === null || !Number.isInteger(fifths)) {
      this.#leaveOut("signatures");
      return;
    }
    const { diatonic, chromatic } = this.#transposition;
    // A staff step up by its semitones moves the signature so many fifths: +2 for a whole tone, +7 for a raised prime.
    const concert = fifths + 7 * chromatic - 12 * diatonic;
    const fitting = concert > 7 ? concert - 12 : concert < -7 ? concert + 12 : concert;
    if (Math.abs(fitting) > 14) {
      this.#leaveOut("signatures");
      return;
    }
    const mode = MODES[textAt(key, "mode").toLowerCase()];
    const value: ReadKey = { fifths: fitting, mode: mode ?? "major", modeStated: mode !== undefined };
    this.keys.push({ measure: this.#measure, at: this.#at, value });
  }

  #readDirection(direction: XmlElement): void {
    const sound = child(direction, "sound");
    if (sound) this.#readSound(sound);
    for (const type of children(direction, "direction-type")) {
      for (const mark of type.children) {
        if (mark.name === "metronome") {
          const quarters = sound?.attributes.tempo === undefined ? metronomeQuarters(mark) : null;
          if (quarters !== null) this.#addTempo(quarters, mark);
        } else if (mark.name === "dynamics" || mark.name === "wedge") this.#leaveOut("marks");
        else if ((mark.name === "segno" || mark.name === "coda") && !sound) this.#leaveOut("jumps", mark.name);
      }
    }
  }

  #readSound(sound: XmlElement): void {
    if (sound.attributes.tempo !== undefined) this.#addTempo(Number(sound.attributes.tempo), sound);
    for (const jump of JUMPS) if (sound.attributes[jump] !== undefined) this.#leaveOut("jumps", jump);
  }

  #addTempo(quarters: number, element: XmlElement): void {
    if (quarters > 0 && quarters < 10_000) this.tempos.push({ measure: this.#measure, at: this.#at, value: quarters });
    else this.#leaveOut("unread", `tempo ${element.attributes.tempo ?? ""}`);
  }

  #readHarmony(harmony: XmlElement): void {
    const read = harmonySymbol(harmony, this.#transposition);
    if ("unnamed" in read) {
      this.#leaveOut("chord-texts", read.unnamed);
      return;
    }
    const offset = numberAt(harmony, "offset") ?? 0;
    const moved = offset < 0 ? -this.#ticks(harmony, -offset) : this.#ticks(harmony, offset);
    this.chords.push({ measure: this.#measure, at: Math.max(0, this.#at + moved), value: read.symbol });
  }

  #readBarline(barline: XmlElement, measure: ReadMeasure): void {
    const ending = child(barline, "ending");
    const numbers = (ending?.attributes.number ?? "").split(/[^0-9]+/).flatMap((piece) => (piece === "" ? [] : [Number(piece)]));
    if (ending?.attributes.type === "start") {
      this.#endings = numbers;
      measure.endings = numbers;
    } else if (ending) this.#endings = [];
    const repeat = child(barline, "repeat");
    if (repeat?.attributes.direction === "forward") measure.repeatFrom = true;
    else if (repeat) {
      const times = Number(repeat.attributes.times ?? 2);
      measure.repeatTimes = Number.isInteger(times) && times >= 2 && times <= 99 ? times : 2;
    }
  }

  #readNote(note: XmlElement, measure: ReadMeasure): void {
    if (child(note, "grace")) {
      if (child(note, "lyric")) this.#leaveOut("words");
      this.#leaveOut("gracenotes");
      return;
    }
    const chord = child(note, "chord") !== null;
    const duration = this.#durationOf(note);
    const at = chord ? this.#chordAt : this.#at;
    if (!chord) {
      this.#chordAt = at;
      this.#moveTo(at + duration, measure);
    } else measure.content = Math.max(measure.content, at + duration);
    if (child(note, "cue")) {
      this.#leaveOut("cues");
      return;
    }
    if (child(note, "rest")) {
      if (child(note, "lyric")) this.#leaveOut("words", textAt(note, "lyric", "text"));
      return;
    }
    if (child(note, "unpitched")) {
      this.#leaveOut("unpitched");
      return;
    }
    if (duration === 0) {
      this.#leaveOut("unread", "a note without a length");
      return;
    }
    const sounding = this.#pitchOf(note);
    if (sounding === null) {
      this.#leaveOut("out-of-range");
      return;
    }
    this.#countNotations(note);
    const ties = children(note, "tie").length > 0 ? children(note, "tie") : children(child(note, "notations"), "tied");
    this.notes.push({
      measure: this.#measure,
      at,
      duration,
      semitone: semitoneOf(sounding),
      pitch: sounding,
      tiedFrom: ties.some(({ attributes }) => attributes.type === "stop" || attributes.type === "continue"),
      tiedTo: ties.some(({ attributes }) => attributes.type === "start" || attributes.type === "continue"),
      syllables: syllablesOf(note),
      voice: textAt(note, "voice") || "1",
      staff: textAt(note, "staff") || "1",
    });
  }

  /** As its divisions say; by its written type where a file leaves them out. */
  #durationOf(note: XmlElement): number {
    const divisions = numberAt(note, "duration");
    if (divisions !== null) return this.#ticks(note, divisions);
    const written = writtenQuarters(note);
    return written === null ? 0 : (exactSongTicks(...written) ?? 0);
  }

  /** The sounding pitch; null where it lies outside what can be named. */
  #pitchOf(note: XmlElement): ReturnType<typeof pitchFromSpelling> | null {
    const pitch = child(note, "pitch");
    const step = textAt(pitch, "step");
    const octave = numberAt(pitch, "octave");
    if (!pitch || !(LETTERS as readonly string[]).includes(step) || octave === null || !Number.isInteger(octave)) {
      throw new ReadError({
        where: `line ${(pitch ?? note).line}`,
        expected: "a pitch: step and octave",
        found: `${step || "no step"}, ${octave ?? "no octave"}`,
      });
    }
    const alter = numberAt(pitch, "alter") ?? 0;
    if (!Number.isInteger(alter)) this.#leaveOut("microtones");
    if (Math.abs(alter) > 12 || Math.abs(octave) > 12) return null;
    const written = { letter: step as Letter, alter: Math.round(alter), octave };
    const { diatonic, chromatic } = this.#transposition;
    const sounding = transposedSpelling(written, diatonic, chromatic);
    if (sounding.octave < -1 || sounding.octave > 9) return null;
    const named = pitchFromSpelling(sounding);
    const semitone = semitoneOf(named);
    return semitone >= 0 && semitone <= 127 ? named : null;
  }

  #countNotations(note: XmlElement): void {
    for (const notations of children(note, "notations")) {
      for (const { name } of notations.children) {
        if (MARKS.has(name)) this.#leaveOut("marks");
        else if (ORNAMENTS.has(name)) this.#leaveOut("ornaments");
      }
    }
  }
}
