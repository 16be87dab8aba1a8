import { expect, test } from "vitest";
import { PLAYERS, playerOf } from "../../src/ensemble/catalogue.ts";
import { doublingOctave } from "../../src/ensemble/doubling-octave.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";

/** What low G and high A of a B-flat chanter sound. */
const lowest = concertPitch("Ab4");
const highest = concertPitch("Bb5");

// Common practice: brass and saxophones double the pipes an octave below unless asked; a unison trumpet would stand on written C6.
test.each([
  ["fiddle", 0],
  ["flute", 0],
  ["trumpet-bb", -1],
  ["alto-sax", -1],
  ["tenor-sax", -1],
  ["horn-f", -1],
  ["clarinet-bb", 0],
])("%s doubles the pipes %i octaves from where they sound", (id, octaves) => {
  expect(doublingOctave(playerOf(id), lowest, highest)).toBe(octaves);
});

test("whoever can reach all nine notes in some octave is given one in which they do", () => {
  for (const player of PLAYERS) {
    const room = semitoneOf(player.range.highest) - semitoneOf(player.range.lowest);
    const shift = 12 * doublingOctave(player, lowest, highest);
    const inside =
      semitoneOf(lowest) + shift >= semitoneOf(player.range.lowest) && semitoneOf(highest) + shift <= semitoneOf(player.range.highest);
    // An octave can always be found in a range of two octaves and a step: nine notes span a ninth.
    if (room >= 26) expect(inside, player.id).toBe(true);
  }
});
