import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdit, applyEdits } from "../../src/editing/apply-edit.ts";
import { editLabel } from "../../src/editing/edit-label.ts";
import { bandMovedBack, bandMoveInWords, bandMoveOf, editsForSetup } from "../../src/editing/edits-for-setup.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { chordPitchClasses } from "../../src/pitch/chord.ts";
import { fifthsOf, tonicPitchClass } from "../../src/pitch/key-signature.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import type { ConcertNote } from "../../src/score/bar.ts";
import type { Edit } from "../../src/score/edit.ts";
import { newScore } from "../../src/score/new-score.ts";
import type { Score } from "../../src/score/score.ts";
import { hertz } from "../../src/units/hertz.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { draws, scoreFrom } from "../support/random-music.ts";
import { deepFrozen } from "../support/score-laws.ts";
import { concertNote, frame } from "../support/written-music.ts";

const SEED = 20261125;

/** B pipes and a fiddle with one chord and one note a bar, one bar for each key. */
function sketch(bars: readonly { readonly tonic: string; readonly chord: string; readonly note: ConcertNote }[]): Score {
  const score = newScore({ bars: bars.length });
  const [pipes] = score.lines;
  if (pipes?.kind !== "pipes") throw new RangeError("no pipes");
  return {
    ...score,
    frames: bars.map(({ tonic, chord }) =>
      frame({ key: { tonic, mode: "major" }, chords: [{ at: concertNote("A4", 0).ticks, symbol: chord }] }),
    ),
    lines: [
      { ...pipes, setup: defaultSetup("B") },
      { kind: "concert", id: "fiddle", name: "Fiddle", player: "fiddle", bars: bars.map(({ note }) => ({ kind: "own", events: [note] })) },
    ],
  };
}

function applied(score: Score, edits: readonly Edit[]): Score {
  const outcome = applyEdits(score, edits);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

const moved = (first: number, last: number, diatonic: number, chromatic: number): Edit => ({
  kind: "move-band",
  range: { first, last },
  diatonic,
  chromatic,
});
const keys = (score: Score) => score.frames.map(({ key }) => key.tonic);
const chords = (score: Score) => score.frames.map((one) => one.chords.map(({ symbol }) => symbol).join(" "));
const notes = (score: Score) =>
  score.lines.flatMap((line) =>
    line.kind === "pipes"
      ? []
      : line.bars.flatMap((bar) =>
          bar.kind === "own" ? bar.events.map((event) => (event.kind === "note" ? event.pitches.join(" ") : "rest")) : [],
        ),
  );
const E_MAJOR = { tonic: "E", chord: "C#m/G#", note: concertNote("E4 G#4", 3840) };

describe("moving the band", () => {
  it("takes key, chords and own notes along and leaves the pipes and the other bars the very same", () => {
    const score = sketch([E_MAJOR, E_MAJOR]);
    const after = applied(score, [moved(0, 0, -1, -1)]);
    expect(keys(after)).toEqual(["Eb", "E"]);
    expect(chords(after)).toEqual(["Cm/G", "C#m/G#"]);
    expect(notes(after)).toEqual(["Eb4 G4", "E4 G#4"]);
    expect(after.lines[0]).toBe(score.lines[0]);
    expect(after.frames[1]).toBe(score.frames[1]);
    expect(after.lines[1]?.bars[1]).toBe(score.lines[1]?.bars[1]);
  });

  it("spells a key of more than six accidentals anew, and chords and notes with it", () => {
    const after = applied(sketch([E_MAJOR]), [moved(0, 0, 0, -1)]);
    expect([keys(after), chords(after), notes(after)]).toEqual([["Eb"], ["Cm/G"], ["Eb4 G4"]]);
  });

  it("keeps a tie over a change of key in one spelling", () => {
    const held = concertNote("B3", 3840, { tied: true });
    const after = applied(
      sketch([
        { ...E_MAJOR, note: held },
        { tonic: "A", chord: "A", note: concertNote("B3", 3840) },
      ]),
      [moved(0, 1, 0, 1)],
    );
    expect(keys(after)).toEqual(["F", "Bb"]);
    expect(notes(after)).toEqual(["C4", "C4"]);
    expect(after.lines[1]?.bars[0]).toMatchObject({ events: [{ tied: true }] });
  });

  it("refuses pitches that no one plays, and more than two octaves, with a sentence", () => {
    const high = sketch([{ ...E_MAJOR, note: concertNote("B8", 3840) }]);
    expect(applyEdit(high, moved(0, 0, 0, 1))).toEqual({
      ok: false,
      reason: "That would take a note beyond what anyone plays. Move the band the other way.",
    });
    expect(applyEdit(high, moved(0, 0, 21, 36))).toEqual({ ok: false, reason: "The band moves by at most two octaves." });
  });

  it("is called what it is", () => {
    expect(editLabel(moved(0, 0, 1, 2))).toBe("move the band");
  });

  it(
    "up and back gives what sounded before, and no key of more than six accidentals",
    () => {
      const interval = fc.constantFrom([1, 2], [-1, -1], [0, 1], [3, 5], [-4, -7], [2, 3], [3, 6]);
      let tried = 0;
      fc.assert(
        fc.property(draws, interval, (music, [diatonic = 0, chromatic = 0]) => {
          const score = deepFrozen(scoreFrom(music));
          const last = score.frames.length - 1;
          const up = applyEdit(score, moved(0, last, diatonic, chromatic));
          if (!up.ok) return;
          tried += 1;
          for (const { key } of up.value.frames) expect(Math.abs(fifthsOf(key))).toBeLessThanOrEqual(6);
          expect(sounds(applied(up.value, [moved(0, last, -diatonic, -chromatic)]))).toEqual(sounds(score));
          expect(sounds(up.value).keys).toEqual(sounds(score).keys.map((key) => (key + chromatic + 12) % 12));
        }),
        { numRuns: cases(500, 20_000), seed: SEED },
      );
      expect(tried).toBeGreaterThan(cases(500, 20_000) * 0.5);
    },
    PATIENCE,
  );
});

/** What a listener hears of the band, spelling forgotten. */
function sounds(score: Score) {
  return {
    keys: score.frames.map(({ key }) => tonicPitchClass(key)),
    chords: score.frames.map((one) => one.chords.map(({ symbol }) => chordPitchClasses(symbol))),
    notes: score.lines.map((line) =>
      line.kind === "pipes"
        ? line.bars
        : line.bars.map((bar) =>
            bar.kind === "doubling" ? bar : bar.events.map((event) => (event.kind === "rest" ? event : event.pitches.map(semitoneOf))),
          ),
    ),
  };
}

describe("another setup for the pipes", () => {
  const score = sketch([E_MAJOR]);
  const B = defaultSetup("B");

  it("takes the band along by the interval between the chanters", () => {
    const edits = editsForSetup(score, "pipes", defaultSetup("Bb"));
    const move = bandMoveOf(edits);
    if (move === null) throw new RangeError("The band stayed.");
    const after = applied(score, edits);
    expect(keys(after)).toEqual(["Eb"]);
    expect(bandMoveInWords(move, after)).toBe("The band moved with the chanter, a semitone down: E♭ major.");
    expect(keys(applied(after, [bandMovedBack(move)]))).toEqual(["E"]);
  });

  it("moves the band the short way where the new pipes sound an octave lower", () => {
    const small = { ...B, lowA: hertz(220), lowAIs: concertPitch("A3") };
    expect(bandMoveOf(editsForSetup(score, "pipes", small))).toMatchObject({ diatonic: -1, chromatic: -2 });
  });

  it("leaves the band where it is for other hertz, drones or octaves, and for second pipes", () => {
    const same = [
      { ...B, lowA: hertz(490) },
      { ...B, drones: [] },
      { ...B, lowA: hertz(245), lowAIs: concertPitch("B3") },
    ];
    for (const setup of same) expect(editsForSetup(score, "pipes", setup)).toEqual([{ kind: "setup", line: "pipes", setup }]);
    const two = applied(score, [{ kind: "add-pipes", id: "seconds", name: "Seconds", setup: B }]);
    expect(bandMoveOf(editsForSetup(two, "seconds", defaultSetup("Bb")))).toBeNull();
  });
});
