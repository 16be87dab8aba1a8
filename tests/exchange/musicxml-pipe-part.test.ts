import { describe, expect, it } from "vitest";
import { musicxmlOfPart, musicxmlOfScore } from "../../src/exchange/musicxml-score.ts";
import { type ChanterName, defaultSetup } from "../../src/pipes/default-setups.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { withCrossFingering, withFingering } from "../../src/pipes/setup-changes.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import type { PipeNote } from "../../src/score/bar.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import { hertz } from "../../src/units/hertz.ts";
import { fullSetup, lanternScore } from "../support/lantern-score.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";
import { frame, gracedNote, pipeNote } from "../support/written-music.ts";
import { type XmlReading, xmlReading } from "../support/xml-reading.ts";

/** The pipe part of one 4/4 bar. */
function partOf(notes: readonly PipeNote[], setup: PipeSetup = fullSetup("Bb")): XmlReading {
  const line: PipeLine = { kind: "pipes", id: "pipes", name: "Pipes", setup, bars: [{ kind: "pipes", events: notes }] };
  const score: Score = { ...lanternScore(), frames: [frame()], lines: [line] };
  return xmlReading(musicxmlOfPart(score, line));
}

const FOUR = [pipeNote("low-a", 960), pipeNote("c", 960), pipeNote("f", 960), pipeNote("high-a", 960)];

describe("the transposition of a pipe part", () => {
  // *Source:* derived; MusicXML 4.0, `transpose`: what to add to the written pitch to get the sounding one.
  it.each<[ChanterName, string, string]>([
    ["A", "0", "0"],
    ["Bb", "1", "1"],
    ["B", "1", "2"],
  ])("of a %s chanter is diatonic %s, chromatic %s", (chanter, diatonic, chromatic) => {
    const part = partOf(FOUR, defaultSetup(chanter));
    expect(part.text("//transpose/diatonic")).toBe(diatonic);
    expect(part.text("//transpose/chromatic")).toBe(chromatic);
    expect(part.count("//transpose/octave-change")).toBe(0);
  });

  it("of a chanter at 480 Hz follows the name the piper gives it, B flat or B, and not the hertz", () => {
    for (const [name, chromatic] of [
      ["Bb4", "1"],
      ["B4", "2"],
    ] as const) {
      const setup = { ...defaultSetup(hertz(480)), lowAIs: concertPitch(name) };
      expect(partOf(FOUR, setup).text("//transpose/chromatic")).toBe(chromatic);
    }
  });

  it("of smallpipes in A, an octave under the Highland pipes, says the octave apart", () => {
    const part = partOf(FOUR, { ...defaultSetup(hertz(220)), lowAIs: concertPitch("A3") });
    expect(part.texts("//transpose/*")).toEqual(["0", "0", "-1"]);
    expect(part.count("//transpose/octave-change")).toBe(1);
  });
});

describe("a pipe part in MusicXML", () => {
  it("writes low A as A4, C and F sharp, under a signature of two sharps that is not printed", () => {
    const part = partOf(FOUR);
    expect(part.texts("//pitch/step").join("")).toBe("ACFA");
    expect(part.texts("//pitch/octave").join("")).toBe("4555");
    expect(part.texts("//note[pitch/alter=1]/pitch/step").join("")).toBe("CF");
    expect(part.texts("//key[@print-object='no']/fifths")).toEqual(["2"]);
    expect(part.count("//accidental")).toBe(0);
  });

  it("gives the melody stems down and the gracenotes stems up, as unslashed 32nds with three beams", () => {
    const part = partOf([gracedNote(["high-g"], "low-a", 1920), gracedNote(["high-g", "d", "e"], "c", 1920)]);
    expect(part.texts("//note[not(grace)]/stem")).toEqual(["down", "down"]);
    expect(part.texts("//note[grace]/stem")).toEqual(["up", "up", "up", "up"]);
    expect(part.texts("//note[grace]/type")).toEqual(["32nd", "32nd", "32nd", "32nd"]);
    expect(part.count("//grace[@slash='no'][@steal-time-following]")).toBe(4);
    expect(part.texts("//note[grace]/beam[@number='3']")).toEqual(["begin", "continue", "end"]);
    expect(part.count("//note[grace]/duration")).toBe(0);
  });

  it("takes for a gracenote 40 ms of the note after it: 3.2 % of a half at 96 quarters a minute, and never more than half of a short note", () => {
    const half = musicxmlOf(gracedNote(["high-g"], "low-a", 1920), pipeNote("d", 1920));
    expect(half).toContain('steal-time-following="3.2"');
    const short = musicxmlOf(gracedNote(["high-g", "low-a", "high-g", "low-a"], "d", 120), pipeNote("d", 1800), pipeNote("e", 1920));
    expect(short).toContain('steal-time-following="12.5"');
  });

  it("marks an accidental on a cross-fingered note, cancels it in the same bar, and leaves C and F alone otherwise", () => {
    const part = partOf([
      pipeNote("c-natural", 960),
      pipeNote("c", 960),
      pipeNote("high-g-sharp", 960),
      pipeNote("high-g", 480),
      pipeNote("low-g", 480),
    ]);
    expect(part.texts("//accidental")).toEqual(["natural", "sharp", "sharp", "natural"]);
  });

  it("shows eight holes on cross-fingered notes alone, thumb first", () => {
    const part = partOf([pipeNote("c-natural", 1920), pipeNote("c", 960), pipeNote("high-g-sharp", 960)]);
    expect(part.count("//note[1]//hole")).toBe(8);
    expect(part.count("//note[2]//hole")).toBe(0);
    // X XXX XOXX and O XXX XXXO
    expect(part.texts("//note[1]//hole-closed").join(" ")).toBe("yes yes yes yes yes no yes yes");
    expect(part.texts("//note[3]//hole-closed").join(" ")).toBe("no yes yes yes yes yes yes no");
    expect(part.text("//note[1]//hole/hole-type")).toBe("thumb");
  });

  it("shows a cross-fingering's holes as the piper has edited them", () => {
    const setup = withCrossFingering(fullSetup("Bb"), "c-natural", { holes: "X XXX XOXH" });
    const part = partOf([pipeNote("c-natural", 3840)], setup);
    expect(part.texts("//note[1]//hole-closed").join(" ")).toBe("yes yes yes yes yes no yes half");
  });

  it("of a learner's part shows the holes of every note, as the piper has edited them, and not of tied continuations", () => {
    const setup = withFingering(fullSetup("Bb"), "d", "X XXX OOOO");
    const events = [pipeNote("d", 960, { tied: true }), pipeNote("d", 960), pipeNote("e", 960), pipeNote("c-natural", 960)];
    const line: PipeLine = { kind: "pipes", id: "pipes", name: "Pipes", setup, bars: [{ kind: "pipes", events }] };
    const score: Score = { ...lanternScore(), frames: [frame()], lines: [line] };
    const part = xmlReading(musicxmlOfPart(score, line, { charts: "every-note" }));
    expect([1, 2, 3, 4].map((note) => part.count(`//note[${note}]//hole`))).toEqual([8, 0, 8, 8]);
    expect(part.texts("//note[1]//hole-closed").join(" ")).toBe("yes yes yes yes no no no no");
  });

  it("heads a tune of a medley with its title, type and composer, and says the tempo again", () => {
    const tune = { title: "Crane Lullaby", tuneType: "Slow air", composer: "Mairi Quern" };
    const bar = { kind: "pipes", events: FOUR } as const;
    const line: PipeLine = { kind: "pipes", id: "pipes", name: "Pipes", setup: fullSetup("Bb"), bars: [bar, bar] };
    const score: Score = { ...lanternScore(), frames: [frame(), { ...frame(), tune }], lines: [line] };
    const part = xmlReading(musicxmlOfPart(score, line));
    expect(part.texts("//measure[2]//words")).toEqual(["Crane Lullaby", "Slow air, Mairi Quern"]);
    expect(part.count("//measure[2]//metronome")).toBe(1);
  });

  it("reads silent bars of a part by itself as one rest, as it is printed, and keeps a rest in each bar", () => {
    const score = pipeSketch("d8!. | z8 | z8 | z8 | d8! | z8");
    const [line] = score.lines as [PipeLine];
    const part = xmlReading(musicxmlOfPart(score, line));
    expect(part.texts("//multiple-rest")).toEqual(["3"]);
    expect(part.text("//measure[2]//multiple-rest")).toBe("3");
    expect(part.count('//rest[@measure="yes"]')).toBe(4);
    const second = { ...line, id: "seconds", name: "Seconds" };
    expect(musicxmlOfScore({ ...score, lines: [line, second] })).not.toContain("multiple-rest");
  });

  it("keeps the hertz of low A, what it is called, the scale and the band's A as fields, and in words for the reader", () => {
    const part = partOf(FOUR, { ...defaultSetup(hertz(480)), lowAIs: concertPitch("Bb4") });
    const field = (name: string) => part.text(`//miscellaneous-field[@name='${name}']`);
    expect([field("low A in hertz"), field("low A is called"), field("chanter scale"), field("band A4 in hertz")]).toEqual([
      "480",
      "Bb4",
      "septimal",
      "440",
    ]);
    expect(part.texts("//direction//words")).toContain("Low A at 480 Hz (B♭4), band at A 440 Hz");
  });

  it("says how far each note sounds off the band: C of the septimal scale 13.7 cents flat", () => {
    const part = partOf(FOUR, fullSetup("Bb"));
    expect(part.texts("//note/play/other-play[@type='cents']")).toEqual(["-13.7", "-15.6"]);
  });

  it("is for Highland pipes, MIDI program 110 counted from 1", () => {
    const part = partOf(FOUR);
    expect(part.text("//instrument-sound")).toBe("wind.pipes.highland");
    expect(part.text("//midi-program")).toBe("110");
  });

  it("says in words where the chanter starts and stops, in their order", () => {
    const part = partOf([pipeNote("low-a", 1920, { strikeIn: true }), pipeNote("d", 1920, { cutOff: true })]);
    expect(
      part.texts("//measure/*[self::note or self::direction[.//words[. = 'strike-in' or . = 'cut-off']]]//*[self::step or self::words]"),
    ).toEqual(["strike-in", "A", "D", "cut-off"]);
  });
});

function musicxmlOf(...notes: readonly PipeNote[]): string {
  const line: PipeLine = { kind: "pipes", id: "pipes", name: "Pipes", setup: defaultSetup("Bb"), bars: [{ kind: "pipes", events: notes }] };
  const score: Score = { ...lanternScore(), frames: [frame()], lines: [line] };
  return musicxmlOfPart(score, line);
}
