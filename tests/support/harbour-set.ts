import { defaultSetup } from "../../src/pipes/default-setups.ts";
import type { ConcertBar, ConcertEvent, PipeBar, PipeEvent } from "../../src/score/bar.ts";
import type { Frame, Tune } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";
import { NO_CREDITS } from "../../src/score/new-score.ts";
import type { Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { hertz } from "../../src/units/hertz.ts";
import { ticks } from "../../src/units/ticks.ts";
import { concertNote, frame, gracedNote, pipeNote, rest } from "./written-music.ts";

/*
 * A set of three tunes as pipers play them, for whatever is said of pages:
 *   bars  0-17  a march in two repeated parts of eight bars, each with its pickup (bars 0 and 9)
 *   bars 18-35  a strathspey in two parts, each with a first and a second ending; cut off at its end
 *   bars 36-47  twelve bars in which the fiddle plays alone
 *   bars 48-63  a jig in two repeated parts, in another key and meter, struck in anew
 * The trumpet waits for the jig.
 */

const MARCH: Partial<Frame> = { meter: { beats: 2, unit: 4 }, tempo: { beat: ticks(960), perMinute: bpm(84) } };
const STRATHSPEY: Partial<Frame> = { tempo: { beat: ticks(960), perMinute: bpm(124) } };
const ALONE: Partial<Frame> = { tempo: { beat: ticks(960), perMinute: bpm(96) } };
const JIG: Partial<Frame> = {
  meter: { beats: 6, unit: 8 },
  tempo: { beat: ticks(1440), perMinute: bpm(108) },
  key: { tonic: "Ab", mode: "major" },
};

export const HARBOUR_TUNES: readonly Tune[] = [
  { title: "The Lighthouse Keeper’s March", tuneType: "March", composer: "Mairi Quern" },
  { title: "Rain on the Slip", tuneType: "Strathspey", composer: "Osk Tamsin" },
  { title: "Nine Pegs", tuneType: "Jig", composer: "" },
];

type Bar = readonly [frame: Partial<Frame>, events: readonly PipeEvent[], fiddle?: readonly ConcertEvent[]];

const tuneAt = (index: number): Partial<Frame> => ({ tune: HARBOUR_TUNES[index] as Tune });
const letter = (name: string): Partial<Frame> => ({ section: { name: "", letter: name } });

const MARCH_BARS: readonly (readonly PipeEvent[])[] = [
  [gracedNote(["high-g"], "low-a", 720), pipeNote("b", 240), gracedNote(["high-g", "d"], "c", 480), pipeNote("e", 480)],
  [gracedNote(["high-g"], "f", 720), pipeNote("e", 240), gracedNote(["high-g", "b", "d"], "b", 480), pipeNote("low-a", 480)],
  [gracedNote(["high-g", "c", "d"], "c", 720), pipeNote("d", 240), gracedNote(["high-g"], "e", 480), gracedNote(["low-a"], "e", 480)],
  [gracedNote(["low-g", "d", "c"], "d", 480), pipeNote("f", 480), gracedNote(["high-g"], "e", 480), pipeNote("c", 480)],
];

const POINTED = (["low-a", "c", "f", "b"] as const).flatMap((note): readonly PipeEvent[] => [
  gracedNote(["high-g"], note, 720),
  pipeNote("e", 240),
]);

const TO_A: readonly PipeEvent[] = [
  gracedNote(["low-g", "d", "c"], "d", 720),
  pipeNote("f", 240),
  gracedNote(["high-g"], "e", 960),
  gracedNote(["high-g"], "low-a", 1920),
];

const FIDDLE: readonly ConcertEvent[] = ["Bb4", "C5", "Eb5", "F5", "D5", "Bb4"].map((pitch, index) =>
  concertNote(pitch, index === 2 || index === 5 ? 960 : 480),
);

const JIG_BAR: readonly PipeEvent[] = [
  gracedNote(["high-g"], "low-a", 480),
  pipeNote("b", 480),
  pipeNote("c", 480),
  gracedNote(["high-g"], "e", 960),
  pipeNote("c", 480),
];

function marchPart(part: number): readonly Bar[] {
  const pickup = pipeNote("e", 480, { strikeIn: part === 0 });
  return [
    [{ ...MARCH, short: ticks(480), ...(part === 0 ? tuneAt(0) : {}) }, [pickup]],
    ...Array.from({ length: 7 }, (_, bar): Bar => {
      const first = bar === 0 ? { repeatStart: true, chords: [{ at: ticks(0), symbol: "Eb" }], ...letter("AB".charAt(part)) } : {};
      return [{ ...MARCH, ...first }, MARCH_BARS[bar % 4] as readonly PipeEvent[]];
    }),
    [{ ...MARCH, short: ticks(1440), repeatEnd: true }, [gracedNote(["high-g"], "low-a", 960), pipeNote("low-a", 480)]],
  ];
}

function strathspeyPart(part: number): readonly Bar[] {
  return [
    ...Array.from(
      { length: 7 },
      (_, bar): Bar => [{ ...STRATHSPEY, repeatStart: bar === 0, ...(part === 0 && bar === 0 ? tuneAt(1) : {}) }, POINTED],
    ),
    [{ ...STRATHSPEY, ending: 1, repeatEnd: true }, TO_A],
    [{ ...STRATHSPEY, ending: 2 }, part === 1 ? cutOff(TO_A) : TO_A],
  ];
}

function alone(): readonly Bar[] {
  return Array.from(
    { length: 12 },
    (_, bar): Bar => [{ ...ALONE, section: bar === 0 ? { name: "Fiddle alone", letter: "C" } : null }, [rest(3840)], FIDDLE],
  );
}

function jigPart(part: number): readonly Bar[] {
  return Array.from({ length: 8 }, (_, bar): Bar => {
    const first = bar !== 0 ? {} : part === 0 ? tuneAt(2) : { section: { name: "Second part", letter: "" } };
    const events = part === 0 && bar === 0 ? struckIn(JIG_BAR) : part === 1 && bar === 7 ? cutOff(JIG_BAR) : JIG_BAR;
    return [{ ...JIG, repeatStart: bar === 0, repeatEnd: bar === 7, ...first }, events];
  });
}

function struckIn(events: readonly PipeEvent[]): readonly PipeEvent[] {
  return events.map((event, index) => (event.kind === "note" && index === 0 ? { ...event, strikeIn: true } : event));
}

function cutOff(events: readonly PipeEvent[]): readonly PipeEvent[] {
  return events.map((event, index) => (event.kind === "note" && index === events.length - 1 ? { ...event, cutOff: true } : event));
}

/** The whole set: pipes on a B flat chanter, a fiddle that doubles them where it is not alone, a trumpet. */
export function harbourSet(): Score {
  const bars = [...marchPart(0), ...marchPart(1), ...strathspeyPart(0), ...strathspeyPart(1), ...alone(), ...jigPart(0), ...jigPart(1)];
  const frames = bars.map(([own]) => frame(own));
  const doubling: ConcertBar = { kind: "doubling", of: "pipes", octaves: 0 };
  return {
    title: "The Harbour Light Set",
    credits: { ...NO_CREDITS, ensemble: "The Tin Observatory" },
    revision: 4,
    bandA: hertz(440),
    frames,
    lines: [
      {
        kind: "pipes",
        id: "pipes",
        name: "Pipes",
        setup: defaultSetup("Bb"),
        bars: bars.map(([, events]): PipeBar => ({ kind: "pipes", events })),
      },
      {
        kind: "concert",
        id: "fiddle",
        name: "Fiddle",
        player: "fiddle",
        bars: bars.map(([, , fiddle]): ConcertBar => (fiddle === undefined ? doubling : { kind: "own", events: fiddle })),
      },
      {
        kind: "concert",
        id: "trumpet",
        name: "Trumpet",
        player: "trumpet-bb",
        bars: frames.map(
          (one, bar): ConcertBar => (bar < 48 ? { kind: "own", events: [rest(frameTicks(one))] } : { ...doubling, octaves: -1 }),
        ),
      },
    ],
  };
}
