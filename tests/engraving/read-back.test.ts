import fc from "fast-check";
import { expect, test } from "vitest";
import { engravedBar } from "../../src/engraving/engrave-part.ts";
import { headDrawing } from "../../src/engraving/head-drawing.ts";
import { screenWidths } from "../../src/engraving/screen-widths.ts";
import { playerOf } from "../../src/ensemble/catalogue.ts";
import { writtenPitchOf } from "../../src/pipes/written-pitch.ts";
import type { ConcertPitch } from "../../src/pitch/concert-pitch.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import type { PipeEvent } from "../../src/score/bar.ts";
import { eventsOf } from "../../src/score/doubling.ts";
import { isPipeNote, type LineNote, soundAlike } from "../../src/score/like-events.ts";
import { newScore } from "../../src/score/new-score.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import type { Line, PipeLine, Score } from "../../src/score/score.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { alterOfHead, glyphs, type ReadHead, readBar, readHead } from "../support/drawing-reading.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { anyScore } from "../support/random-scores.ts";
import { pipeNote } from "../support/written-music.ts";

/** What a player must read for a note, as semitones: as written for the pipes, moved by the instrument's own interval for others. */
function writtenSemitones(line: Line, note: LineNote): readonly number[] {
  if (isPipeNote(note)) return [semitoneOf(writtenPitchOf(note.note) as string as ConcertPitch)];
  const by = line.kind === "concert" ? playerOf(line.player).transposition.chromatic : 0;
  return note.pitches.map((pitch) => semitoneOf(pitch) + by).toSorted((a, b) => a - b);
}

/** Reads a part bar by bar from its ink, and holds what is read against the score. */
function expectReadsBack(score: Score, line: Line, spacing: "desk" | "page"): void {
  const widths = screenWidths(score);
  const understood: Readonly<Record<string, number>> = line.kind === "pipes" ? { C: 1, F: 1 } : {};
  let reading = readHead(headDrawing(score, line, 0, { meter: true, number: false }), understood);
  let held: ReadonlyMap<number, readonly number[]> = new Map();
  let last: LineNote | null = null;
  for (const bar of score.frames.keys()) {
    const place = { spacing, width: widths[bar] as number, firstInSystem: bar === 0, lastInSystem: false } as const;
    const events = placedEvents({ events: eventsOf(score, line, bar) });
    const [first] = events;
    const continues = last?.tied === true && first?.event.kind === "note" && soundAlike(last, first.event);
    const read = readBar(engravedBar(score, line, bar, place), reading, continues ? held : new Map());
    reading = read.reading;
    for (const { at, event } of events) {
      const heads = read.heads.filter((head) => head.at === at);
      if (event.kind === "rest") {
        expect(heads).toEqual([]);
        continue;
      }
      const expected = writtenSemitones(line, event);
      for (const sign of signsOf(heads, expected.length))
        expect(sign.map(({ semitone }) => semitone).toSorted((a, b) => a - b)).toEqual(expected);
      expect(heads.length).toBeGreaterThanOrEqual(expected.length);
    }
    const end = events.at(-1);
    last = end?.event.kind === "note" ? end.event : null;
    held = alterations(read.heads.filter((head) => head.at === end?.at));
  }
}

/** What a note that is held over keeps: the alterations of its heads by their height. */
function alterations(heads: readonly ReadHead[]): ReadonlyMap<number, readonly number[]> {
  const found = new Map<number, readonly number[]>();
  for (const head of heads) found.set(head.step, [...(found.get(head.step) ?? []), alterOfHead(head)]);
  return found;
}

/** An event printed as several tied signs has so many heads again for each. */
function signsOf(heads: readonly ReadHead[], each: number): readonly (readonly ReadHead[])[] {
  expect(heads.length % each).toBe(0);
  return Array.from({ length: heads.length / each }, (_, index) => heads.slice(index * each, (index + 1) * each));
}

test.each(["A", "Bb", "B"] as const)("a %s chanter's parts read back as the score has them", (chanter) => {
  for (const player of ["fiddle", "trumpet-bb", "alto-sax", "horn-f", "viola", "cello", "guitar"]) {
    const score = lanternScore(chanter, player, player);
    for (const line of score.lines) expectReadsBack(score, line, "desk");
  }
});

test.each(["desk", "page"] as const)(
  "any part on the %s reads back, note for note, from its ink alone",
  { timeout: PATIENCE },
  (spacing) => {
    fc.assert(
      fc.property(anyScore({ repeats: true }), (score) => {
        for (const line of score.lines) expectReadsBack(score, line, spacing);
      }),
      { seed: 19_440, numRuns: cases(250, 5_000) },
    );
  },
);

test("a pipe part prints no signature, and no other part more than six accidentals in its own", { timeout: PATIENCE }, () => {
  fc.assert(
    fc.property(anyScore({ repeats: false }), (score) => {
      for (const line of score.lines) {
        const accidentals = headDrawing(score, line, 0, { meter: false, number: false })
          .groups.filter(({ role }) => role === "signature")
          .flatMap(glyphs)
          .filter(({ code }) => code >= 0xe260 && code <= 0xe264);
        expect(accidentals.length).toBeLessThanOrEqual(line.kind === "pipes" ? 0 : 6);
      }
    }),
    { seed: 19_440, numRuns: cases(200, 3_000) },
  );
});

test("a note held over the bar line as several signs puts no accidental in force: the next of its kind has its own again", () => {
  const empty = newScore({ title: "Rain on Tin", bars: 2 });
  const pipes = empty.lines[0] as PipeLine;
  const bars: readonly (readonly PipeEvent[])[] = [
    [pipeNote("b", 1920), pipeNote("f-natural", 1920, { tied: true })],
    // Held on for a half and an eighth.
    [pipeNote("f-natural", 2400), pipeNote("f-natural", 1440)],
  ];
  const line: PipeLine = { ...pipes, bars: bars.map((events) => ({ kind: "pipes", events })) };
  const score = { ...empty, lines: [line] };
  for (const spacing of ["desk", "page"] as const) expectReadsBack(score, line, spacing);
  const drawing = engravedBar(score, line, 1, { spacing: "page", width: 300, firstInSystem: false, lastInSystem: true });
  const naturals = drawing.groups.filter(({ role }) => role === "note").map((group) => glyphs(group).some(({ code }) => code === 0xe261));
  expect(naturals).toEqual([false, false, true]);
});
