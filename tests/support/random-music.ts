import fc from "fast-check";
import { CHANTER_NOTES, NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { withFingering } from "../../src/pipes/setup-changes.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import type { ConcertBar, ConcertEvent, PipeBar, PipeEvent, Syllable, Tuplet } from "../../src/score/bar.ts";
import type { BeatUnit, Frame } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { isWritable } from "../../src/score/written-values.ts";
import { bpm } from "../../src/units/bpm.ts";
import { hertz } from "../../src/units/hertz.ts";
import { ticks } from "../../src/units/ticks.ts";

/* Random scores: a few bars of any meter, one to three lines, everything a bar can hold. All of them are consistent. */

/** Draws whole numbers, one after the other, from a list that fast-check made and can shrink; when the list is used up every draw is 0. */
export class Draws {
  readonly #numbers: readonly number[];
  #next = 0;

  constructor(numbers: readonly number[]) {
    this.#numbers = numbers;
  }

  /** A whole number from 0 to less than the limit. */
  below(limit: number): number {
    const drawn = this.#numbers[this.#next] ?? 0;
    this.#next += 1;
    return drawn % limit;
  }

  /** True so many times in a hundred; false once the list is used up, so that small cases are plain ones. */
  chance(percent: number): boolean {
    return this.below(100) >= 100 - percent;
  }

  from<Value>(list: readonly Value[]): Value {
    return list[this.below(list.length)] as Value;
  }
}

/** What a score or an edit is drawn from. */
export const draws = fc.array(fc.nat({ max: 9_999 }), { maxLength: 600, size: "max" });

const METERS: readonly (readonly [beats: number, unit: BeatUnit])[] = [
  [4, 4],
  [3, 4],
  [2, 4],
  [6, 8],
  [9, 8],
  [2, 2],
  [3, 2],
  [6, 4],
  [5, 4],
  [7, 8],
  [12, 16],
];
const LENGTHS = [960, 480, 1920, 240, 1440, 720, 3840, 2880, 360, 120, 180];
const PITCHES = ["G3", "D4", "E4", "F#4", "A4", "B4", "C#5", "E5", "A5"].map(concertPitch);
const KEYS = [
  { tonic: "E", mode: "major" },
  { tonic: "Bb", mode: "mixolydian" },
  { tonic: "C#", mode: "minor" },
] as const;

/** A score drawn from numbers: all zeros are two bars of 4/4 with one line of quarter notes. */
export function scoreFrom(numbers: readonly number[]): Score {
  const draw = new Draws(numbers);
  const frames = framesFrom(draw);
  const usual = { ...defaultSetup(draw.from(["Bb", "A", "B"] as const)), crossFingerings: defaultCrossFingerings(["high-g-sharp"]) };
  const setup = draw.chance(20) ? withFingering(usual, "d", "X XXX OOOO") : usual;
  const lines: Line[] = [{ kind: "pipes", id: "pipes", name: "Pipes", setup, bars: pipeBarsFrom(draw, frames) }];
  if (draw.chance(60)) lines.push({ kind: "concert", id: "fiddle", name: "Fiddle", player: "fiddle", bars: concertBarsFrom(draw, frames) });
  if (draw.chance(20)) lines.push({ kind: "pipes", id: "seconds", name: "Seconds", setup, bars: pipeBarsFrom(draw, frames) });
  return {
    title: draw.chance(50) ? "Kettle and Crane" : "",
    credits: { composer: "", arranger: "", ensemble: draw.chance(30) ? "The Tin Observatory" : "", tuneType: "" },
    revision: draw.below(50),
    bandA: hertz(440),
    frames,
    lines,
  };
}

function framesFrom(draw: Draws): readonly Frame[] {
  const [beats, unit] = draw.from(METERS);
  const count = 2 + draw.below(3);
  const frames: Frame[] = [];
  let [meterBeats, meterUnit] = [beats, unit];
  for (let bar = 0; bar < count; bar += 1) {
    if (draw.chance(10)) [meterBeats, meterUnit] = draw.from(METERS);
    frames.push({
      meter: { beats: meterBeats, unit: meterUnit },
      short: bar === 0 && draw.chance(20) ? ticks(480) : null,
      key: draw.from(KEYS),
      tempo: { beat: ticks(960), perMinute: bpm(60 + draw.below(60)) },
      section: draw.chance(20) ? { name: "Verse", letter: "A" } : null,
      tune: draw.chance(10) ? { title: "Crane Lullaby", tuneType: "Slow air", composer: "" } : null,
      chords: draw.chance(30) ? [{ at: ticks(0), symbol: "E" }] : [],
      repeatStart: false,
      repeatEnd: false,
      ending: null,
    });
  }
  const last = frames.at(-1);
  if (last !== undefined && draw.chance(30)) frames[frames.length - 1] = { ...last, repeatEnd: true };
  return frames;
}

/** Lengths that fill a bar, with their tuplets. */
function rhythmFrom(draw: Draws, frame: Frame): readonly { readonly length: number; readonly tuplet: Tuplet }[] {
  const found: { length: number; tuplet: Tuplet }[] = [];
  const whole = frameTicks(frame);
  let at = 0;
  while (at < whole) {
    const left = whole - at;
    if (left >= 960 && at % 960 === 0 && draw.chance(12)) {
      const split = draw.from([
        [320, 320, 320],
        [640, 320],
        [320, 640],
        [160, 160, 320, 320],
      ]);
      found.push(...split.map((length) => ({ length, tuplet: 3 as const })));
      at += 960;
    } else if (left >= 1440 && at % 1440 === 0 && draw.chance(8)) {
      found.push({ length: 720, tuplet: 2 }, { length: 720, tuplet: 2 });
      at += 1440;
    } else {
      const start = draw.below(LENGTHS.length);
      const order = [...LENGTHS.slice(start), ...LENGTHS.slice(0, start)];
      const length = order.find((one) => one === left || left - one >= 120) ?? left;
      found.push({ length, tuplet: null });
      at += length;
    }
  }
  return found;
}

function pipeBarsFrom(draw: Draws, frames: readonly Frame[]): readonly PipeBar[] {
  const density = draw.from([80, 95, 30, 0]);
  const bars = frames.map((frame): PipeEvent[] =>
    rhythmFrom(draw, frame).map(({ length, tuplet }): PipeEvent => {
      const timed = { ticks: ticks(length), tuplet };
      if (draw.chance(100 - density)) return { kind: "rest", ...timed };
      return {
        kind: "note",
        note: draw.from(CHANTER_NOTES),
        ...timed,
        tied: draw.chance(15),
        gracenotes: draw.chance(30) ? [draw.from(NINE_NOTES)] : [],
        syllables: wordsFrom(draw),
        strikeIn: false,
        cutOff: draw.chance(10),
      };
    }),
  );
  return mended(bars).map((events) => ({ kind: "pipes", events }));
}

/** Ties lead to like notes, strike-ins follow cut-offs, and the first note is struck in. */
function mended(bars: readonly (readonly PipeEvent[])[]): readonly (readonly PipeEvent[])[] {
  let before: PipeEvent | null = null;
  let cut = true;
  return bars.map((events, bar) =>
    events.map((event, index): PipeEvent => {
      const next = events[index + 1] ?? bars[bar + 1]?.[0];
      if (event.kind === "rest") {
        before = event;
        return event;
      }
      const held: PipeEvent | null = before;
      const note = held?.kind === "note" && held.tied ? { ...event, note: held.note, gracenotes: [], syllables: [] } : event;
      const tied = note.tied && next?.kind === "note";
      const made: PipeEvent = { ...note, tied, strikeIn: cut, cutOff: note.cutOff && !tied };
      cut = made.cutOff;
      before = made;
      return made;
    }),
  );
}

function wordsFrom(draw: Draws): readonly Syllable[] {
  return draw.chance(20) ? [{ text: draw.from(["lan", "tern", "rain", "light"]), hyphen: draw.chance(50) }] : [];
}

function concertBarsFrom(draw: Draws, frames: readonly Frame[]): readonly ConcertBar[] {
  const doubling: ConcertBar = { kind: "doubling", of: "pipes", octaves: draw.from([0, -1]) };
  return frames.map((frame): ConcertBar => {
    if (draw.chance(40)) return doubling;
    const events = rhythmFrom(draw, frame).map(({ length, tuplet }): ConcertEvent => {
      const timed = { ticks: ticks(length), tuplet };
      if (draw.chance(30)) return { kind: "rest", ...timed };
      const low = draw.below(PITCHES.length);
      const pitches = draw.chance(20) ? PITCHES.slice(low, low + 2) : PITCHES.slice(low, low + 1);
      return { kind: "note", pitches, ...timed, tied: false, syllables: wordsFrom(draw) };
    });
    return { kind: "own", events: tiedWithin(events, draw) };
  });
}

function tiedWithin(events: readonly ConcertEvent[], draw: Draws): readonly ConcertEvent[] {
  return events.map((event, index) => {
    const next = events[index + 1];
    const alike = event.kind === "note" && next?.kind === "note" && event.pitches.join() === next.pitches.join();
    return alike && draw.chance(50) ? { ...event, tied: true } : event;
  });
}

/** Whether every event of a bar can be written; holds for all that is drawn here. */
export function isAllWritable(events: readonly (PipeEvent | ConcertEvent)[]): boolean {
  return events.every((event) => isWritable(event.ticks, event.tuplet));
}
