import { ReadError } from "../../units/read-error.ts";
import { type AbcKey, abcKey, abcMeter, abcShift, abcTempo, abcUnit, abcVoice, usualUnit } from "./abc-fields.ts";
import { AbcMusicReader, type AbcSurroundings } from "./abc-music-reader.ts";
import type { AbcLine } from "./abc-tunes.ts";
import { AbcVoice } from "./abc-voice.ts";
import { singWords } from "./abc-words.ts";
import { LeftOutLedger } from "./left-out-ledger.ts";
import { MOST_LINES } from "./reading-limits.ts";

/** Longest line of music after macros have been put in. */
const LONGEST_LINE = 200_000;

/** Name of the only voice of a tune that names none. */
const ONLY_VOICE = "1";

/** Reads one tune, line after line: first its head, to the field `K:`, then fields, music and words. */
export class AbcTuneReader implements AbcSurroundings {
  readonly ledger = new LeftOutLedger();
  readonly tempos: { onset: number; quarters: number }[] = [];
  readonly keys: { onset: number; key: AbcKey }[] = [];
  readonly chords: { onset: number; symbol: string }[] = [];
  title = "";
  composer = "";
  readonly #voices = new Map<string, AbcVoice>();
  readonly #decorations = new Map<string, string>();
  readonly #macros: (readonly [target: string, replacement: string])[] = [];
  /** What voices begin with. */
  readonly #head: Pick<AbcVoice, "unit" | "key" | "meter" | "keyShift"> & { unitGiven: boolean; tempo: string | null };
  #inHead = true;
  #voice: AbcVoice | null = null;
  #music: AbcMusicReader | null = null;
  #goingOn: string | null = null;

  constructor() {
    const key: AbcKey = { fifths: 0, mode: "major", changed: new Map(), named: false };
    this.#head = { unit: [1, 2], key, meter: null, keyShift: 0, unitGiven: false, tempo: null };
  }

  /** In the order in which the tune names them, overlays after what they lie over. */
  get voices(): readonly AbcVoice[] {
    return [...this.#voices.values()];
  }

  /** Reads one line. */
  read({ field, text, number }: AbcLine): void {
    if (field === null) {
      if (!this.#inHead) this.#readMusic(text, number);
      return;
    }
    if (field === "+") {
      this.#goOn(text);
      return;
    }
    this.#goingOn = field;
    if (this.#inHead) this.#readHead(field, text, number);
    else this.#readBody(field, text);
  }

  /**
   * Ends what is open.
   * @throws ReadError where the tune never came to its key
   */
  finish(): void {
    if (this.#inHead) throw new ReadError({ where: "file", expected: "a field K: before the music", found: "none" });
    for (const voice of this.voices) voice.endBar(0);
  }

  #goOn(text: string): void {
    if (this.#goingOn === "T") this.title += ` ${text}`;
    else if (this.#goingOn === "w" && this.#voice) this.ledger.add("words", this.#voice.id, null, text);
  }

  #readHead(field: string, text: string, number: number): void {
    const head = this.#head;
    switch (field) {
      case "T":
        if (this.title === "") this.title = text;
        break;
      case "C":
        if (this.composer === "") this.composer = text;
        break;
      case "M": {
        const meter = abcMeter(text);
        if (meter === undefined) throw new ReadError({ where: `line ${number}`, expected: "a meter", found: `M:${text.slice(0, 40)}` });
        head.meter = meter;
        break;
      }
      case "L": {
        const unit = abcUnit(text);
        if (!unit) throw new ReadError({ where: `line ${number}`, expected: "a unit note length", found: `L:${text.slice(0, 40)}` });
        head.unit = unit;
        head.unitGiven = true;
        break;
      }
      case "Q":
        head.tempo = text;
        break;
      case "P":
        if (text.length > 1) this.ledger.add("jumps", null, null, `P:${text}`);
        break;
      case "V":
        this.#voiceOf(text);
        break;
      case "K":
        this.#endHead(text);
        break;
      default:
        this.#readEverywhere(field, text);
    }
  }

  #endHead(text: string): void {
    const head = this.#head;
    if (!head.unitGiven) head.unit = usualUnit(head.meter);
    this.#inHead = false;
    const declared = this.voices;
    head.keyShift = abcShift(text);
    const key = abcKey(text);
    if (key) head.key = key;
    else this.ledger.add("unread", null, null, `K:${text}`);
    for (const voice of declared) Object.assign(voice, { unit: head.unit, key: head.key, meter: head.meter, keyShift: head.keyShift });
    if (key?.named) this.keys.push({ onset: 0, key });
    if (head.tempo !== null) this.#addTempo(0, head.tempo, head.unit);
  }

  #readBody(field: string, text: string): void {
    if (field === "w") {
      this.#sing(text);
      return;
    }
    if (field === "W") {
      this.ledger.add("words", null, null, text);
      return;
    }
    if (field === "s") {
      this.ledger.add("marks", null, null);
      return;
    }
    // A title within the tune heads a section, and lines of other kinds say nothing that sounds.
    if (!"VKMLQPmUI".includes(field)) return;
    this.field(field, text);
    if (field === "V" && this.#voice) this.#music?.goTo(this.#voice);
  }

  field(letter: string, value: string): AbcVoice {
    if (letter === "V") {
      this.#voice = this.#voiceOf(value);
      return this.#voice;
    }
    const voice = this.#voice ?? this.#voiceOf(ONLY_VOICE);
    this.#voice = voice;
    switch (letter) {
      case "K":
        this.#changeKey(voice, value);
        break;
      case "M": {
        const meter = abcMeter(value);
        if (meter === undefined) this.ledger.add("unread", voice.id, voice.bars.length, `M:${value}`);
        else voice.meter = meter;
        break;
      }
      case "L":
        voice.unit = abcUnit(value) ?? voice.unit;
        break;
      case "Q":
        this.#addTempo(voice.at, value, voice.unit);
        break;
      default:
        this.#readEverywhere(letter, value);
    }
    return voice;
  }

  chord(onset: number, symbol: string): void {
    this.chords.push({ onset, symbol });
  }

  decoration(letter: string): string | null {
    return this.#decorations.get(letter) ?? null;
  }

  overlay(under: AbcVoice): AbcVoice {
    const id = `${under.id}&`;
    const known = this.#voices.get(id);
    if (known) {
      Object.assign(known, {
        unit: under.unit,
        key: under.key,
        meter: under.meter,
        keyShift: under.keyShift,
        voiceShift: under.voiceShift,
      });
      return known;
    }
    const voice = new AbcVoice(id, `${under.name || "Overlay"}${under.name ? ", overlay" : ""}`, under);
    voice.voiceShift = under.voiceShift;
    this.#voices.set(id, voice);
    return voice;
  }

  #changeKey(voice: AbcVoice, value: string): void {
    const key = abcKey(value);
    if (!key) {
      this.ledger.add("unread", voice.id, voice.bars.length, `K:${value}`);
      return;
    }
    if (/clef|octave|transpose|treble|bass|alto|tenor/.test(value)) voice.keyShift = abcShift(value);
    if (!key.named) return;
    voice.key = key;
    this.keys.push({ onset: voice.at, key });
  }

  #addTempo(onset: number, text: string, unit: AbcVoice["unit"]): void {
    const quarters = abcTempo(text, unit);
    if (quarters !== null) this.tempos.push({ onset, quarters });
    else if (!/^"[^"]*"$/.test(text.trim()) && text.trim() !== "") this.ledger.add("unread", null, null, `Q:${text}`);
  }

  /** Fields that mean the same in the head and after it. */
  #readEverywhere(letter: string, value: string): void {
    if (letter === "U") {
      const match = /^(\S)\s*=\s*[!+]?([^!+]*)[!+]?$/.exec(value);
      if (match) this.#decorations.set(match[1] as string, (match[2] as string).trim());
    } else if (letter === "m") {
      const match = /^(\S+)\s*=\s*(.*)$/.exec(value);
      // A macro for every pitch is written with n; we put in only those that stand for themselves.
      if (match && !/n/.test(match[1] as string)) this.#macros.push([match[1] as string, match[2] as string]);
      else this.ledger.add("unread", null, null, `m:${value}`);
    }
  }

  /** The voice a field names; made at its first mention. */
  #voiceOf(text: string): AbcVoice {
    const { id, name } = abcVoice(text);
    let voice = this.#voices.get(id);
    if (!voice) {
      if (this.#voices.size >= MOST_LINES)
        throw new ReadError({ where: `V:${id}`, expected: `at most ${MOST_LINES} voices`, found: "more" });
      voice = new AbcVoice(id, name ?? (id === ONLY_VOICE ? "" : id), this.#head);
      this.#voices.set(id, voice);
    }
    if (name !== null) voice.name = name;
    if (/\S\s+\S/.test(text)) voice.voiceShift = abcShift(text);
    return voice;
  }

  #readMusic(text: string, number: number): void {
    this.#voice ??= this.voices[0] ?? this.#voiceOf(ONLY_VOICE);
    this.#music ??= new AbcMusicReader(this.#voice, this);
    this.#music.goTo(this.#voice);
    let line = text;
    for (const [target, replacement] of this.#macros) line = line.replaceAll(target, () => replacement);
    if (line.length > LONGEST_LINE)
      throw new ReadError({ where: `line ${number}`, expected: `at most ${LONGEST_LINE} letters`, found: `${line.length}` });
    this.#voice = this.#music.read(line, number);
  }

  #sing(text: string): void {
    const voice = this.#voice;
    if (!voice) return;
    voice.verses += 1;
    const lost = singWords(text, voice.sung, voice.verses);
    for (let count = 0; count < lost; count++) this.ledger.add("words", voice.id, voice.bars.length, text);
  }
}
