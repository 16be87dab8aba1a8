import { describe, expect, it } from "vitest";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { isLowA, lowACalled, lowANamesNear } from "../../src/pipes/low-a.ts";
import { usualLowAName } from "../../src/pipes/low-a-name.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { lowASentence as sentence } from "../../src/pipes/pitch-sentences.ts";
import { withChanter, withLowA, withName, withScale } from "../../src/pipes/setup-changes.ts";
import { bandAToMatch, lowACentsOff, lowAFromTuner, otherWay } from "../../src/pipes/tempering.ts";
import { USUAL_BAND_A } from "../../src/pitch/reference-pitch.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import { hertz } from "../../src/units/hertz.ts";

const A440 = USUAL_BAND_A;
/** With ordinary spaces: those between A and its hertz do not break. */
const lowASentence = (...given: Parameters<typeof sentence>) => sentence(...given).replaceAll("\u00a0", " ");
const at = (lowA: number, name: string): PipeSetup => ({ ...defaultSetup(hertz(lowA)), lowAIs: concertPitch(name) });

describe("a low A of 480 Hz", () => {
  const setup = defaultSetup(hertz(480));

  it("is B flat 4 and 50.6 cents sharp at A 440; a band at A 453.06 has it exactly", () => {
    expect(setup.lowAIs).toBe("Bb4");
    expect(lowACentsOff(setup, A440)).toBeCloseTo(50.6, 1);
    expect(bandAToMatch(setup)).toBeCloseTo(453.06, 2);
  });

  it("is, the other way, B4 and 49.4 cents flat; a band at A 427.63 has that", () => {
    const other = otherWay(setup, A440);
    expect(other?.concert).toBe("B4");
    expect(other?.cents).toBeCloseTo(-49.4, 1);
    expect(other?.bandAToMatch).toBeCloseTo(427.63, 2);
  });

  it("called B has B flat as the other way", () => {
    const other = otherWay(at(480, "B4"), A440);
    expect(other?.concert).toBe("Bb4");
    expect(other?.cents).toBeCloseTo(50.6, 1);
    expect(other?.bandAToMatch).toBeCloseTo(453.06, 2);
  });

  it("is what a tuner set to 453.06 reads as B flat (P. McLaurin's articles: pipers quote either)", () => {
    expect(lowAFromTuner(hertz(453.06), concertPitch("Bb4"))).toBeCloseTo(480.0, 1);
  });
});

describe("the other way", () => {
  it("is offered from 5 cents off, and not within", () => {
    const off = (cents: number) => at(466.1637615 * 2 ** (cents / 1200), "Bb4");
    expect(otherWay(off(4.9), A440)).toBeNull();
    expect(otherWay(off(-4.9), A440)).toBeNull();
    expect(otherWay(off(5.1), A440)?.concert).toBe("B4");
    expect(otherWay(off(-5.1), A440)?.concert).toBe("A4");
  });

  it("follows the band: at A 453.06 a 480 Hz chanter needs none", () => {
    expect(otherWay(defaultSetup(hertz(480)), hertz(453.06))).toBeNull();
  });
});

describe("low A against the band", () => {
  it("at 478 Hz is B flat 4 and 43.4 cents sharp; a band at A 451.2 has it", () => {
    const setup = defaultSetup(hertz(478));
    expect(lowACentsOff(setup, A440)).toBeCloseTo(43.4, 1);
    expect(bandAToMatch(setup)).toBeCloseTo(451.2, 1);
  });

  it("at 496 Hz is B4 and 7.4 cents sharp, or B4 for A 441.9", () => {
    const setup = defaultSetup(hertz(496));
    expect(setup.lowAIs).toBe("B4");
    expect(lowACentsOff(setup, A440)).toBeCloseTo(7.4, 1);
    expect(bandAToMatch(setup)).toBeCloseTo(441.9, 1);
  });

  it("is said in a sentence", () => {
    expect(lowASentence(defaultSetup(hertz(496)), A440)).toBe("496 Hz is B4 for a band at A 441.9; against A 440 you are 7 cents sharp.");
    expect(lowASentence(defaultSetup("B"), A440)).toBe("493.9 Hz is B4 for a band at A 440.");
    expect(lowASentence(defaultSetup(hertz(464)), A440)).toBe("464 Hz is B♭4 for a band at A 438; against A 440 you are 8 cents flat.");
    expect(lowASentence(defaultSetup(hertz(478)), A440)).toBe(
      "A chanter at 478 lies between B♭ and B. No key fixes that: called B♭, the band would tune to A 451.2.",
    );
  });
});

describe("the name of a bare low A", () => {
  it("is B flat from 453 to 487 Hz and the nearest semitone elsewhere", () => {
    const names = [428, 440, 452.8, 453, 466, 478, 480, 482, 486.9, 487, 494, 508].map((value) => usualLowAName(hertz(value)));
    expect(names).toEqual(["A4", "A4", "A4", "Bb4", "Bb4", "Bb4", "Bb4", "Bb4", "Bb4", "B4", "B4", "B4"]);
  });

  it("has the octave it sounds in: smallpipes in A, B flat, C and D (220, 233, 262, 294 Hz), and 240 Hz is B flat 3", () => {
    expect([220, 233, 240, 262, 294].map((value) => usualLowAName(hertz(value)))).toEqual(["A3", "Bb3", "Bb3", "C4", "D4"]);
  });

  it("that the piper gives takes the octave nearest to the hertz, and no name more than a whole tone away", () => {
    expect(lowACalled("B", hertz(480))).toBe("B4");
    expect(lowACalled("Bb", hertz(240))).toBe("Bb3");
    expect(lowACalled("A", hertz(480))).toBe("A4");
    expect(lowACalled("F", hertz(480))).toBeNull();
    expect(lowACalled("H", hertz(480))).toBeNull();
  });

  it("is one of three on offer", () => {
    expect(lowANamesNear(hertz(480))).toEqual(["Bb4", "B4", "C5"]);
    expect(lowANamesNear(hertz(466.16))).toEqual(["A4", "Bb4", "B4"]);
  });
});

describe("the stored name of low A", () => {
  it("is changed by no change of hertz, scale or band", () => {
    const setup = defaultSetup(hertz(478));
    expect(withLowA(setup, hertz(495)).lowAIs).toBe("Bb4");
    expect(withScale(setup, { kind: "published", name: "1954" }).lowAIs).toBe("Bb4");
  });

  it("is changed by naming it, and by putting another chanter in the stock", () => {
    const setup = defaultSetup(hertz(480));
    expect(withName(setup, concertPitch("B4"))).toMatchObject({ lowA: 480, lowAIs: "B4" });
    expect(withChanter(setup, "A")).toMatchObject({ lowA: 440, lowAIs: "A4" });
  });
});

it("A low A lies between 150 and 700 Hz", () => {
  expect([149, 150, 480, 700, 701, Number.NaN].map(isLowA)).toEqual([false, true, true, true, false, false]);
});
