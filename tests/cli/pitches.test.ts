import { describe, expect, it } from "vitest";
import type { PitchReport } from "../../src/cli/pitch-report.ts";
import { ninefold, ninefoldThroughNpm } from "../support/command-line.ts";

async function report(...words: string[]): Promise<PitchReport> {
  const run = await ninefold(["pitches", ...words, "--json"]);
  expect(run).toMatchObject({ exit: 0, complaint: "" });
  return JSON.parse(run.output) as PitchReport;
}

const row = ({ notes }: PitchReport, id: string) => notes.find(({ note }) => note === id);

describe("ninefold pitches", () => {
  it("through npm prints one line of JSON", async () => {
    const run = await ninefoldThroughNpm(["pitches", "--chanter", "B", "--json"]);
    expect(run).toMatchObject({ exit: 0, complaint: "" });
    expect(run.output.split("\n").length).toBe(2);
    expect(JSON.parse(run.output).lowA).toEqual({ hz: 493.883, concert: "B4", cents: 0 });
  });

  it("for 480 Hz gives B flat 4 +50.6 and a band at 453.06, other way B4 -49.4 and 427.63", async () => {
    const { lowA, otherWay, bandA, bandAToMatch } = await report("--chanter", "480");
    expect(lowA.hz).toBe(480);
    expect(lowA.concert).toBe("Bb4");
    expect(lowA.cents).toBeCloseTo(50.6, 1);
    expect(bandA).toBe(440);
    expect(bandAToMatch).toBeCloseTo(453.06, 2);
    expect(otherWay?.concert).toBe("B4");
    expect(otherWay?.cents).toBeCloseTo(-49.4, 1);
    expect(otherWay?.bandAToMatch).toBeCloseTo(427.63, 2);
  });

  it("for 480 Hz called B turns the two round, and every note is named from B", async () => {
    const given = await report("--chanter", "480", "--low-a-is", "B");
    expect(given.lowA.concert).toBe("B4");
    expect(given.otherWay?.concert).toBe("Bb4");
    expect(row(given, "d")?.concert).toBe("E5");
    expect(given.keys.map((key) => key.concert)).toContain("E major");
  });

  it("for a B chanter at A 440 needs no other way", async () => {
    expect((await report("--chanter", "B")).otherWay).toBeNull();
  });

  it("gives each note its written and concert pitch, hertz, and cents from that concert pitch", async () => {
    const given = await report("--chanter", "Bb");
    expect(given.notes.map(({ note }) => note)).toEqual(["low-g", "low-a", "b", "c", "d", "e", "f", "high-g", "high-a"]);
    expect(row(given, "c")).toEqual({ note: "c", written: "C#5", concert: "D5", hz: 582.705, cents: -13.686 });
    expect(given.notes.map(({ cents }) => Number(cents.toFixed(1)))).toEqual([-31.2, 0, 3.9, -13.7, -2, 2, -15.6, -31.2, 0]);
  });

  it("measures against the band that is named", async () => {
    const given = await report("--chanter", "480", "--band-a", "453.06");
    expect(Math.abs(given.lowA.cents)).toBeLessThan(0.01);
    expect(given.otherWay).toBeNull();
  });

  it("takes the scale that is named: the 1954 D lies 19.6 cents sharp", async () => {
    const given = await report("--chanter", "A", "--scale", "1954");
    expect(row(given, "d")?.cents).toBeCloseTo(19.6, 1);
    const equal = await report("--chanter", "A", "--scale=equal");
    expect(equal.notes.every(({ cents }) => cents === 0)).toBe(true);
  });

  it("lists the drones that sound: tenors at 233.08 Hz and a bass at 116.54 Hz under B flat", async () => {
    const { drones } = await report("--chanter", "Bb");
    expect(drones.map(({ drone, hz }) => [drone, Number(hz.toFixed(2))])).toEqual([
      ["tenor", 233.08],
      ["tenor", 233.08],
      ["bass", 116.54],
    ]);
  });

  it("adds the cross-fingerings that speak, and the keys they bring, each with what it needs", async () => {
    const given = await report("--chanter", "B", "--with", "c-natural,f-natural,high-g-sharp");
    expect(given.notes.length).toBe(12);
    expect(row(given, "high-g-sharp")).toMatchObject({ written: "G#5", concert: "A#5" });
    expect(given.keys.length).toBe(16);
    expect(given.keys).toContainEqual({ concert: "E major", written: "D major", needs: [], tonic: "d", crossFingeredTonic: false });
    expect(given.keys).toContainEqual({
      concert: "D major",
      written: "C major",
      needs: ["c-natural", "f-natural"],
      tonic: "c-natural",
      crossFingeredTonic: true,
    });
    expect(given.keys).toContainEqual({
      concert: "B major",
      written: "A major",
      needs: ["high-g-sharp"],
      tonic: "low-a",
      crossFingeredTonic: false,
    });
    expect(given.keys.map((key) => key.concert)).toContain("C# minor");
  });

  it("without --json prints a table to read, with signs for sharps and flats", async () => {
    const { output, exit } = await ninefold(["pitches", "--chanter", "480"]);
    expect(exit).toBe(0);
    expect(output).toContain("B♭4 +50.6 cents; a band at A 453.06 has it exactly.");
    expect(output).toContain("The other way: B4 −49.4 cents, a band at A 427.63.");
    expect(output).toMatch(/^high G {2}A♭5 {6}840\.00 {2}\+19\.5$/m);
    expect(output).toMatch(/^E♭ major +D major +D +the nine$/m);
  });
});

describe("bad input to ninefold pitches", () => {
  it.each<[string, readonly string[], string]>([
    ["no chanter", [], "--chanter: expected A, Bb, B, or what low A sounds in hertz, 150 to 700, found nothing"],
    ["a chanter nobody makes", ["--chanter", "H"], '--chanter: expected A, Bb, B, or what low A sounds in hertz, 150 to 700, found "H"'],
    ["a low A out of reach", ["--chanter", "4800"], 'found "4800"'],
    ["hexadecimal hertz", ["--chanter", "0x1e0"], 'found "0x1e0"'],
    [
      "a name far off",
      ["--chanter", "480", "--low-a-is", "F"],
      '--low-a-is: expected a pitch such as Bb within a whole tone of Bb4, found "F"',
    ],
    ["a band below 380", ["--chanter", "B", "--band-a", "379"], '--band-a: expected hertz, 380 to 480, found "379"'],
    ["a band that is no number", ["--chanter", "B", "--band-a", "NaN"], "--band-a"],
    ["no such scale", ["--chanter", "B", "--scale", "just"], '--scale: expected septimal, 1954, 1991, equal, found "just"'],
    ["no such cross-fingering", ["--chanter", "B", "--with", "c-natural,d-sharp"], 'found "d-sharp"'],
    ["an option without its value", ["--chanter"], "--chanter: expected a value"],
    ["an option for a value", ["--chanter", "--json"], "--chanter: expected a value"],
    ["an option given twice", ["--chanter", "A", "--chanter", "B"], "--chanter: expected to be given once"],
    ["a flag with a value", ["--chanter", "A", "--json=yes"], "--json: expected no value"],
    [
      "an unknown option",
      ["--chanter", "A", "--tune", "x"],
      "--tune: expected one of --chanter, --low-a-is, --band-a, --scale, --with, --json, --help",
    ],
    ["an option every object has", ["--chanter", "A", "--toString"], "--toString: expected one of"],
    ["a word too many", ["--chanter", "A", "more"], 'arguments: expected options only, found "more"'],
  ])("(%s) exits 2, says why in one line, and prints nothing else", async (_, words, reason) => {
    const run = await ninefold(["pitches", ...words]);
    expect(run.exit).toBe(2);
    expect(run.output).toBe("");
    expect(run.complaint).toContain(reason);
    expect(run.complaint).toMatch(/^ninefold pitches: [^\n]+\n$/);
  });
});
