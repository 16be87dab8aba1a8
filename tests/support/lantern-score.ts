import type { Clef } from "../../src/ensemble/player.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { type ChanterName, defaultSetup } from "../../src/pipes/default-setups.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { transpositionOf } from "../../src/pipes/sounding.ts";
import { readableKey, transposedKey } from "../../src/pitch/key-signature.ts";
import type { ConcertBar, ConcertEvent, PipeBar, PipeEvent } from "../../src/score/bar.ts";
import type { ConcertLine, Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { hertz } from "../../src/units/hertz.ts";
import { ticks } from "../../src/units/ticks.ts";
import { concertNote, frame, gracedNote, pipeNote, rest } from "./written-music.ts";

/** The setup of a named chanter on which every cross-fingering speaks. */
export function fullSetup(chanter: ChanterName): PipeSetup {
  return { ...defaultSetup(chanter), crossFingerings: defaultCrossFingerings(["c-natural", "f-natural", "high-g-sharp"]) };
}

/**
 * Six bars in which almost everything happens that a bar can hold: pickup, repeat with two endings, sections, chords, words, ties over and
 * within bars, a triplet, gracenotes, cross-fingered notes, a cut-off and a strike-in, a change of meter, tempo and key. Pipes, a player
 * who doubles them, and one with a line of his own.
 */
export function lanternScore(chanter: ChanterName = "Bb", doubler = "trumpet-bb", own = "piano"): Score {
  const setup = fullSetup(chanter);
  const { diatonic, chromatic } = transpositionOf(setup);
  const [d, a] = (["D", "A"] as const).map((tonic) => readableKey(transposedKey({ tonic, mode: "major" }, diatonic, chromatic)));
  if (d === undefined || a === undefined) throw new RangeError("two keys");
  const six = { meter: { beats: 6, unit: 8 }, key: a, tempo: { beat: ticks(1440), perMinute: bpm(72) } } as const;
  const frames = [
    frame({ short: ticks(960), key: d }),
    frame({
      key: d,
      section: { name: "Verse", letter: "A" },
      repeatStart: true,
      chords: [chord(0, "Eb"), chord(1920, "Bb7/D"), chord(2400, "Cm7b5")],
    }),
    frame({ key: d, ending: 1, repeatEnd: true, chords: [chord(0, "Absus4"), chord(960, "N.C.")] }),
    frame({ key: d, ending: 2 }),
    frame({ ...six, section: { name: "Chorus & “Out” <1>", letter: "B" }, chords: [chord(0, "Ab6/9"), chord(1440, "F#m(add9)")] }),
    frame(six),
  ];
  return {
    title: "Paper Lantern Weather",
    credits: { composer: "Mairi Quern", arranger: "M. Quern & friends", ensemble: "The Tin Observatory", tuneType: "Slow air" },
    revision: 12,
    bandA: hertz(440),
    frames,
    lines: [
      { kind: "pipes", id: "pipes", name: "Pipes", setup, bars: PIPE_BARS },
      playerLine(
        "doubler",
        doubler,
        frames.map(() => ({ kind: "doubling", of: "pipes", octaves: -1 })),
      ),
      playerLine("own", own, OWN_BARS),
    ],
  };
}

/** A clef's own pitch class of test players: one of each. */
export const PLAYERS_BY_CLEF: Readonly<Record<Clef, string>> = { treble: "fiddle", alto: "viola", bass: "cello" };

const chord = (at: number, symbol: string) => ({ at: ticks(at), symbol });

function playerLine(id: string, player: string, bars: readonly ConcertBar[]): ConcertLine {
  return { kind: "concert", id, name: `The ${player}`, player, bars };
}

const pipeBar = (...events: readonly PipeEvent[]): PipeBar => ({ kind: "pipes", events });
const ownBar = (...events: readonly ConcertEvent[]): ConcertBar => ({ kind: "own", events });

const PIPE_BARS: readonly PipeBar[] = [
  pipeBar(
    pipeNote("low-a", 480, { strikeIn: true, syllables: [{ text: "Pa", hyphen: true }] }),
    pipeNote("d", 480, { syllables: [{ text: "per", hyphen: false }] }),
  ),
  pipeBar(
    gracedNote(["high-g"], "f", 1440),
    pipeNote("c-natural", 240),
    pipeNote("c", 240),
    pipeNote("e", 320, { tuplet: 3 }),
    pipeNote("f", 320, { tuplet: 3 }),
    pipeNote("e", 320, { tuplet: 3 }),
    pipeNote("d", 960),
  ),
  pipeBar(pipeNote("d", 1200), gracedNote(["low-g", "d", "low-g"], "d", 720), pipeNote("high-a", 960, { cutOff: true }), rest(960)),
  pipeBar(pipeNote("f-natural", 960, { strikeIn: true }), pipeNote("high-g-sharp", 1920), pipeNote("high-g", 960)),
  pipeBar(
    pipeNote("e", 720),
    pipeNote("d", 240),
    pipeNote("e", 480),
    pipeNote("f", 720, { tuplet: 2 }),
    pipeNote("e", 720, { tuplet: 2, tied: true }),
  ),
  pipeBar(pipeNote("e", 1440), pipeNote("d", 1440, { cutOff: true })),
];

const OWN_BARS: readonly ConcertBar[] = [
  ownBar(rest(960)),
  ownBar(
    concertNote("Eb4 G4 Bb4", 1920),
    concertNote("F4", 480, {
      syllables: [
        { text: "Ah", hyphen: false },
        { text: "Oh", hyphen: false },
      ],
    }),
    rest(480),
    concertNote("D4 F4", 960),
  ),
  ownBar(concertNote("D4 F4", 960), concertNote("Gb4", 960), concertNote("F#4", 960), concertNote("G4", 960)),
  ownBar(rest(3840)),
  ownBar(concertNote("C4", 1440), concertNote("Db4", 720), concertNote("D4", 240), concertNote("C4 Eb4", 480, { tied: true })),
  ownBar(concertNote("C4 Eb4", 1440), concertNote("Bb3", 1440)),
];
