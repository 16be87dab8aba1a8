import { NINE_NOTES } from "../pipes/chanter-note.ts";
import { PLAIN_FINGERINGS } from "../pipes/fingerings.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { assertNever } from "../units/assert-never.ts";
import type { ConcertBar, PipeBar, Syllable } from "./bar.ts";
import type { Frame } from "./frame.ts";
import type { LineEvent } from "./like-events.ts";
import type { Line, Score } from "./score.ts";

/** The version of the saved form that is written. */
export const SAVED_VERSION = 2;

/*
 * Entries are written in one fixed order, and those that are usual (false, null, empty) are left out, so that a saved sketch is small, can be
 * read by eye, and two versions of it can be compared line by line.
 */

/** The whole saved form. */
export function writeScore(score: Score): string {
  const head = [
    ["format", "ninefold"],
    ["version", SAVED_VERSION],
    ["title", score.title],
    ["credits", creditsOf(score)],
    ["revision", score.revision],
    ["bandA", score.bandA],
  ].map(([key, value]) => `${JSON.stringify(key)}: ${JSON.stringify(value)}`);
  const frames = `"frames": ${rows(score.frames.map(frameOf))}`;
  const lines = `"lines": [\n${score.lines.map(lineText).join(",\n")}\n]`;
  return `{\n${[...head, frames, lines].join(",\n")}\n}\n`;
}

/** A list with one entry a line. */
function rows(entries: readonly object[]): string {
  return `[\n${entries.map((entry) => JSON.stringify(entry)).join(",\n")}\n]`;
}

function lineText(line: Line): string {
  const head =
    line.kind === "pipes"
      ? { kind: line.kind, id: line.id, name: line.name, setup: setupOf(line.setup) }
      : { kind: line.kind, id: line.id, name: line.name, player: line.player };
  return `${JSON.stringify(head).slice(0, -1)},"bars": ${rows(line.bars.map(barOf))}}`;
}

function creditsOf({ credits: { composer, arranger, ensemble, tuneType } }: Score): object {
  return { composer, arranger, ensemble, tuneType };
}

function frameOf(frame: Frame): object {
  return {
    meter: { beats: frame.meter.beats, unit: frame.meter.unit },
    ...(frame.short === null ? {} : { short: frame.short }),
    key: { tonic: frame.key.tonic, mode: frame.key.mode },
    tempo: { beat: frame.tempo.beat, perMinute: frame.tempo.perMinute },
    ...(frame.section === null ? {} : { section: { name: frame.section.name, letter: frame.section.letter } }),
    ...(frame.tune === null ? {} : { tune: { title: frame.tune.title, tuneType: frame.tune.tuneType, composer: frame.tune.composer } }),
    ...(frame.chords.length === 0 ? {} : { chords: frame.chords.map(({ at, symbol }) => ({ at, symbol })) }),
    ...(frame.repeatStart ? { repeatStart: true } : {}),
    ...(frame.repeatEnd ? { repeatEnd: true } : {}),
    ...(frame.ending === null ? {} : { ending: frame.ending }),
  };
}

function setupOf(setup: PipeSetup): object {
  const { lowA, lowAIs, scale, fingerings, crossFingerings, drones, canRest } = setup;
  const own = NINE_NOTES.filter((note) => fingerings[note] !== PLAIN_FINGERINGS[note]);
  return {
    lowA,
    lowAIs,
    scale:
      scale.kind === "published"
        ? { kind: scale.kind, name: scale.name }
        : { kind: scale.kind, cents: Object.fromEntries(NINE_NOTES.map((note) => [note, scale.cents[note]])) },
    fingerings: Object.fromEntries(own.map((note) => [note, fingerings[note]])),
    crossFingerings: crossFingerings.map(({ note, speaks, holes, cents, level, dullness }) => ({
      note,
      speaks,
      holes,
      cents,
      level,
      dullness,
    })),
    drones: drones.map(({ name, ratio, on }) => ({ name, ratio, on })),
    canRest,
  };
}

function barOf(bar: PipeBar | ConcertBar): object {
  switch (bar.kind) {
    case "pipes":
    case "own":
      return { kind: bar.kind, events: bar.events.map(eventOf) };
    case "doubling":
      return { kind: bar.kind, of: bar.of, octaves: bar.octaves };
    default:
      return assertNever(bar);
  }
}

function eventOf(event: LineEvent): object {
  const timed = { ticks: event.ticks, ...(event.tuplet === null ? {} : { tuplet: event.tuplet }) };
  if (event.kind === "rest") return { kind: event.kind, ...timed };
  const sung = {
    ...(event.tied ? { tied: true } : {}),
    ...(event.syllables.length === 0 ? {} : { syllables: event.syllables.map(syllableOf) }),
  };
  if (!("note" in event)) return { kind: event.kind, pitches: event.pitches, ...timed, ...sung };
  return {
    kind: event.kind,
    note: event.note,
    ...timed,
    ...sung,
    ...(event.gracenotes.length === 0 ? {} : { gracenotes: event.gracenotes }),
    ...(event.strikeIn ? { strikeIn: true } : {}),
    ...(event.cutOff ? { cutOff: true } : {}),
  };
}

function syllableOf({ text, hyphen }: Syllable): object {
  return hyphen ? { text, hyphen } : { text };
}
