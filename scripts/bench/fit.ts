import { fitLine } from "../../src/arranging/fit-line.ts";
import { rankSetups } from "../../src/arranging/rank-setups.ts";
import { playerOf } from "../../src/ensemble/catalogue.ts";
import { CROSS_FINGERED_NOTES } from "../../src/pipes/chanter-note.ts";
import { CHANTER_NAMES, defaultSetup } from "../../src/pipes/default-setups.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";
import { hertz } from "../../src/units/hertz.ts";
import { songNotes } from "../../tests/support/tune-notes.ts";
import { median, milliseconds } from "./statistics.ts";
import type { Row } from "./table.ts";

const RUNS = 15;
const BAND = ["trumpet-bb", "fiddle", "guitar"].map(playerOf);
const KEY = { tonic: "D", mode: "major" } as const;
const SETUPS: readonly PipeSetup[] = [...CHANTER_NAMES, hertz(478)].map((chanter) =>
  CROSS_FINGERED_NOTES.reduce((setup, note) => withCrossFingering(setup, note, { speaks: true }), defaultSetup(chanter)),
);

/** A tune of 20 semitones in steps and leaps with a rest after every 16 notes, so that no chanter has all of it: the same each time. */
function tuneOf(notes: number): ReturnType<typeof songNotes> {
  const steps = [0, 2, 4, 5, 7, 9, 11, 12, 14, 16, 17, 19];
  return songNotes(
    Array.from({ length: notes }, (_, at) => `${62 + (steps[(at * at + 3 * at) % 12] ?? 0)}${at % 16 === 15 ? " -" : ""}`).join(" "),
  );
}

/** Every setup in every key ranked, and the best one fitted: 1,000 notes and 2,000. */
export async function fit(): Promise<Row[]> {
  const [short, long] = [tuneOf(1000), tuneOf(2000)];
  timeOf(short);
  const [one, two] = [median(Array.from({ length: RUNS }, () => timeOf(short))), median(Array.from({ length: RUNS }, () => timeOf(long)))];
  return [
    {
      what: `every setup of 4 chanters and key ranked, best fitted, 1,000 notes (median of ${RUNS})`,
      value: milliseconds(one),
      goal: "50 ms",
    },
    { what: "the same with 2,000 notes, times as long", value: (two / one).toFixed(2), goal: "2 (linear)" },
  ];
}

function timeOf(notes: ReturnType<typeof songNotes>): number {
  const begun = performance.now();
  const best = rankSetups({ notes, key: KEY, setups: SETUPS, band: BAND })[0];
  if (!best) throw new Error("Nothing was ranked.");
  fitLine({ notes, bars: [], chords: [], key: KEY, setup: best.setup, semitones: best.semitones });
  return performance.now() - begun;
}
