import * as v from "valibot";
import { PLAYERS } from "../ensemble/catalogue.ts";
import { CHANTER_NOTES, CROSS_FINGERED_NOTES, NINE_NOTES } from "../pipes/chanter-note.ts";
import { PLAIN_FINGERINGS } from "../pipes/fingerings.ts";
import { SCALE_NAMES } from "../pipes/scales.ts";
import { LEVEL_REACH, MOST_DULLNESS } from "../pipes/setup-fault.ts";
import { isBandA } from "../pitch/reference-pitch.ts";
import { isConcertPitch } from "../pitch/spelling.ts";
import {
  LONGEST_TEXT,
  MOST_BARS,
  MOST_BEATS,
  MOST_CHORDS,
  MOST_EVENTS,
  MOST_GRACENOTES,
  MOST_LINES,
  MOST_OCTAVES,
  MOST_PITCHES,
  MOST_VERSES,
} from "./limits.ts";

/*
 * The saved form, version 2, as a schema: the score's own types field by field, where a value that is usual may be left out. Each message is what
 * was expected, worded to stand after "expected". Entries that are not known are refused, so that nothing is dropped without a word.
 */

const LONGEST_TICKS = 960 * 4 * MOST_BEATS;

const text = v.pipe(v.string("a text"), v.maxLength(LONGEST_TEXT, `at most ${LONGEST_TEXT} characters`));
const name = v.pipe(text, v.regex(/\S/, "a name"));
const flag = v.optional(v.boolean("true or false"), false);
const ticks = wholeNumber(1, LONGEST_TICKS);
const pitch = v.custom<string>(isConcertPitch, "a concert pitch such as Bb4");
const tuplet = v.optional(v.nullable(v.picklist([3, 2], "3, 2 or null")), null);

const key = v.strictObject({
  tonic: v.pipe(v.string("a letter"), v.regex(/^[A-G][#b]?$/, "a tonic such as E, Bb or C#")),
  mode: v.picklist(["major", "mixolydian", "dorian", "minor"], "major, mixolydian, dorian or minor"),
});

const frame = v.strictObject({
  meter: v.strictObject({ beats: wholeNumber(1, MOST_BEATS), unit: v.picklist([2, 4, 8, 16], "2, 4, 8 or 16") }),
  short: v.optional(v.nullable(ticks), null),
  key,
  tempo: v.strictObject({ beat: ticks, perMinute: number(10, 500, "beats in a minute") }),
  section: v.optional(v.nullable(v.strictObject({ name, letter: v.optional(text, "") })), null),
  tune: v.optional(v.nullable(v.strictObject({ title: name, tuneType: v.optional(text, ""), composer: v.optional(text, "") })), null),
  chords: list(v.strictObject({ at: wholeNumber(0, LONGEST_TICKS), symbol: name }), MOST_CHORDS),
  repeatStart: flag,
  repeatEnd: flag,
  ending: v.optional(v.nullable(v.picklist([1, 2], "1, 2 or null")), null),
});

const rest = v.strictObject({ kind: v.literal("rest"), ticks, tuplet });
const syllables = list(v.strictObject({ text, hyphen: flag }), MOST_VERSES);

const pipeNote = v.strictObject({
  kind: v.literal("note"),
  note: v.picklist(CHANTER_NOTES, "a chanter note such as low-a"),
  ticks,
  tuplet,
  tied: flag,
  gracenotes: list(v.picklist(NINE_NOTES, "one of the nine notes"), MOST_GRACENOTES),
  syllables,
  strikeIn: flag,
  cutOff: flag,
});

const concertNote = v.strictObject({
  kind: v.literal("note"),
  pitches: v.pipe(list(pitch, MOST_PITCHES), v.minLength(1, "at least one pitch")),
  ticks,
  tuplet,
  tied: flag,
  syllables,
});

const pipeBar = v.strictObject({
  kind: v.literal("pipes", "a bar of pipes"),
  events: list(v.variant("kind", [rest, pipeNote], "a note or a rest"), MOST_EVENTS),
});

const concertBar = v.variant(
  "kind",
  [
    v.strictObject({ kind: v.literal("own"), events: list(v.variant("kind", [rest, concertNote], "a note or a rest"), MOST_EVENTS) }),
    v.strictObject({ kind: v.literal("doubling"), of: name, octaves: wholeNumber(-MOST_OCTAVES, MOST_OCTAVES) }),
  ],
  "own or doubling",
);

const cents = number(-10_000, 10_000, "cents");

const setup = v.strictObject({
  lowA: number(1, 20_000, "hertz"),
  lowAIs: pitch,
  scale: v.variant(
    "kind",
    [
      v.strictObject({ kind: v.literal("published"), name: v.picklist(SCALE_NAMES, SCALE_NAMES.join(", ")) }),
      v.strictObject({
        kind: v.literal("measured"),
        cents: v.strictObject({
          "low-g": cents,
          "low-a": cents,
          b: cents,
          c: cents,
          d: cents,
          e: cents,
          f: cents,
          "high-g": cents,
          "high-a": cents,
        }),
      }),
    ],
    "published or measured",
  ),
  fingerings: v.strictObject(Object.fromEntries(NINE_NOTES.map((note) => [note, v.optional(text, PLAIN_FINGERINGS[note])]))),
  crossFingerings: list(
    v.strictObject({
      note: v.picklist(CROSS_FINGERED_NOTES, CROSS_FINGERED_NOTES.join(", ")),
      speaks: v.boolean("true or false"),
      holes: text,
      cents,
      level: number(LEVEL_REACH.lowest, LEVEL_REACH.highest, "dB"),
      dullness: number(0, MOST_DULLNESS, "of dullness"),
    }),
    CROSS_FINGERED_NOTES.length,
  ),
  drones: list(
    v.strictObject({
      name: v.picklist(["tenor", "bass", "baritone"], "tenor, bass or baritone"),
      ratio: v.strictTuple([wholeNumber(1, 1000), wholeNumber(1, 1000)], "two whole numbers"),
      on: v.boolean("true or false"),
    }),
    12,
  ),
  canRest: v.boolean("true or false"),
});

const line = v.variant(
  "kind",
  [
    v.strictObject({ kind: v.literal("pipes"), id: name, name, setup, bars: list(pipeBar, MOST_BARS) }),
    v.strictObject({
      kind: v.literal("concert"),
      id: name,
      name,
      player: v.custom<string>((id) => PLAYERS.some((player) => player.id === id), "a player of the catalogue"),
      bars: list(concertBar, MOST_BARS),
    }),
  ],
  "pipes or concert",
);

/** The saved form without its `format` and `version`. */
export const SAVED_SCORE = v.strictObject({
  title: v.optional(text, ""),
  credits: v.strictObject({
    composer: v.optional(text, ""),
    arranger: v.optional(text, ""),
    ensemble: v.optional(text, ""),
    tuneType: v.optional(text, ""),
  }),
  revision: wholeNumber(0, Number.MAX_SAFE_INTEGER),
  bandA: v.custom<number>((value) => typeof value === "number" && isBandA(value), "a band A in hertz, 380 to 480"),
  frames: v.pipe(list(frame, MOST_BARS), v.minLength(1, "at least one bar")),
  lines: v.pipe(list(line, MOST_LINES), v.minLength(1, "at least one line")),
});

/** What a read score has before it is trusted to be one: plain numbers and texts in the places of branded ones. */
export type SavedScore = v.InferOutput<typeof SAVED_SCORE>;

function wholeNumber(low: number, high: number) {
  const expected = `a whole number, ${low} to ${high}`;
  return v.pipe(v.number(expected), v.integer(expected), v.minValue(low, expected), v.maxValue(high, expected));
}

function number(low: number, high: number, unit: string) {
  const expected = `${low} to ${high} ${unit}`;
  return v.pipe(v.number(expected), v.minValue(low, expected), v.maxValue(high, expected));
}

/** A list that is measured before its entries are looked at; left out, it is empty. */
function list<Item extends v.GenericSchema>(item: Item, most: number) {
  const expected = `at most ${most} entries`;
  return v.optional(v.pipe(v.array(v.unknown(), "a list"), v.maxLength(most, expected), v.array(item)), []);
}
