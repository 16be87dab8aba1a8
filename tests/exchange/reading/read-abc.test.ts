import { describe, expect, it } from "vitest";
import { abcTitles } from "../../../src/exchange/reading/read-abc.ts";
import { songFromBytes, songFromText } from "../../../src/exchange/reading/read-song.ts";
import { leftOutWords } from "../../../src/song/left-out.ts";
import type { Song } from "../../../src/song/song.ts";
import { songKeyName } from "../../../src/song/song-key-name.ts";
import { ReadError } from "../../../src/units/read-error.ts";
import { shownLine, shownWords } from "../../support/song-notes.ts";

/** Music in 4/4 by quarters, in C unless a key is given. */
function tune(music: string, key = "C", meter = "4/4"): Song {
  return songFromText(`X:1\nT:Paper Lantern Weather\nM:${meter}\nL:1/4\nK:${key}\n${music}\n`, "tune.abc");
}

const leftOut = (song: Song): readonly string[] => song.leftOut.map(leftOutWords);

describe("Notes and lengths of ABC", () => {
  it.each([
    [
      "octaves and lengths",
      "C, C c c' | A2 B/ B/2 c3/2 | d//d//",
      "48@0+1 60@1+1 72@2+1 84@3+1 69@4+2 71@6+0.5 71@6.5+0.5 72@7+1.5 74@8.5+0.25 74@8.75+0.25",
    ],
    ["rests, written and not printed", "A z x A | Z2 | B4", "69@0+1 69@3+1 71@12+4"],
    ["broken rhythm", "A>B c<d | A>>B A<<<B", "69@0+1.5 71@1.5+0.5 72@2+0.5 74@2.5+1.5 69@4+1.75 71@5.75+0.25 69@6+0.125 71@6.125+1.875"],
    ["broken rhythm through gracenotes", "A>{g}B c2", "69@0+1.5 71@1.5+0.5 72@2+2"],
    [
      "tuplets of three, five and seven",
      "(3ABc A2 | (5AAAAA (7:4:7BBBBBBB",
      "69@0+0.667 71@0.667+0.667 72@1.333+0.667 69@2+2 69@4+0.4 69@4.4+0.4 69@4.8+0.4 69@5.2+0.4 69@5.6+0.4 71@6+0.571 71@6.571+0.571 71@7.143+0.571 71@7.714+0.571 71@8.286+0.571 71@8.857+0.571 71@9.429+0.571",
    ],
    ["a tie over the bar line takes its accidental along", "A ^c2- | c c2", "69@0+1 73@1+3 72@4+2"],
    ["an accidental holds to the end of the bar in every octave", "^f F f =f | f4", "78@0+1 66@1+1 78@2+1 77@3+1 77@4+4"],
    ["the top note of a chord", "[CEG]2 [A-c-]2 | [Ac]4", "67@0+2 72@2+6"],
    ["an inline key and length", "F4 | [K:D] F2 [L:1/8] F2 F2", "65@0+4 66@4+2 66@6+1 66@7+1"],
  ])("%s", (_, music, notes) => expect(shownLine(tune(music))).toBe(notes));

  it("Times are exact: a bar of seven in the time of four ends on the bar line", () => {
    const song = tune("(7:4:7AAAAAAA | A4");
    expect(song.bars.map(({ length }) => length)).toEqual([song.bars[0]?.length, song.bars[0]?.length]);
    expect(song.leftOut).toEqual([]);
  });
});

describe("Keys of ABC", () => {
  it.each([
    ["D", "D major", 66],
    ["Am", "A minor", 65],
    ["E Minor % with a comment", "E minor", 66],
    ["Ador", "A dorian", 66],
    ["G Mixolydian", "G mixolydian", 65],
    ["F#m", "F# minor", 66],
    ["Bb", "Bb major", 65],
    ["HP", "A mixolydian", 66],
    ["Hp", "A mixolydian", 66],
    ["none", "C major", 65],
    ["D =f", "D major", 65],
    ["G clef=treble-8", "G major", 54],
    ["C exp ^f", "C major", 66],
  ])("K:%s is %s, and its F sounds MIDI %i", (text, name, f) => {
    const song = tune("F4", text);
    expect(song.keys.map(songKeyName)).toEqual([name]);
    expect(song.lines[0]?.notes[0]?.semitone).toBe(f);
  });
});

describe("Bars of ABC", () => {
  it("A pickup is bar 0; pieces of a bar cut by a repeat share its number", () => {
    const song = tune("A | A4 | A3 :|: A | A4 | A3 |]");
    expect(song.bars.map(({ number }) => number)).toEqual([0, 1, 2, 2, 3, 4]);
    expect(song.bars[0]?.pickup).toBe(true);
    expect(song.bars.map(({ repeatTimes }) => repeatTimes)).toEqual([0, 0, 2, 0, 0, 0]);
    expect(song.bars.map(({ repeatFrom }) => repeatFrom)).toEqual([false, false, false, true, false, false]);
  });

  it("Endings say on which passes they are played", () => {
    const song = tune("|: A4 |1,3 B4 :|2 c4 :| d4 |]");
    expect(song.bars.map(({ endings }) => endings)).toEqual([[], [1, 3], [2], []]);
  });

  it("Meters change on the way, and C| is 2/2", () => {
    const song = tune("A4 | [M:3/4] A3 | A3 |", "C", "C|");
    expect(song.bars.map(({ meter }) => `${meter?.beats}/${meter?.unit}`)).toEqual(["2/2", "3/4", "3/4"]);
  });

  it("Free meter is refused by name and place, and barred where a meter is wished for", () => {
    const text = "X:1\nM:none\nL:1/4\nK:C\nABcdefg |]";
    expect(() => songFromText(text, "chant.abc")).toThrow(
      "chant.abc, bar 1: expected a meter (or a wish for one to bar it in), found free meter",
    );
    const song = songFromText(text, "chant.abc", { meter: { beats: 3, unit: 4 } });
    expect(song.bars).toHaveLength(3);
    expect(song.lines[0]?.notes.map(({ bar }) => bar)).toEqual([0, 0, 0, 1, 1, 1, 2]);
  });

  it("Tempo counts quarters, whatever the field counts", () => {
    for (const [field, quarters] of [
      ["1/4=80", 80],
      ["3/8=60", 90],
      ['"Slow" 1/2=40', 80],
      ["120", 120],
    ] as const) {
      const song = songFromText(`X:1\nM:4/4\nL:1/4\nQ:${field}\nK:C\nA4|`, "tune.abc");
      expect(song.tempos[0]?.quarters, field).toBe(quarters);
    }
  });
});

describe("Voices, words and chords of ABC", () => {
  it("Every voice is a line by its name, whether it is changed in a line or between lines", () => {
    const song = tune('V:1 name="Tune"\nV:2 name="Bass" clef=bass\n[V:1] c4 | d4 |\n[V:2] C,4 | D,4 |\nV:1\ne4 |\nV:2\nE,4 |');
    expect(song.lines.map(({ name }) => name)).toEqual(["Tune", "Bass"]);
    expect([shownLine(song), shownLine(song, 1)]).toEqual(["72@0+4 74@4+4 76@8+4", "48@0+4 50@4+4 52@8+4"]);
  });

  it("An overlay is a line of its own from the start of its bar", () => {
    const song = tune("A4 | c4 & E2 F2 | d4");
    expect([shownLine(song), shownLine(song, 1)]).toEqual(["69@0+4 72@4+4 74@8+4", "64@4+2 65@6+2"]);
  });

  it("Words go verse by verse, with holds, skips, joined words and bar lines", () => {
    const song = tune("A B c d | e f g a |\nw: pa-per lan-tern | wea-_ther~now *\nw: se- cond * time");
    expect(shownWords(song)).toBe("pa- per lan- tern wea- * ther now *");
    expect(shownWords(song, 2)).toBe("se- cond * time * * * *");
  });

  it("Chord symbols keep their moment; texts are told", () => {
    const song = tune('"Am7"A2 "^slowly"B2 | "D/F#"c2 "Hello"d2');
    expect(song.chords.map(({ symbol }) => symbol)).toEqual(["Am7", "D/F#"]);
    expect(leftOut(song)).toEqual([
      "1 text that belongs to no note (slowly) in Line 1, bar 1",
      "1 text in place of a chord symbol (Hello) in bar 2",
    ]);
  });

  it("Gracenotes, ornaments and marks are left out by name", () => {
    expect(leftOut(tune("{gag}A ~B Tc !fermata!d"))).toEqual([
      "3 gracenotes in Line 1, bar 1",
      "2 ornaments (roll) in Line 1, bar 1",
      "1 slur, articulation or loudness mark (fermata) in Line 1, bar 1",
    ]);
  });

  it("What is no ABC is told with its line", () =>
    expect(leftOut(tune("A B # c d"))).toEqual(["1 thing that could not be read (# in line 6) in Line 1, bar 1"]));
});

describe("ABC files", () => {
  const book = "X:1\nT:The First\nM:4/4\nL:1/4\nK:C\nA4|\n\nX:2\nT:The Second\nM:4/4\nL:1/4\nK:C\nB4|\n";

  it("A file of several tunes gives the one wished for, and tells the others", () => {
    expect(abcTitles(book)).toEqual(["The First", "The Second"]);
    expect(songFromText(book, "book.abc").title).toBe("The First");
    const second = songFromText(book, "book.abc", { tune: 2 });
    expect([second.title, ...leftOut(second)]).toEqual(["The Second", "1 other tune in the file (The First)"]);
    expect(() => songFromText(book, "book.abc", { tune: 3 })).toThrow("book.abc: expected a tune from 1 to 2, found a wish for tune 3");
  });

  it("Latin-1 bytes, byte-order marks and line ends of every kind are read", () => {
    const text = "X:1\r\nT:Schöne Nacht\r\nM:4/4\r\nL:1/4\r\nK:C\r\nA4|\r\n";
    const latin = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    const utf16 = new Uint8Array([0xff, 0xfe, ...[...text].flatMap((letter) => [letter.charCodeAt(0), 0])]);
    for (const bytes of [
      latin,
      new TextEncoder().encode(`\uFEFF${text}`),
      utf16,
      new TextEncoder().encode(text.replaceAll("\r\n", "\r")),
    ]) {
      expect(songFromBytes(bytes, "night.abc").title).toBe("Schöne Nacht");
    }
  });

  it.each([
    ["", "an empty file"],
    ["Dear piper, here are some words.", "none of them"],
    ["X:1\nT:No key\nM:4/4\nA4|", "none"],
    ["X:1\nM:4/4\nK:C\n", "none"],
    ["X:1\nM:walking\nK:C\nA|", "M:walking"],
  ])("%j is refused", (text, found) => {
    expect(() => songFromText(text, "odd.abc")).toThrow(ReadError);
    expect(() => songFromText(text, "odd.abc")).toThrow(found);
  });
});

describe("The standard's own examples", () => {
  // Source: The ABC music standard 2.1, section 2.3.3 and the sample tunes at its end (traditional tunes, public domain).
  it("'Speed the Plough': K:G in 4/4, two repeated parts of eight bars, eighths", () => {
    const song = songFromText(
      `X:1
T:Speed the Plough
M:4/4
C:Trad.
K:G
|:GABc dedB|dedB dedB|c2ec B2dB|c2A2 A2BA|
  GABc dedB|dedB dedB|c2ec B2dB|A2F2 G4:|
|:g2gf gdBd|g2f2 e2d2|c2ec B2dB|c2A2 A2df|
  g2gf g2Bd|g2f2 e2d2|c2ec B2dB|A2F2 G4:|
`,
      "speed.abc",
    );
    expect(song.bars).toHaveLength(16);
    expect(song.bars.map(({ repeatTimes }) => repeatTimes).flatMap((times, bar) => (times > 0 ? [bar] : []))).toEqual([7, 15]);
    expect(shownLine(song).split(" ").slice(0, 9).join(" ")).toBe(
      "67@0+0.5 69@0.5+0.5 71@1+0.5 72@1.5+0.5 74@2+0.5 76@2.5+0.5 74@3+0.5 71@3.5+0.5 74@4+0.5",
    );
    expect(shownLine(song).endsWith("69@60+1 66@61+1 67@62+2")).toBe(true);
    expect(song.composer).toBe("Trad.");
  });
});
