import { describe, expect, test } from "vitest";
import { chordsFromText, textOfChords } from "../../src/score/chord-text.ts";
import type { Frame, Meter } from "../../src/score/frame.ts";
import { newScore } from "../../src/score/new-score.ts";
import { ticks } from "../../src/units/ticks.ts";

function frames(count: number, meter: Meter = { beats: 4, unit: 4 }): readonly Frame[] {
  return newScore({ bars: count, meter }).frames;
}

describe("chords as a band leader scribbles them", () => {
  test("one mark a beat, a dot holds, a bar line ends the bar", () => {
    const read = chordsFromText("E . A . | C#m", frames(2));
    expect(read).toEqual({
      ok: true,
      value: [
        [
          { at: 0, symbol: "E" },
          { at: 1920, symbol: "A" },
        ],
        [{ at: 0, symbol: "C#m" }],
      ],
    });
  });

  test("in 6/8 the beats are the two dotted quarters", () => {
    const read = chordsFromText("Bm F♯7", frames(1, { beats: 6, unit: 8 }));
    expect(read).toEqual({
      ok: true,
      value: [
        [
          { at: 0, symbol: "Bm" },
          { at: 1440, symbol: "F#7" },
        ],
      ],
    });
  });

  test("flats written as signs or letters are the same chord", () => {
    expect(chordsFromText("E♭ B♭7", frames(1))).toEqual(chordsFromText("Eb Bb7", frames(1)));
  });

  test.each([
    ["E | A | B", 2, "There are chords for 3 bars here, and 2 are chosen."],
    ["E A B C D", 1, "“E A B C D” has 5 marks for a bar of 4 beats."],
    ["E Hm", 1, "“Hm” is no chord that can be read. Chords look like E, C♯m, F♯7, B/D♯."],
  ])("%s is refused with the reason", (text, bars, reason) => {
    expect(chordsFromText(text, frames(bars))).toEqual({ ok: false, reason });
  });

  test("the text of chords read again gives the same chords", () => {
    for (const text of ["E . A . | C♯m", "B♭ | . . E♭m", "D/F♯ . . G", ""]) {
      const bare = frames(2);
      const read = chordsFromText(text, bare);
      if (!read.ok) throw new Error(read.reason);
      const chorded = bare.map((frame, bar) => ({ ...frame, chords: read.value[bar] ?? [] }));
      expect(chordsFromText(textOfChords(chorded), bare)).toEqual(read);
    }
  });

  test("a chord that stands off the beat is shown on the beat it is in", () => {
    const [frame] = frames(1);
    if (frame === undefined) throw new Error("no frame");
    expect(textOfChords([{ ...frame, chords: [{ at: ticks(1200), symbol: "A" }] }])).toBe(". A");
  });
});
