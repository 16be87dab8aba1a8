import type { Letter } from "../../pitch/concert-pitch.ts";
import { alterInKey, pitchClassAtFifths } from "../../pitch/key-signature.ts";
import { semitoneOfSpelling } from "../../pitch/semitone.ts";
import { pitchFromSpelling } from "../../pitch/spelling.ts";
import { transposedSpelling } from "../../pitch/transpose.ts";
import { isCompound } from "../../score/meter.ts";
import type { LeftOutKind } from "../../song/left-out.ts";
import { ReadError } from "../../units/read-error.ts";
import { ABC_ALTER, type Quarters } from "./abc-fields.ts";
import { type AbcNote, type AbcVoice, multiplied } from "./abc-voice.ts";
import type { LeftOutLedger } from "./left-out-ledger.ts";
import { MOST_NOTES } from "./reading-limits.ts";

/* Reading lines of ABC music. Source: the ABC music standard 2.1, section 4. */

/** What a reader of music asks of the tune around it. */
export interface AbcSurroundings {
  readonly ledger: LeftOutLedger;
  /** An inline field. The voice that the music after it belongs to. */
  field(letter: string, value: string): AbcVoice;
  /** A chord symbol at a moment, song ticks. */
  chord(onset: number, symbol: string): void;
  /** What `U:` makes of a letter: a decoration's name, or null. */
  decoration(letter: string): string | null;
  /** The voice that an overlay (`&`) of a voice is written in. */
  overlay(voice: AbcVoice): AbcVoice;
}

const LENGTH = /(\d*)(\/*)(\d*)/y;
const NOTE = /(\^{1,2}|_{1,2}|=)?(\d*\/\d*)?([A-Ga-g])([,']*)/y;
const REST = /[zxZX]/y;
const BAR = /\.?(?:(:*)(\[\|\]?|\|+\]?|\])(:*)|(::+))/y;
const ENDING = /\s*\[?(\d+(?:[-,]\d+)*)/y;
const ENDING_ALONE = /\[(\d+(?:[-,]\d+)*)/y;
const TUPLET = /\((\d+)(?::(\d*)(?::(\d*))?)?/y;
const FIELD = /\[([A-Za-z]):([^\]]*)\]/y;
const QUOTED = /"([^"]*)"/y;
const GRACE = /\{([^}]*)\}/y;
const DECORATION = /!([^!|\s]{1,40})!|\+([^+|\s\d]{1,40})\+/y;
const BROKEN = /([<>])\1*/y;

/** Decorations whose notes the page does not print but the player plays. */
const ORNAMENTS = /^(?:trill|roll|turn|turnx|invertedturn|invertedturnx|(?:upper|lower)?mordent|pralltriller|slide|gliss)/i;
const JUMPS = /^(?:segno|coda|D\.?C\.?|D\.?S\.?|fine|dacapo|dacoda|to ?coda)/i;

/** Letters that are decorations unless `U:` says otherwise. */
const LETTER_DECORATIONS: Readonly<Record<string, string>> = {
  ".": "staccato",
  "~": "roll",
  H: "fermata",
  L: "accent",
  M: "lowermordent",
  O: "coda",
  P: "uppermordent",
  S: "segno",
  T: "trill",
  u: "upbow",
  v: "downbow",
};

/** Reads one line of music into a voice, or into several where inline fields change it. */
export class AbcMusicReader {
  readonly #around: AbcSurroundings;
  #voice: AbcVoice;
  /** The voice an overlay is laid over; null outside one. */
  #under: AbcVoice | null = null;
  #text = "";
  #place = 0;
  #line = 0;

  constructor(voice: AbcVoice, around: AbcSurroundings) {
    this.#voice = voice;
    this.#around = around;
  }

  /**
   * Reads a line.
   * @param line its number in the file, for complaints
   * @returns the voice it ends in
   */
  read(text: string, line: number): AbcVoice {
    this.#text = text;
    this.#line = line;
    this.#place = 0;
    this.#beginLine();
    while (this.#place < text.length) this.#readNext();
    this.#leaveOverlay();
    return this.#voice;
  }

  /** The voice the next line of music goes into. */
  goTo(voice: AbcVoice): void {
    this.#leaveOverlay();
    this.#voice = voice;
  }

  #beginLine(): void {
    this.#voice.sung = [];
    this.#voice.verses = 0;
  }

  #take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.#place;
    const match = pattern.exec(this.#text);
    if (match && match[0].length > 0) this.#place += match[0].length;
    return match && match[0].length > 0 ? match : null;
  }

  #leaveOut(kind: LeftOutKind, example = ""): void {
    const voice = this.#under ?? this.#voice;
    this.#around.ledger.add(kind, voice.id, voice.bars.length, example);
  }

  #readNext(): void {
    const letter = this.#text[this.#place] as string;
    if (/[\s`$\\yxX]/.test(letter) && !/[xX]/.test(letter)) {
      this.#place += 1;
      // A spacer may have a length, which means nothing.
      if (letter === "y") this.#take(LENGTH);
      return;
    }
    const field = this.#take(FIELD);
    if (field) {
      this.#readField(field[1] as string, (field[2] as string).trim());
      return;
    }
    const alone = this.#take(ENDING_ALONE);
    if (alone) {
      this.#beginEnding(alone[1] as string);
      return;
    }
    const bar = this.#take(BAR);
    if (bar) {
      this.#readBar(bar);
      return;
    }
    const quoted = this.#take(QUOTED);
    if (quoted) {
      this.#readQuoted(quoted[1] as string);
      return;
    }
    const grace = this.#take(GRACE);
    if (grace) {
      for (const _ of (grace[1] as string).matchAll(/[A-Ga-g]/g)) this.#leaveOut("gracenotes");
      return;
    }
    const tuplet = this.#take(TUPLET);
    if (tuplet) {
      this.#readTuplet(tuplet);
      return;
    }
    const broken = this.#take(BROKEN);
    if (broken) {
      this.#readBroken(broken[0]);
      return;
    }
    const decoration = this.#take(DECORATION);
    if (decoration) {
      this.#decorate((decoration[1] ?? decoration[2]) as string);
      return;
    }
    if (this.#take(REST)) {
      this.#readRest(letter);
      return;
    }
    const note = this.#readNote();
    if (note) {
      this.#addEvent([note.note], note.length);
      return;
    }
    this.#readSign(letter);
  }

  #readSign(letter: string): void {
    this.#place += 1;
    if (letter === "[") {
      this.#readChord();
      return;
    }
    if (letter === "-") {
      this.#tie();
      return;
    }
    if (letter === "&") {
      this.#readOverlay();
      return;
    }
    if (letter === "(" || letter === ")") {
      if (letter === "(") this.#leaveOut("marks");
      return;
    }
    // Alone, an exclamation mark broke lines in older ABC.
    if (letter === "!" || letter === "*" || letter === ";") return;
    const decoration = this.#around.decoration(letter) ?? LETTER_DECORATIONS[letter];
    if (decoration !== undefined) this.#decorate(decoration);
    else this.#leaveOut("unread", `${letter} in line ${this.#line}`);
  }

  #readField(letter: string, value: string): void {
    const before = this.#voice;
    const voice = this.#around.field(letter, value);
    if (letter !== "V" || voice === before) return;
    this.#leaveOverlay();
    this.#voice = voice;
    this.#beginLine();
  }

  #readBar(match: RegExpExecArray): void {
    const [, left = "", sign = "", right = "", doubled = ""] = match;
    // A run of colons alone ends one repeat and begins the next.
    const ends = doubled === "" ? left.length : Math.floor(doubled.length / 2);
    const begins = doubled === "" ? right.length : doubled.length - Math.floor(doubled.length / 2);
    this.#leaveOverlay();
    const voice = this.#voice;
    voice.endBar(ends > 0 ? Math.min(99, ends + 1) : 0);
    const closes = ends > 0 || begins > 0 || sign.length > 1;
    if (closes) voice.endings = [];
    if (begins > 0) voice.repeatFrom = true;
    const ending = this.#take(ENDING);
    // `|1` begins an ending; `| 1` cannot be anything else, since no note begins with a figure.
    if (ending) this.#beginEnding(ending[1] as string);
  }

  #beginEnding(numbers: string): void {
    const passes = numbers.split(",").flatMap((piece) => {
      const [from, to] = piece.split("-").map(Number) as [number, number | undefined];
      return Array.from({ length: Math.max(1, Math.min(99, (to ?? from) - from + 1)) }, (_, index) => from + index);
    });
    this.#voice.endings = [...new Set(passes)].filter((pass) => pass > 0).sort((a, b) => a - b);
  }

  #readQuoted(text: string): void {
    if (/^[\^_<>@]/.test(text)) {
      this.#leaveOut("words", text.slice(1));
      return;
    }
    const symbol =
      text
        .replace(/\(.*\)/, "")
        .split(";")[0]
        ?.trim() ?? "";
    if (symbol === "") return;
    this.#around.chord(this.#voice.at, /^n\.?c\.?$/i.test(symbol) ? "N.C." : symbol);
  }

  #decorate(name: string): void {
    if (ORNAMENTS.test(name)) this.#leaveOut("ornaments", name);
    else if (JUMPS.test(name)) this.#leaveOut("jumps", name);
    else this.#leaveOut("marks", name);
  }

  #readTuplet([, count = "", time = "", span = ""]: RegExpExecArray): void {
    const notes = Number(count);
    const compound = this.#voice.meter !== null && isCompound(this.#voice.meter);
    const usual: Readonly<Record<number, number>> = { 2: 3, 3: 2, 4: 3, 6: 2, 8: 3 };
    const inTime = time === "" ? (usual[notes] ?? (compound ? 3 : 2)) : Number(time);
    const left = span === "" ? notes : Number(span);
    if (notes < 2 || notes > 64 || inTime < 1 || inTime > 64 || left < 1 || left > 256) {
      this.#leaveOut("unread", `(${count}`);
      return;
    }
    this.#voice.tuplet = { times: [inTime, notes], left };
  }

  /** `A>B` dots A and halves B; each further sign dots and halves once more. */
  #readBroken(signs: string): void {
    const voice = this.#voice;
    const before = voice.events.at(-1);
    if (!before || signs.length > 5) {
      this.#leaveOut("unread", signs);
      return;
    }
    const part = 2 ** signs.length;
    const [long, short]: readonly [Quarters, Quarters] = [
      [2 * part - 1, part],
      [1, part],
    ];
    const [first, second] = signs.startsWith(">") ? [long, short] : [short, long];
    before.duration = Math.round((before.duration * first[0]) / first[1]);
    voice.broken = second;
  }

  #readLength(): Quarters {
    const [, numerator = "", strokes = "", denominator = ""] = this.#take(LENGTH) ?? [];
    const over = denominator === "" ? 2 ** Math.min(strokes.length, 10) : Number(denominator);
    // Only a stroke makes the figures after it a denominator.
    return [Math.min(Number(numerator || 1), 10_000), Math.max(1, Math.min(over, 10_000))];
  }

  #readRest(letter: string): void {
    const voice = this.#voice;
    const length = this.#readLength();
    if (letter === "z" || letter === "x") {
      this.#addEvent([], length);
      return;
    }
    const bars = length[0] / length[1];
    if (!voice.meter || !Number.isInteger(bars) || bars < 1 || bars > 1000) {
      this.#leaveOut("unread", `${letter}${length[0]}`);
      return;
    }
    const whole: Quarters = [4 * voice.meter.beats, voice.meter.unit];
    for (let bar = 1; bar <= bars; bar++) {
      voice.events.push({ onset: voice.at, duration: voice.ticks(whole), notes: [], syllables: [], bar: voice.bars.length });
      if (bar < bars) voice.endBar(0);
    }
  }

  #readChord(): void {
    const notes: AbcNote[] = [];
    let length: Quarters | null = null;
    const end = this.#text.indexOf("]", this.#place);
    if (end < 0) {
      this.#leaveOut("unread", `[ without ] in line ${this.#line}`);
      return;
    }
    while (this.#place < end) {
      const read = this.#readNote();
      if (read) {
        // A chord is as long as its first note.
        length ??= read.length;
        const share = (read.length[0] * length[1]) / (read.length[1] * length[0]);
        if (this.#text[this.#place] === "-") {
          this.#place += 1;
          read.note.tiedTo = true;
        }
        notes.push({ ...read.note, share: Math.min(1, share) });
        continue;
      }
      const letter = this.#text[this.#place] as string;
      this.#place += 1;
      if (letter === "!" || letter === "+") this.#place = Math.max(this.#place, this.#text.indexOf(letter, this.#place) + 1);
      else if (letter === '"') this.#place = Math.max(this.#place, this.#text.indexOf('"', this.#place) + 1);
      else if (!/[\s()]/.test(letter)) this.#leaveOut("unread", `${letter} in line ${this.#line}`);
    }
    this.#place = Math.max(this.#place, end + 1);
    if (length) this.#addEvent(notes, multiplied(length, this.#readLength()));
    else this.#leaveOut("unread", `[] in line ${this.#line}`);
  }

  #tie(): void {
    const voice = this.#voice;
    const last = voice.events.at(-1);
    if (!last || last.notes.length === 0) {
      this.#leaveOut("unread", `- in line ${this.#line}`);
      return;
    }
    for (const note of last.notes) note.tiedTo = true;
    this.#rememberTies(last.notes);
  }

  #rememberTies(notes: readonly AbcNote[]): void {
    for (const note of notes) if (note.tiedTo) this.#voice.ties.set(note.place, note.semitone);
  }

  #readNote(): { readonly note: AbcNote; readonly length: Quarters } | null {
    const match = this.#take(NOTE);
    if (!match) return null;
    const [, sign, fraction, name, marks] = match as unknown as [string, string | undefined, string | undefined, string, string];
    const voice = this.#voice;
    const letter = name.toUpperCase() as Letter;
    const octave = (name === letter ? 4 : 5) + [...marks].reduce((sum, mark) => sum + (mark === "'" ? 1 : -1), 0);
    const place = `${letter}${octave}`;
    const length = this.#readLength();
    if (octave < -3 || octave > 12) {
      this.#leaveOut("out-of-range");
      return null;
    }
    const shift = voice.keyShift + voice.voiceShift;
    const tied = voice.ties.get(place);
    let alter = voice.accidentals.get(letter) ?? this.#signatureAlter(letter);
    if (sign !== undefined) {
      const written = ABC_ALTER[sign] as number;
      if (fraction) this.#leaveOut("microtones");
      // A quarter tone goes to the nearest semitone, which is the note without it; three quarters to the whole accidental.
      alter = fraction ? Math.round(written * fractionOf(fraction) - Math.sign(written) * 1e-9) : written;
      voice.accidentals.set(letter, alter);
    } else if (tied !== undefined) alter = tied - shift - semitoneOfSpelling({ letter, alter: 0, octave });
    const sounding = transposedSpelling({ letter, alter, octave }, Math.round((shift * 7) / 12), shift);
    const semitone = semitoneOfSpelling(sounding);
    if (sounding.octave < -1 || sounding.octave > 9 || semitone < 0 || semitone > 127) {
      this.#leaveOut("out-of-range");
      return null;
    }
    const tiedFrom = tied !== undefined && tied === semitone;
    return { note: { pitch: pitchFromSpelling(sounding), semitone, place, tiedFrom, tiedTo: false, share: 1 }, length };
  }

  #signatureAlter(letter: Letter): number {
    const { fifths, changed } = this.#voice.key;
    return changed.get(letter) ?? alterInKey({ tonic: pitchClassAtFifths(fifths), mode: "major" }, letter);
  }

  #addEvent(notes: AbcNote[], length: Quarters): void {
    const voice = this.#voice;
    let quarters = multiplied(length, voice.unit);
    if (voice.broken) quarters = multiplied(quarters, voice.broken);
    if (voice.tuplet) {
      quarters = multiplied(quarters, voice.tuplet.times);
      voice.tuplet.left -= 1;
      if (voice.tuplet.left <= 0) voice.tuplet = null;
    }
    voice.broken = null;
    if (voice.events.length > MOST_NOTES) {
      throw new ReadError({ where: `line ${this.#line}`, expected: `at most ${MOST_NOTES} notes`, found: "more" });
    }
    const event = { onset: voice.at, duration: voice.ticks(quarters), notes, syllables: [], bar: voice.bars.length };
    if (event.duration === 0) {
      this.#leaveOut("unread", `a note without a length in line ${this.#line}`);
      return;
    }
    voice.events.push(event);
    voice.sung.push(event);
    voice.ties.clear();
    this.#rememberTies(notes);
  }

  #readOverlay(): void {
    const under = this.#under ?? this.#voice;
    this.#under = under;
    this.#voice = this.#around.overlay(under);
    this.#voice.moveTo(under.barStart);
    this.#voice.accidentals.clear();
  }

  #leaveOverlay(): void {
    if (!this.#under) return;
    this.#voice = this.#under;
    this.#under = null;
  }
}

/** `1/2`, `/`, `3/`: what a microtonal accidental counts in semitones. */
function fractionOf(text: string): number {
  const [numerator = "", denominator = ""] = text.split("/");
  return Number(numerator || 1) / Number(denominator || 2);
}
