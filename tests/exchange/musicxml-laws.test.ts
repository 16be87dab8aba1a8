import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { musicxmlOfPart, musicxmlOfScore } from "../../src/exchange/musicxml-score.ts";
import { isPipeNote } from "../../src/score/like-events.ts";
import { frameTicks } from "../../src/score/meter.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { expectHeard } from "../support/heard.ts";
import { HAS_SCHEMA, SCHEMA_NOTE, schemaFaults } from "../support/musicxml-schema.ts";
import { draws, scoreFrom } from "../support/random-music.ts";
import { anyScore } from "../support/random-scores.ts";
import { soundOfMusicxml } from "../support/verovio-reading.ts";
import { xmlReading } from "../support/xml-reading.ts";

const SEED = 2026_11_25;

/** Ticks of each measure of the first part, from the text alone. */
function measureTicks(musicxml: string): readonly number[] {
  return musicxml
    .split("<measure ")
    .slice(1)
    .map((measure) => {
      const notes = measure.split(/(?=<note>|<forward>)/).slice(1);
      return notes
        .filter((note) => !note.includes("<chord/>"))
        .reduce((sum, note) => sum + Number(/<duration>(\d+)</.exec(note)?.[1] ?? 0), 0);
    });
}

function gracenoteCount(line: Line): number {
  if (line.kind !== "pipes") return 0;
  return line.bars
    .flatMap(({ events }) => events)
    .reduce((sum, event) => sum + (event.kind === "note" && isPipeNote(event) ? event.gracenotes.length : 0), 0);
}

/** Verovio gives a bar's rest, when it is repeated, the length of whatever meter was in force last: nothing to be learnt about our files. */
function repeatsOverMeters({ frames }: Score): boolean {
  const meters = new Set(frames.map(({ meter }) => `${meter.beats}/${meter.unit}`));
  return meters.size > 1 && frames.some(({ repeatEnd }) => repeatEnd);
}

describe("MusicXML of any score", () => {
  it.skipIf(!HAS_SCHEMA)(`is valid by the 4.0 schema${SCHEMA_NOTE}`, { timeout: PATIENCE }, () => {
    fc.assert(
      fc.property(anyScore({ repeats: true }), (score) => {
        expect(schemaFaults(musicxmlOfScore(score))).toEqual([]);
        for (const line of score.lines) expect(schemaFaults(musicxmlOfPart(score, line, { charts: "every-note" }))).toEqual([]);
      }),
      { seed: SEED, numRuns: cases(60, 3000) },
    );
  });

  it("has measures whose lengths are those of the score's bars, and every gracenote", { timeout: PATIENCE }, () => {
    fc.assert(
      fc.property(anyScore({ repeats: true }), (score) => {
        for (const line of score.lines) {
          const text = musicxmlOfPart(score, line);
          expect(measureTicks(text)).toEqual(score.frames.map(frameTicks));
          expect(xmlReading(text).count("//note[grace]")).toBe(gracenoteCount(line));
        }
      }),
      { seed: SEED, numRuns: cases(60, 3000) },
    );
  });

  it("sounds, to another reader, what is drawn for the edits' laws: duplets, parted triplets, repeats", { timeout: PATIENCE }, async () => {
    await fc.assert(
      fc.asyncProperty(draws, async (numbers) => {
        const score = scoreFrom(numbers);
        fc.pre(!repeatsOverMeters(score));
        const heard = await soundOfMusicxml(musicxmlOfScore(score));
        for (const [index, line] of score.lines.entries()) expectHeard(heard[index], score, line);
      }),
      { seed: SEED, numRuns: cases(30, 1500) },
    );
  });

  it("sounds, to another reader, the score's own pitches, onsets and lengths", { timeout: PATIENCE }, async () => {
    await fc.assert(
      fc.asyncProperty(anyScore({ repeats: false }), async (score: Score) => {
        const heard = await soundOfMusicxml(musicxmlOfScore(score));
        for (const [index, line] of score.lines.entries()) expectHeard(heard[index], score, line);
      }),
      { seed: SEED, numRuns: cases(30, 1500) },
    );
  });
});
