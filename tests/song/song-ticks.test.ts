import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exactSongTicks, quartersOf, SONG_TICKS_PER_QUARTER, SONG_TICKS_PER_TICK, songTicks } from "../../src/song/song-ticks.ts";
import { TICKS_PER_QUARTER } from "../../src/units/ticks.ts";
import { cases } from "../support/cases.ts";

describe("Song ticks", () => {
  it("are whole numbers for tuplets of every count up to 20, and for tuplets of three and five within tuplets of three, down to 64ths", () => {
    for (let count = 1; count <= 20; count++) expect(exactSongTicks(1, count * 16), `${count}`).not.toBeNull();
    expect(exactSongTicks(1, 3 * 3 * 16)).not.toBeNull();
    expect(exactSongTicks(1, 3 * 5 * 16)).not.toBeNull();
  });

  it("of a tuplet add up to the time it fills, exactly", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 1, max: 64 }), (count, quarters) => {
        const one = exactSongTicks(quarters, count);
        expect((one ?? 0) * count).toBe(quarters * SONG_TICKS_PER_QUARTER);
      }),
      { seed: 5, numRuns: cases(500, 50_000) },
    );
  });

  it("are never near enough: a length they cannot hold is null", () => {
    for (const prime of [23, 29, 25, 49, 1009]) expect(exactSongTicks(1, prime)).toBeNull();
    expect(exactSongTicks(23, 23)).toBe(SONG_TICKS_PER_QUARTER);
    expect(exactSongTicks(-1, 2)).toBeNull();
    expect(exactSongTicks(1, 0)).toBeNull();
    expect(exactSongTicks(1e300, 3)).toBeNull();
  });

  it("divide into a score's ticks without a rest, and come back as quarters", () => {
    expect(Number.isInteger(SONG_TICKS_PER_TICK)).toBe(true);
    expect(SONG_TICKS_PER_TICK * TICKS_PER_QUARTER).toBe(SONG_TICKS_PER_QUARTER);
    expect(quartersOf(songTicks(SONG_TICKS_PER_QUARTER * 3))).toBe(3);
    expect(() => songTicks(0.5)).toThrow(RangeError);
  });

  it("stay exact over 100,000 quarters", () => expect(Number.isSafeInteger(SONG_TICKS_PER_QUARTER * 100_000)).toBe(true));
});
