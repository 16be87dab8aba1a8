import fc from "fast-check";
import { PLAYERS } from "../../src/ensemble/catalogue.ts";
import { CHANTER_NOTES, NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { CHANTER_NAMES } from "../../src/pipes/default-setups.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import type { ConcertBar, ConcertEvent, ConcertNote, PipeBar, PipeEvent, PipeNote, Syllable } from "../../src/score/bar.ts";
import type { Chord, Frame, Meter } from "../../src/score/frame.ts";
import { frameTicks, meterTicks } from "../../src/score/meter.ts";
import { NO_CREDITS } from "../../src/score/new-score.ts";
import type { ConcertLine, PipeLine, Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { hertz } from "../../src/units/hertz.ts";
import { ticks } from "../../src/units/ticks.ts";
import { fullSetup } from "./lantern-score.ts";
import { anyKey, readablePitch } from "./pitches.ts";

/* Scores put together at random from what may be written: every bar filled, every length one that note values show. */

const METERS: readonly Meter[] = [
  { beats: 4, unit: 4 },
  { beats: 3, unit: 4 },
  { beats: 2, unit: 2 },
  { beats: 6, unit: 8 },
  { beats: 7, unit: 8 },
  { beats: 9, unit: 8 },
  { beats: 6, unit: 4 },
  { beats: 5, unit: 16 },
];

/** What a bar is filled with before notes are put in: a straight length, or three in the time of two. */
interface Slot {
  readonly ticks: number;
  readonly tuplet: 3 | null;
}

const SYMBOLS = ["E", "C#m7", "Bb7/D", "F#sus4", "Am(maj7)", "G6/9", "D7#9", "Ebmaj7", "N.C.", "no chord", "Cdim7", "B5"];

/** Random words, with signs that XML has to escape. */
const anyWords = fc.string({ maxLength: 12, unit: "grapheme" });

/** Whether repeats and endings may be anywhere, or nowhere. */
export interface RandomScoreOptions {
  readonly repeats: boolean;
}

/** Any score of one to five bars: a set of pipes, a player who doubles it now and then, and one with a line of his own. */
export function anyScore({ repeats }: RandomScoreOptions): fc.Arbitrary<Score> {
  return fc.array(anyFrame(repeats), { minLength: 1, maxLength: 5 }).chain((frames) => {
    const [first, ...rest] = frames as [Frame, ...Frame[]];
    return fc.boolean().chain((pickup) => {
      const all = pickup ? [{ ...first, short: ticks(240), chords: [] }, ...rest] : frames;
      return fc
        .record({ title: anyWords, pipes: anyPipeLine(all), doubler: anyConcertLine("doubler", all), own: anyConcertLine("own", all) })
        .map(
          ({ title, pipes, doubler, own }): Score => ({
            title,
            credits: { ...NO_CREDITS, composer: title },
            revision: 3,
            bandA: hertz(440),
            frames: all,
            lines: [pipes, doubler, own],
          }),
        );
    });
  });
}

function anyFrame(repeats: boolean): fc.Arbitrary<Frame> {
  const mark = repeats ? fc.boolean() : fc.constant(false);
  return fc.constantFrom(...METERS).chain((meter) =>
    fc.record({
      meter: fc.constant(meter),
      short: fc.constant(null),
      key: anyKey,
      tempo: fc.record({
        beat: fc.constantFrom(ticks(960), ticks(1440), ticks(1920)),
        perMinute: fc.integer({ min: 40, max: 180 }).map(bpm),
      }),
      section: fc.option(fc.record({ name: anyWords, letter: fc.constantFrom("", "A", "B") })),
      tune: fc.option(
        fc.record({ title: anyWords, tuneType: fc.constantFrom("", "March"), composer: fc.constantFrom("", "Mairi Quern") }),
        { freq: 8 },
      ),
      chords: anyChords(meter),
      repeatStart: mark,
      repeatEnd: mark,
      ending: repeats ? fc.constantFrom(null, null, 1 as const, 2 as const) : fc.constant(null),
    }),
  );
}

function anyChords(meter: Meter): fc.Arbitrary<readonly Chord[]> {
  const chord = fc.record({
    at: fc.integer({ min: 0, max: meterTicks(meter) / 240 - 1 }).map((place) => ticks(place * 240)),
    symbol: fc.constantFrom(...SYMBOLS),
  });
  return fc.uniqueArray(chord, { maxLength: 3, selector: ({ at }) => at }).map((chords) => chords.toSorted((a, b) => a.at - b.at));
}

function anyPipeLine(frames: readonly Frame[]): fc.Arbitrary<PipeLine> {
  return fc.record({ chanter: fc.constantFrom(...CHANTER_NAMES), bars: fc.tuple(...frames.map(anyPipeBar)) }).map(
    ({ chanter, bars }): PipeLine => ({
      kind: "pipes",
      id: "pipes",
      name: "Pipes",
      setup: fullSetup(chanter),
      bars: bars.map((bar, index) => untied(bar, bars[index + 1])),
    }),
  );
}

/** No note is tied to one that gracenotes divide from it. */
function untied(bar: PipeBar, next: PipeBar | undefined): PipeBar {
  const events = bar.events.map((event, index) => {
    const after = bar.events[index + 1] ?? next?.events[0];
    return event.kind === "note" && after?.kind === "note" && after.gracenotes.length > 0 ? { ...event, tied: false } : event;
  });
  return { kind: "pipes", events };
}

function anyConcertLine(id: string, frames: readonly Frame[]): fc.Arbitrary<ConcertLine> {
  const doubling: fc.Arbitrary<ConcertBar> = fc.integer({ min: -2, max: 1 }).map((octaves) => ({ kind: "doubling", of: "pipes", octaves }));
  const bars = frames.map((frame) => fc.oneof(doubling, anyOwnBar(frame)));
  return fc
    .record({ player: fc.constantFrom(...PLAYERS.map((player) => player.id)), bars: fc.tuple(...bars) })
    .map(({ player, bars: made }): ConcertLine => ({ kind: "concert", id, name: id, player, bars: made }));
}

function anyPipeBar(frame: Frame): fc.Arbitrary<PipeBar> {
  return anySlots(frame).chain((slots) => fc.tuple(...slots.map(anyPipeEvent)).map((events): PipeBar => ({ kind: "pipes", events })));
}

function anyOwnBar(frame: Frame): fc.Arbitrary<ConcertBar> {
  return anySlots(frame).chain((slots) => fc.tuple(...slots.map(anyConcertEvent)).map((events): ConcertBar => ({ kind: "own", events })));
}

function anyPipeEvent(slot: Slot): fc.Arbitrary<PipeEvent> {
  const note = fc.record({
    kind: fc.constant("note" as const),
    note: fc.constantFrom(...CHANTER_NOTES),
    tied: fc.boolean(),
    gracenotes: fc.oneof(
      { weight: 3, arbitrary: fc.constant([]) },
      { weight: 1, arbitrary: fc.array(fc.constantFrom(...NINE_NOTES), { minLength: 1, maxLength: 5 }) },
    ),
    syllables: anySyllables,
    strikeIn: fc.boolean(),
    cutOff: fc.boolean(),
    ...timeOf(slot),
  }) satisfies fc.Arbitrary<PipeNote>;
  return fc.oneof(
    { weight: 5, arbitrary: note },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant("rest" as const), ...timeOf(slot) }) },
  );
}

function anyConcertEvent(slot: Slot): fc.Arbitrary<ConcertEvent> {
  const pitches = fc
    .uniqueArray(readablePitch, { minLength: 1, maxLength: 3, selector: semitoneOf })
    .map((list) => list.toSorted((a, b) => semitoneOf(a) - semitoneOf(b)));
  const note = fc.record({
    kind: fc.constant("note" as const),
    pitches,
    tied: fc.boolean(),
    syllables: anySyllables,
    ...timeOf(slot),
  }) satisfies fc.Arbitrary<ConcertNote>;
  return fc.oneof(
    { weight: 5, arbitrary: note },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant("rest" as const), ...timeOf(slot) }) },
  );
}

const anySyllables: fc.Arbitrary<readonly Syllable[]> = fc.oneof(
  { weight: 3, arbitrary: fc.constant([]) },
  { weight: 1, arbitrary: fc.array(fc.record({ text: anyWords, hyphen: fc.boolean() }), { minLength: 1, maxLength: 2 }) },
);

function timeOf(slot: Slot) {
  return { ticks: fc.constant(ticks(slot.ticks)), tuplet: fc.constant(slot.tuplet) };
}

/** Lengths that fill a frame: straight ones as they are drawn, now and then a triplet on a beat, what is left over at the end. */
function anySlots(frame: Frame): fc.Arbitrary<readonly Slot[]> {
  const drawn = fc.constantFrom(120, 240, 360, 480, 720, 960, 1200, 1440, 1920, 2880, -320);
  return fc.array(drawn, { minLength: 1, maxLength: 24 }).map((lengths) => {
    const slots: Slot[] = [];
    let left: number = frameTicks(frame);
    for (const length of lengths) {
      const at = frameTicks(frame) - left;
      if (length < 0 && left >= 960 && at % 960 === 0) {
        slots.push(...[320, 320, 320].map((third): Slot => ({ ticks: third, tuplet: 3 })));
        left -= 960;
      } else if (length > 0 && length <= left) {
        slots.push({ ticks: length, tuplet: null });
        left -= length;
      }
    }
    return left === 0 ? slots : [...slots, { ticks: left, tuplet: null }];
  });
}
