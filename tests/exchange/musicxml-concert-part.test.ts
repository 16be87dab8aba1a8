import { describe, expect, it } from "vitest";
import { musicxmlOfPart, musicxmlOfScore } from "../../src/exchange/musicxml-score.ts";
import type { ConcertEvent } from "../../src/score/bar.ts";
import type { Frame } from "../../src/score/frame.ts";
import type { ConcertLine, Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { concertNote, frame, rest } from "../support/written-music.ts";
import { type XmlReading, xmlReading } from "../support/xml-reading.ts";

/** One player's part, a list of events for each bar. */
function partOf(
  player: string,
  bars: readonly (readonly ConcertEvent[])[],
  frames: readonly Frame[] = bars.map(() => frame()),
): XmlReading {
  const line: ConcertLine = { kind: "concert", id: "own", name: "Player", player, bars: bars.map((events) => ({ kind: "own", events })) };
  const score: Score = { ...lanternScore(), frames, lines: [line] };
  return xmlReading(musicxmlOfPart(score, line));
}

const EB = concertNote("Eb4", 3840);

describe("a player's part in MusicXML", () => {
  // *Source:* standard transpositions, any orchestration or brass-band handbook: what is added to the written pitch to sound.
  it.each([
    ["fiddle", "", "Eb4", "-3"],
    ["trumpet-bb", "-1 -2", "F4", "-1"],
    ["alto-sax", "-5 -9", "C5", "0"],
    ["tenor-sax", "-1 -2 -1", "F5", "-1"],
    ["baritone-sax", "-5 -9 -1", "C6", "0"],
    ["bass-bb", "-1 -2 -2", "F6", "-1"],
    ["horn-f", "-4 -7", "Bb4", "-2"],
    ["soprano-cornet-eb", "2 3", "C4", "0"],
    ["double-bass", "0 0 -1", "Eb5", "-3"],
    ["whistle-d", "0 0 1", "Eb3", "-3"],
  ])(
    "of a %s has the transposition “%s”, writes concert E flat 4 as %s and concert E flat major with %s in the signature",
    (player, transposition, written, fifths) => {
      const part = partOf(player, [[EB]]);
      expect(part.texts("//transpose/*").join(" ")).toBe(transposition);
      const alter = part.text("//pitch/alter");
      expect(`${part.text("//pitch/step")}${alter === "-1" ? "b" : ""}${part.text("//pitch/octave")}`).toBe(written);
      expect(part.text("//key/fifths")).toBe(fifths);
      expect(part.text("//key/mode")).toBe("major");
    },
  );

  it("takes the enharmonic key with fewer accidentals, and spells transposition and notes to agree: an alto in concert B reads A flat", () => {
    const part = partOf("alto-sax", [[concertNote("B3", 3840)]], [frame({ key: { tonic: "B", mode: "major" } })]);
    expect(part.text("//key/fifths")).toBe("-4");
    expect(part.texts("//pitch/*")).toEqual(["A", "-1", "4"]);
    expect(part.texts("//transpose/*")).toEqual(["-6", "-9"]);
    expect(part.count("//accidental")).toBe(0);
  });

  it.each([
    ["fiddle", "G2"],
    ["viola", "C3"],
    ["cello", "F4"],
  ])("of a %s is in the %s clef", (player, clef) => {
    const part = partOf(player, [[EB]]);
    expect(`${part.text("//clef/sign")}${part.text("//clef/line")}`).toBe(clef);
  });

  it("says key, meter and tempo again only where they change", () => {
    const six = frame({ meter: { beats: 6, unit: 8 }, key: { tonic: "C", mode: "dorian" } });
    const part = partOf("fiddle", [[EB], [EB], [concertNote("C4", 2880)]], [frame(), frame(), six]);
    expect(part.texts("//key/fifths")).toEqual(["-3", "-2"]);
    expect(part.texts("//key/mode")).toEqual(["major", "dorian"]);
    expect(part.texts("//time/*")).toEqual(["4", "4", "6", "8"]);
    expect(part.count("//metronome")).toBe(1);
  });

  it("gives a tempo of 72 dotted quarters as 108 quarters to a player of the file", () => {
    const part = partOf("fiddle", [[EB]], [frame({ tempo: { beat: ticks(1440), perMinute: 72 as Frame["tempo"]["perMinute"] } })]);
    expect(part.texts("//metronome/*")).toEqual(["quarter", "", "72"]);
    expect(part.count("//metronome/beat-unit-dot")).toBe(1);
    expect(part.count("//sound[@tempo='108']")).toBe(1);
  });

  it("ties what no single value shows, and what is held over the bar line, chord by chord", () => {
    const part = partOf("fiddle", [[rest(480), concertNote("G4 Bb4", 3360, { tied: true })], [concertNote("G4 Bb4", 3840)]]);
    expect(part.texts("//note[pitch]/duration")).toEqual(["1440", "1440", "1920", "1920", "3840", "3840"]);
    expect(part.count("//tie[@type='start']")).toBe(4);
    expect(part.count("//tie[@type='stop']")).toBe(4);
    expect(part.count("//measure[2]//tie[@type='start']")).toBe(0);
    expect(part.count("//chord")).toBe(3);
  });

  it("writes no tie to another note", () => {
    expect(partOf("fiddle", [[concertNote("G4", 1920, { tied: true }), concertNote("A4", 1920)]]).count("//tie")).toBe(0);
  });

  it("brackets a triplet of quarters, and leaves one of beamed eighths without", () => {
    const triplet = (length: number) => ["C4", "D4", "C4"].map((pitch) => concertNote(pitch, length, { tuplet: 3 }));
    const part = partOf("fiddle", [[...triplet(640), ...triplet(320), rest(960)]]);
    expect(part.texts("//time-modification/actual-notes").join("")).toBe("333333");
    expect(part.texts("//time-modification/normal-notes").join("")).toBe("222222");
    expect(part.count("//tuplet[@type='start'][@bracket='yes']")).toBe(1);
    expect(part.count("//tuplet[@type='start'][@bracket='no']")).toBe(1);
    expect(part.count("//tuplet[@type='stop']")).toBe(2);
  });

  it("beams by the beat: in pairs in 4/4, in threes in 6/8, with a hook on a dotted pair's short note", () => {
    const eighths = (count: number) => Array.from({ length: count }, () => concertNote("C4", 480));
    expect(
      partOf("fiddle", [eighths(8)])
        .texts("//beam")
        .join(" "),
    ).toBe("begin end begin end begin end begin end");
    const six = frame({ meter: { beats: 6, unit: 8 } });
    expect(
      partOf("fiddle", [eighths(6)], [six])
        .texts("//beam")
        .join(" "),
    ).toBe("begin continue end begin continue end");
    const dotted = partOf("fiddle", [[concertNote("C4", 720), concertNote("D4", 240), rest(2880)]]);
    expect(dotted.texts("//beam[@number='2']")).toEqual(["backward hook"]);
  });

  it("turns stems away from the middle line, one way for a whole beam", () => {
    const part = partOf("fiddle", [
      [concertNote("F4", 960), concertNote("F5", 960), concertNote("A4", 480), concertNote("G5", 480), concertNote("B4", 960)],
    ]);
    expect(part.texts("//stem")).toEqual(["up", "down", "down", "down", "down"]);
  });

  it("parts words into syllables, verse by verse, over bar lines", () => {
    const sung = (...syllables: readonly (readonly [string, boolean])[]) =>
      concertNote("C4", 1920, { syllables: syllables.map(([text, hyphen]) => ({ text, hyphen })) });
    const part = partOf("voice", [
      [sung(["lan", true], ["oh", false]), sung(["ter", true], ["", false])],
      [sung(["ning", false], ["yes", false]), sung(["on", false])],
    ]);
    expect(part.texts("//lyric[@number='1']/syllabic")).toEqual(["begin", "middle", "end", "single"]);
    expect(part.texts("//lyric[@number='2']/text")).toEqual(["oh", "yes"]);
  });

  it("is a rest of a whole bar, whatever the meter, where nothing is played", () => {
    const part = partOf("fiddle", [[rest(2880)]], [frame({ meter: { beats: 3, unit: 4 } })]);
    expect(part.count("//rest[@measure='yes']")).toBe(1);
    expect(part.text("//duration")).toBe("2880");
    expect(part.count("//note/type")).toBe(0);
  });
});

describe("a score in MusicXML", () => {
  const whole = xmlReading(musicxmlOfScore(lanternScore()));

  it("heads the file with title, people and revision", () => {
    expect(whole.text("//work-title")).toBe("Paper Lantern Weather");
    expect(whole.text("//creator[@type='composer']")).toBe("Mairi Quern");
    expect(whole.text("//creator[@type='arranger']")).toBe("M. Quern & friends");
    expect(whole.text("//miscellaneous-field[@name='revision']")).toBe("12");
    expect(whole.count("//supports[@element='stem'][@type='yes']")).toBe(1);
    expect(whole.count("//encoding-date")).toBe(0);
  });

  it("names every player, in score order", () => {
    expect(whole.texts("//part-name")).toEqual(["Pipes", "The trumpet-bb", "The piano"]);
  });

  it("numbers a pickup 0 and hides its number", () => {
    expect(whole.count("//part[1]/measure[1][@number='0'][@implicit='yes']")).toBe(1);
    expect(whole.count("//part[1]/measure[2][@number='1'][not(@implicit)]")).toBe(1);
  });

  it("closes repeats and endings: back to the start of the verse after the first ending", () => {
    const lines = (path: string) => whole.count(`//part[1]/measure${path}`);
    expect(lines("[@number='1']/barline[@location='left']/repeat[@direction='forward']")).toBe(1);
    expect(lines("[@number='2']/barline[@location='left']/ending[@number='1'][@type='start']")).toBe(1);
    expect(lines("[@number='2']/barline[@location='right'][ending[@number='1'][@type='stop']]/repeat[@direction='backward']")).toBe(1);
    expect(lines("[@number='3']/barline[@location='right']/ending[@number='2'][@type='discontinue']")).toBe(1);
  });

  it("gives sections their letter and name in every part", () => {
    expect(whole.texts("//rehearsal")).toEqual(["A", "B", "A", "B", "A", "B"]);
    expect(whole.texts("//part[1]//words[@font-weight='bold']")).toEqual(["Verse", "Chorus & “Out” <1>"]);
  });

  it("gives chords at concert pitch to a pianist, a tone higher to a trumpeter, and none to the piper", () => {
    expect(whole.texts("//part[3]//harmony/root/*").join(" ")).toBe("E -1 B -1 C A -1 C A -1 F 1");
    expect(whole.texts("//part[2]//harmony/root/*").join(" ")).toBe("F C D B -1 C B -1 G 1");
    expect(whole.count("//part[1]//harmony")).toBe(0);
    expect(whole.texts("//part[3]//harmony/kind")).toEqual([
      "major",
      "dominant",
      "half-diminished",
      "suspended-fourth",
      "none",
      "major-sixth",
      "minor",
    ]);
    expect(whole.texts("//part[3]//harmony[7]/degree/degree-value | //part[3]//harmony/degree/degree-value")).toEqual(["9", "9"]);
  });

  it("keeps the chords of a sketch for pipes alone, at written pitch and unprinted", () => {
    const score = lanternScore("B");
    const alone = xmlReading(musicxmlOfScore({ ...score, lines: score.lines.slice(0, 1) }));
    expect(alone.count("//harmony")).toBe(7);
    expect(alone.count("//harmony[not(@print-object='no')]")).toBe(0);
    expect(alone.text("//harmony/root/root-step")).toBe("D");
  });

  it("is the same text every time, and carries a date only where one is given", () => {
    expect(musicxmlOfScore(lanternScore())).toBe(musicxmlOfScore(lanternScore()));
    expect(musicxmlOfScore(lanternScore(), { encodingDate: "2026-11-25" })).toContain("<encoding-date>2026-11-25</encoding-date>");
  });

  it("refuses a line that is not of the score", () => {
    const [stranger] = lanternScore().lines;
    expect(() => musicxmlOfPart(lanternScore(), stranger as ConcertLine)).toThrow(RangeError);
  });
});
