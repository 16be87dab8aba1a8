import { copyBars, copyStretch } from "../../src/editing/clip.ts";
import { CHANTER_NOTES, NINE_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { withFingering } from "../../src/pipes/setup-changes.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import type { Address, Moment } from "../../src/score/address.ts";
import type { ConcertEvent, PipeEvent } from "../../src/score/bar.ts";
import type { BarRange, Content, Edit } from "../../src/score/edit.ts";
import type { Frame } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { hertz } from "../../src/units/hertz.ts";
import { ticks } from "../../src/units/ticks.ts";
import { Draws } from "./random-music.ts";

const KINDS: readonly Edit["kind"][] = [
  "place",
  "repitch",
  "resize",
  "move",
  "split",
  "tie",
  "clear",
  "gracenotes",
  "syllables",
  "strike-in",
  "cut-off",
  "hold",
  "paste",
  "insert-bars",
  "insert-clip",
  "remove-bars",
  "title",
  "credits",
  "band-a",
  "meter",
  "pickup",
  "tempo",
  "key",
  "section",
  "tune",
  "chords",
  "repeat",
  "ending",
  "setup",
  "add-pipes",
  "add-player",
  "rename-line",
  "remove-line",
  "double",
  "make-own",
  "move-band",
];
const STEPS = [960, 480, 240, 480, 960, 120, 320, 1920, 1440, 720, 160, 360, 60, 77];
const TEXTS = ["Kettle and Crane", "", " ", "Seconds"];

/** An edit of a score drawn from numbers. Most are of notes; now and then one makes no sense, as a hand may slip. */
export function editFrom(score: Score, numbers: readonly number[]): Edit {
  const draw = new Draws(numbers);
  const kind = draw.chance(50) ? draw.from(KINDS) : draw.from(KINDS.slice(0, 13));
  const line = draw.from(score.lines);
  const content = contentFrom(draw, line);
  const at = addressFrom(draw, score, line);
  const on = draw.chance(50);
  const range = rangeFrom(draw, score);
  switch (kind) {
    case "place":
      return { kind, at, ticks: lengthFrom(draw), tuplet: draw.from([null, null, 3, 2]), content };
    case "repitch":
      return { kind, at, content };
    case "resize":
    case "split":
    case "clear":
      return kind === "clear" ? { kind, from: at, ticks: lengthFrom(draw) } : { kind, at, ticks: lengthFrom(draw) };
    case "move": {
      const target = draw.chance(10) ? draw.from(score.lines) : line;
      return { kind, at, to: addressFrom(draw, score, target), content: contentFrom(draw, target) };
    }
    case "tie":
      return { kind, at, tied: on };
    case "gracenotes":
      return { kind, at, gracenotes: on ? [draw.from(NINE_NOTES)] : [] };
    case "syllables":
      return { kind, at, syllables: on ? [{ text: "storm", hyphen: false }] : [] };
    case "strike-in":
    case "cut-off":
      return { kind, at, on };
    case "hold":
      return { kind, at };
    case "paste": {
      const source = draw.chance(85) ? line : draw.from(score.lines);
      const [from, to] = [momentFrom(draw, score), momentFrom(draw, score)].toSorted(
        (one, other) => one.bar - other.bar || one.at - other.at,
      );
      return { kind, at, clip: copyStretch(score, source.id, from as Moment, to as Moment) };
    }
    case "insert-bars":
      return { kind, before: draw.below(score.frames.length + 2), count: 1 + draw.below(3) };
    case "insert-clip":
      return { kind, before: draw.below(score.frames.length + 1), clip: copyBars(score, range) };
    case "remove-bars":
    case "repeat":
      return kind === "repeat" ? { kind, range, on } : { kind, range };
    case "title":
      return { kind, title: draw.from(TEXTS) };
    case "credits":
      return { kind, credits: { ...score.credits, composer: draw.from(TEXTS) } };
    case "band-a":
      return { kind, bandA: hertz(430 + draw.below(60)) };
    case "meter": {
      const [beats, unit] = draw.from([
        [3, 4],
        [4, 4],
        [6, 8],
        [2, 2],
        [7, 8],
        [12, 16],
        [0, 4],
      ] as const);
      return { kind, range, meter: { beats, unit } };
    }
    case "pickup":
      return { kind, ticks: on ? lengthFrom(draw) : null };
    case "tempo":
      return { kind, range, tempo: { beat: lengthFrom(draw), perMinute: bpm(5 + draw.below(200)) } };
    case "key":
      return { kind, range, key: { tonic: draw.from(["D", "Eb", "G#"]), mode: draw.from(["major", "dorian"] as const) } };
    case "section":
      return { kind, bar: range.first, section: on ? { name: draw.from(TEXTS), letter: "" } : null };
    case "tune":
      return { kind, bar: range.first, tune: on ? { title: draw.from(TEXTS), tuneType: "Reel", composer: "" } : null };
    case "chords":
      return {
        kind,
        bar: range.first,
        chords: [
          { at: ticks(960), symbol: "A" },
          { at: ticks(0), symbol: "F#" },
        ],
      };
    case "ending":
      return { kind, range, ending: draw.from([1, 2, null]) };
    case "setup":
      return { kind, line: line.id, setup: on ? defaultSetup("A") : withFingering(defaultSetup("A"), "d", "X XXX OOOO") };
    case "add-pipes":
      return { kind, id: draw.from(["thirds", "pipes"]), name: "Thirds", setup: defaultSetup("Bb") };
    case "add-player":
      return {
        kind,
        id: "trumpet",
        name: "Trumpet",
        player: draw.from(["trumpet-bb", "kazoo"]),
        doubles: on ? line.id : null,
        octaves: -draw.below(3),
      };
    case "rename-line":
      return { kind, line: line.id, name: draw.from(TEXTS) };
    case "remove-line":
      return { kind, line: line.id };
    case "double":
      return { kind, line: line.id, range, of: draw.from(score.lines).id, octaves: 0 };
    case "make-own":
      return { kind, line: line.id, range };
    case "move-band": {
      const [diatonic, chromatic] = draw.from([
        [0, 1],
        [-1, -1],
        [1, 2],
        [-3, -5],
        [4, 7],
        [-1, 0],
        [7, 12],
        [50, 80],
      ] as const);
      return { kind, range, diatonic, chromatic };
    }
  }
}

function lengthFrom(draw: Draws) {
  return ticks(draw.from(STEPS) * (1 + draw.below(4)));
}

function contentFrom(draw: Draws, line: Line): Content {
  const isPipes = draw.chance(3) ? line.kind !== "pipes" : line.kind === "pipes";
  if (isPipes) return { kind: "pipes", note: draw.from(CHANTER_NOTES) };
  return { kind: "concert", pitches: [concertPitch(draw.from(["E5", "B3"])), concertPitch(draw.from(["G#4", "E5"]))] };
}

function momentFrom(draw: Draws, score: Score): Moment {
  const bar = draw.below(score.frames.length);
  const length = frameTicks(score.frames[bar] as Frame);
  return { bar, at: ticks(Math.min(length - 1, draw.from([0, 480, 960, 240, 320, 1440, 1920, 720, 640, 120, 2880, 50]))) };
}

/** Where an event begins, more often than not a note: a hand that hits nothing tries no edit. */
function addressFrom(draw: Draws, score: Score, line: Line): Address {
  const moment = momentFrom(draw, score);
  const bar = line.bars[moment.bar];
  if (bar === undefined || bar.kind === "doubling" || draw.chance(25)) return { line: line.id, ...moment };
  const events = placedEvents<PipeEvent | ConcertEvent>(bar);
  const notes = events.filter(({ event }) => event.kind === "note");
  const { at } = draw.from(notes.length > 0 && draw.chance(80) ? notes : events);
  return { line: line.id, bar: moment.bar, at };
}

function rangeFrom(draw: Draws, score: Score): BarRange {
  const first = draw.below(score.frames.length);
  return { first, last: Math.min(score.frames.length - 1, first + draw.below(3)) };
}
