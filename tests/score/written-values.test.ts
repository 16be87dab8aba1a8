import { describe, expect, it } from "vitest";
import type { Tuplet } from "../../src/score/bar.ts";
import { isWritable, writtenValues } from "../../src/score/written-values.ts";
import { ticks } from "../../src/units/ticks.ts";
import { frame } from "../support/written-music.ts";

/** Signs as figures: `4.` a dotted quarter, `4~8` a quarter tied to an eighth. Start and length are in eighths. */
function signs(meter: string, from: number, length: number, short: number | null = null, kind: "note" | "rest" = "note"): string {
  const [beats = 4, unit = 4] = meter.split("/").map(Number);
  const bar = frame({ meter: { beats, unit: unit as 2 | 4 | 8 | 16 }, short: short === null ? null : ticks(short * 480) });
  return shown(writtenValues(ticks(from * 480), ticks(length * 480), null, bar, kind));
}

function shown(values: ReturnType<typeof writtenValues>): string {
  return values.map(({ base, dots }) => `${base}${".".repeat(dots)}`).join("~");
}

/* Which sign stands alone and where it is tied follows common engraving practice; no single publication is quoted. */
const TABLE: readonly (readonly [meter: string, from: number, length: number, signs: string])[] = [
  ["4/4", 0, 8, "1"],
  ["4/4", 0, 6, "2."],
  ["4/4", 2, 6, "4~2"],
  ["4/4", 0, 3, "4."],
  ["4/4", 1, 2, "4"],
  ["4/4", 1, 3, "4."],
  ["4/4", 3, 2, "8~8"],
  ["4/4", 3, 5, "8~2"],
  ["4/4", 2, 4, "2"],
  ["4/4", 1, 6, "4.~4."],
  ["4/4", 0, 5, "2~8"],
  ["4/4", 0, 7, "2~4."],
  ["4/4", 0.5, 1, "8"],
  ["4/4", 0.5, 1.5, "8."],
  ["4/4", 1.5, 1, "16~16"],
  ["4/4", 0, 1.25, "8~32"],
  ["3/4", 0, 6, "2."],
  ["3/4", 0, 4, "2"],
  ["3/4", 2, 4, "2"],
  ["3/4", 0, 3, "4."],
  ["3/4", 3, 3, "8~4"],
  ["3/4", 1, 2, "8~8"],
  ["2/4", 0, 4, "2"],
  ["2/4", 0, 3, "4."],
  ["2/4", 1, 2, "4"],
  ["2/4", 1, 3, "4."],
  ["6/8", 0, 6, "2."],
  ["6/8", 0, 3, "4."],
  ["6/8", 0, 4, "4.~8"],
  ["6/8", 0, 5, "4.~4"],
  ["6/8", 1, 2, "4"],
  ["6/8", 2, 2, "8~8"],
  ["6/8", 1.5, 1.5, "8."],
  ["6/8", 0, 1.5, "8."],
  ["9/8", 0, 9, "2.~4."],
  ["9/8", 0, 6, "2."],
  ["9/8", 3, 6, "2."],
  ["9/8", 2, 4, "8~4."],
  ["2/2", 0, 8, "1"],
  ["2/2", 0, 6, "2."],
  ["2/2", 3, 2, "8~8"],
  ["3/2", 0, 12, "1."],
  ["3/2", 0, 8, "1"],
  ["3/2", 4, 8, "1"],
  ["3/2", 0, 6, "2."],
  ["3/2", 2, 4, "4~4"],
  ["6/4", 0, 12, "1."],
  ["6/4", 0, 6, "2."],
  ["6/4", 0, 8, "2.~4"],
  ["6/4", 2, 4, "2"],
  ["6/4", 4, 4, "4~4"],
  ["5/4", 0, 10, "2.~2"],
  ["5/4", 0, 8, "2.~4"],
  ["5/4", 4, 4, "4~4"],
  ["5/4", 6, 4, "2"],
  ["7/8", 0, 7, "2~4."],
  ["7/8", 0, 4, "2"],
  ["7/8", 2, 5, "4~4."],
  ["7/8", 4, 3, "4."],
  ["7/8", 1, 2, "8~8"],
  ["12/16", 0, 6, "2."],
  ["12/16", 0, 1.5, "8."],
  ["12/16", 0, 3, "4."],
  ["12/16", 1.5, 3, "8.~8."],
  ["12/16", 0.5, 1, "8"],
];

describe("written values", () => {
  for (const [meter, from, length, expected] of TABLE) {
    it(`in ${meter} show ${length} eighths from ${from} as ${expected}`, () => {
      expect(signs(meter, from, length)).toBe(expected);
    });
  }

  const rests: readonly (readonly [meter: string, from: number, length: number, signs: string])[] = [
    ["4/4", 0, 8, "1"],
    ["4/4", 0, 6, "2~4"],
    ["4/4", 2, 6, "4~2"],
    ["4/4", 2, 4, "4~4"],
    ["4/4", 1, 2, "8~8"],
    ["4/4", 1, 3, "8~4"],
    ["4/4", 0.5, 1.5, "16~8"],
    ["3/4", 0, 4, "4~4"],
    ["3/4", 2, 4, "4~4"],
    ["6/8", 0, 3, "4."],
    ["6/8", 0, 2, "4"],
    ["6/8", 1, 2, "8~8"],
    ["6/8", 1, 5, "8~8~4."],
    ["9/8", 3, 6, "2."],
    ["7/8", 0, 4, "4~4"],
  ];
  for (const [meter, from, length, expected] of rests) {
    it(`of rests in ${meter} show ${length} eighths from ${from} as ${expected}`, () => {
      expect(signs(meter, from, length, null, "rest")).toBe(expected);
    });
  }

  it("lean a short pickup on the bar after it, and a longer short bar on its own beginning", () => {
    expect(signs("3/2", 0, 5, 5)).toBe("8~2");
    expect(signs("4/4", 0, 6, 6)).toBe("2.");
    expect(signs("6/8", 0, 1, 1)).toBe("8");
    expect(signs("6/8", 0, 5, 5)).toBe("4.~4");
  });

  const tuplets: readonly (readonly [length: number, tuplet: Tuplet, signs: string])[] = [
    [320, 3, "8"],
    [640, 3, "4"],
    [160, 3, "16"],
    [480, 3, "8."],
    [1280, 3, "2"],
    [80, 3, "32"],
    [720, 2, "8"],
    [360, 2, "16"],
    [1440, 2, "4"],
  ];
  for (const [length, tuplet, expected] of tuplets) {
    it(`show ${length} ticks in a group of ${tuplet} as ${expected}, lasting ${length} ticks`, () => {
      const values = writtenValues(ticks(0), ticks(length), tuplet, frame({ meter: { beats: 6, unit: 8 } }));
      expect(shown(values)).toBe(expected);
      expect(values.reduce((sum, value) => sum + value.ticks, 0)).toBe(length);
    });
  }

  it("fill any multiple of 60 ticks from 120 on, anywhere in any meter", () => {
    for (const meter of [
      [4, 4],
      [3, 4],
      [6, 8],
      [9, 8],
      [3, 2],
      [5, 4],
      [7, 8],
      [12, 16],
    ] as const) {
      const bar = frame({ meter: { beats: meter[0], unit: meter[1] } });
      const whole = (meter[0] * 3840) / meter[1];
      for (let from = 0; from < whole; from += 60) {
        for (let length = 120; from + length <= whole; length += 60) {
          const values = writtenValues(ticks(from), ticks(length), null, bar);
          expect(values.reduce((sum, value) => sum + value.ticks, 0)).toBe(length);
        }
      }
    }
  });

  it("show nothing for what is shorter than a 32nd", () => {
    expect(writtenValues(ticks(0), ticks(60), null, frame())).toEqual([]);
    expect(isWritable(60, null)).toBe(false);
    expect(isWritable(180, null)).toBe(true);
    expect(isWritable(77, null)).toBe(false);
    expect(isWritable(320, null)).toBe(false);
    expect(isWritable(320, 3)).toBe(true);
  });
});
