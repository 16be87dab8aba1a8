import { readChord, transposedChord } from "../../pitch/chord.ts";
import type { Letter } from "../../pitch/concert-pitch.ts";
import { pitchClassName } from "../../pitch/spelling.ts";
import type { Transposition } from "../../pitch/transpose.ts";
import type { SongMeter, SongSyllable } from "../../song/song.ts";
import { child, children, numberAt, textAt, type XmlElement } from "./xml-tree.ts";

/* Small things of MusicXML, each read by itself. */

/** What a kind of chord is written as after its root. *Source:* MusicXML 4.0, kind-value. */
const KIND_SUFFIX: Readonly<Record<string, string>> = {
  major: "",
  minor: "m",
  augmented: "aug",
  diminished: "dim",
  dominant: "7",
  "major-seventh": "maj7",
  "minor-seventh": "m7",
  "diminished-seventh": "dim7",
  "augmented-seventh": "7#5",
  "half-diminished": "m7b5",
  "major-minor": "mMaj7",
  "major-sixth": "6",
  "minor-sixth": "m6",
  "dominant-ninth": "9",
  "major-ninth": "maj9",
  "minor-ninth": "m9",
  "dominant-11th": "11",
  "major-11th": "maj11",
  "minor-11th": "m11",
  "dominant-13th": "13",
  "major-13th": "maj13",
  "minor-13th": "m13",
  "suspended-second": "sus2",
  "suspended-fourth": "sus4",
  power: "5",
};

/** Lengths of note types in quarters. *Source:* MusicXML 4.0, note-type-value. */
const TYPE_QUARTERS: Readonly<Record<string, number>> = {
  maxima: 32,
  long: 16,
  breve: 8,
  whole: 4,
  half: 2,
  quarter: 1,
  eighth: 1 / 2,
  "16th": 1 / 4,
  "32nd": 1 / 8,
  "64th": 1 / 16,
  "128th": 1 / 32,
  "256th": 1 / 64,
  "512th": 1 / 128,
  "1024th": 1 / 256,
};

/** A harmony as a symbol at concert pitch; or, where it is none that can be named, what it says. */
export function harmonySymbol(harmony: XmlElement, by: Transposition): { readonly symbol: string } | { readonly unnamed: string } {
  const kind = textAt(harmony, "kind");
  if (kind === "none") return { symbol: "N.C." };
  const root = pitchName(child(harmony, "root"), "root");
  const suffix = KIND_SUFFIX[kind];
  const shown = child(harmony, "kind")?.attributes.text ?? kind;
  if (root === null || suffix === undefined) return { unnamed: `${root ?? textAt(harmony, "function")} ${shown}`.trim() };
  const bass = pitchName(child(harmony, "bass"), "bass");
  const degrees = children(harmony, "degree").map(degreeText);
  const symbol = `${root}${suffix}${degrees.join("")}${bass === null ? "" : `/${bass}`}`;
  if (!readChord(symbol)) return { unnamed: symbol };
  return { symbol: transposedChord(symbol, by.diatonic, by.chromatic) };
}

function pitchName(element: XmlElement | null, what: "root" | "bass"): string | null {
  const step = textAt(element, `${what}-step`);
  const alter = numberAt(element, `${what}-alter`) ?? 0;
  if (!/^[A-G]$/.test(step) || !Number.isInteger(alter) || Math.abs(alter) > 1) return null;
  return pitchClassName(step as Letter, alter);
}

function degreeText(degree: XmlElement): string {
  const value = textAt(degree, "degree-value");
  const alter = numberAt(degree, "degree-alter") ?? 0;
  const sign = alter > 0 ? "#" : alter < 0 ? "b" : "";
  const type = textAt(degree, "degree-type");
  if (type === "subtract") return `no${value}`;
  return type === "add" && sign === "" ? `add${value}` : `${sign}${value}`;
}

/** The syllables under a note, a verse each; verses without a number count from the top. */
export function syllablesOf(note: XmlElement): readonly SongSyllable[] {
  return children(note, "lyric").flatMap((lyric, index) => {
    const pieces = children(lyric, "text").map(({ text }) => text.trim());
    const text = pieces.join(" ").trim();
    if (text === "") return [];
    const verse = Number(/\d+/.exec(lyric.attributes.number ?? "")?.[0] ?? index + 1);
    const syllabic = textAt(children(lyric, "syllabic").at(-1) ?? null);
    return [{ verse: Math.max(1, verse), text, goesOn: syllabic === "begin" || syllabic === "middle" }];
  });
}

/**
 * The meter a time signature shows: `null` for free meter, `undefined` where it shows none that can be counted.
 * Added counts become one: 3+2 over 8 is 5/8, 3/8 + 1/4 is 5/8.
 */
export function meterOf(time: XmlElement): SongMeter | null | undefined {
  if (child(time, "senza-misura")) return null;
  const beats = children(time, "beats").map(({ text }) => text.split("+").reduce((sum, piece) => sum + Number(piece), 0));
  const units = children(time, "beat-type").map(({ text }) => Number(text));
  const unit = Math.max(...units);
  const right = units.every((one) => one >= 1 && one <= 128 && Number.isInteger(Math.log2(one)));
  const total = beats.reduce((sum, beat, index) => sum + (beat * unit) / (units[index] ?? Number.NaN), 0);
  return right && Number.isInteger(total) && total > 0 && total <= 128 ? { beats: total, unit } : undefined;
}

/** What must be added to a written pitch to get the sounding one. */
export function transpositionOf(transpose: XmlElement): Transposition {
  const octaves = (numberAt(transpose, "octave-change") ?? 0) + (child(transpose, "double") ? -1 : 0);
  const chromatic = Math.round(numberAt(transpose, "chromatic") ?? 0);
  // A transposition that names no staff steps goes by the usual ones for its semitones.
  const diatonic = numberAt(transpose, "diatonic") ?? Math.round((chromatic * 7) / 12);
  return { diatonic: Math.round(diatonic) + 7 * octaves, chromatic: chromatic + 12 * octaves };
}

/** Quarters in a minute that a direction's metronome mark says; null where it gives no figure. */
export function metronomeQuarters(metronome: XmlElement): number | null {
  const minute = Number(/\d+(?:\.\d+)?/.exec(textAt(metronome, "per-minute"))?.[0] ?? Number.NaN);
  const unit = TYPE_QUARTERS[textAt(metronome, "beat-unit")];
  if (unit === undefined || !(minute > 0)) return null;
  const dots = children(metronome, "beat-unit-dot").length;
  return minute * unit * (2 - 0.5 ** dots);
}

/** The length a note is written with, in quarters, tuplets counted in; null where it names no type. */
export function writtenQuarters(note: XmlElement): readonly [numerator: number, denominator: number] | null {
  const quarters = TYPE_QUARTERS[textAt(note, "type")];
  if (quarters === undefined) return null;
  const dots = Math.min(4, children(note, "dot").length);
  const [actual, normal] = [
    numberAt(note, "time-modification", "actual-notes") ?? 1,
    numberAt(note, "time-modification", "normal-notes") ?? 1,
  ];
  if (!(actual > 0 && normal > 0)) return null;
  return [quarters * (2 - 0.5 ** dots) * normal, actual];
}
