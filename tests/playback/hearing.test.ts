import { expect, test } from "vitest";
import { EXPOSURES, longestExposure } from "../../src/playback/hearing.ts";

/** `3 minutes 45 seconds` in seconds; quarters and halves as they are printed. */
function secondsIn(words: string): number {
  const units: Readonly<Record<string, number>> = { hour: 3600, minute: 60, second: 1 };
  return [...words.matchAll(/(\d+)(½)? (hour|minute|second)s?/g)].reduce(
    (sum, [, count, half, unit]) => sum + (Number(count) + (half ? 0.5 : 0)) * (units[unit as string] as number),
    0,
  );
}

test("every row keeps the rule of NIOSH 98-126: 85 dB(A) for 8 hours, half the time for every 3 dB more, to 1 percent", () => {
  for (const { level, time } of EXPOSURES) {
    expect(Math.abs(secondsIn(time) / longestExposure(level) - 1)).toBeLessThan(0.01);
  }
});

test("the published rows are those from 85 to 100 dB(A)", () => {
  expect(EXPOSURES.filter(({ from }) => from === "published").map(({ level }) => level)).toEqual([85, 88, 91, 94, 97, 100]);
});
