import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import type { Address } from "../../src/score/address.ts";
import type { PipeBar, PipeEvent, Syllable } from "../../src/score/bar.ts";
import type { Frame } from "../../src/score/frame.ts";
import { newScore } from "../../src/score/new-score.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { LETTERS, lineAsAbc } from "./score-as-code.ts";
import { pipeNote, rest } from "./written-music.ts";

/* Sketches of one pipe line written as short text, the way `lineAsAbc` prints them: eighths are the unit, `|` parts bars. */

const TOKEN = /^(?:([32]):)?((?:"[^"]*")*)(?:\{([^}]*)\})?([=^]?[GABcdefgaz])(\d+(?:\/480)?)?(!)?(\.)?(-)?$/;

/** A score of one pipe line. Bars that are shorter than the meter are so by intention: `check` would find them. */
export function pipeSketch(text: string, meter: Frame["meter"] = { beats: 4, unit: 4 }): Score {
  const bars = text.split("|").map((bar): PipeBar => ({ kind: "pipes", events: bar.trim().split(/\s+/).map(eventFrom) }));
  const score = newScore({ bars: bars.length, meter });
  return { ...score, lines: score.lines.map((line) => (line.kind === "pipes" ? { ...line, bars } : line)) };
}

/** The first line of a score as text. */
export function asText(score: Score): string {
  const [line] = score.lines;
  if (line === undefined) throw new RangeError("no line");
  return lineAsAbc(line);
}

/** A place in the pipe line: bar from 0, time in eighths. */
export function at(bar: number, eighths: number, line = "pipes"): Address {
  return { line, bar, at: ticks(eighths * 480) };
}

function eventFrom(token: string): PipeEvent {
  const [, tuplet, words, graces, letter, length = "1", struck, cut, tied] = TOKEN.exec(token) ?? [];
  if (letter === undefined) throw new RangeError(`not a note: ${token}`);
  const lasts = length.endsWith("/480") ? Number.parseInt(length, 10) : Number(length) * 480;
  const kind = tuplet === undefined ? null : (Number(tuplet) as 3 | 2);
  if (letter === "z") return rest(lasts, kind);
  return pipeNote(noteFrom(letter), lasts, {
    tuplet: kind,
    gracenotes: [...(graces ?? "")].map((one) => noteFrom(one) as PlainNote),
    syllables: syllablesFrom(words ?? ""),
    strikeIn: struck !== undefined,
    cutOff: cut !== undefined,
    tied: tied !== undefined,
  });
}

function noteFrom(letter: string): ChanterNote {
  const found = Object.entries(LETTERS).find(([, one]) => one === letter);
  if (found === undefined) throw new RangeError(`no chanter note: ${letter}`);
  return found[0] as ChanterNote;
}

function syllablesFrom(words: string): readonly Syllable[] {
  return [...words.matchAll(/"([^"]*)"/g)].map(([, text = ""]) => ({ text, hyphen: false }));
}
