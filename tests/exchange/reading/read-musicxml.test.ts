import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { songFromBytes, songFromText } from "../../../src/exchange/reading/read-song.ts";
import { leftOutWords } from "../../../src/song/left-out.ts";
import { songKeyName } from "../../../src/song/song-key-name.ts";
import { quartersOf } from "../../../src/song/song-ticks.ts";
import { ReadError } from "../../../src/units/read-error.ts";
import { PATIENCE } from "../../support/cases.ts";
import { LANTERN_XML } from "../../support/small-songs.ts";
import { shownLine, shownWords } from "../../support/song-notes.ts";

const song = songFromText(LANTERN_XML, "lantern.musicxml");

describe("A MusicXML file", () => {
  it("gives title, composer, key, tempo in quarters and chords", () => {
    expect([song.title, song.composer, song.format]).toEqual(["Paper Lantern Weather", "Mairi Quern", "musicxml"]);
    expect(song.keys.map(songKeyName)).toEqual(["D major"]);
    expect(song.tempos.map(({ quarters }) => quarters)).toEqual([90]);
    expect(song.chords.map(({ onset, symbol }) => [quartersOf(onset), symbol])).toEqual([[1, "D"]]);
  });

  it("gives bars with pickup, repeat and endings", () => {
    expect(
      song.bars.map(({ number, pickup, repeatFrom, repeatTimes, endings }) => [number, pickup, repeatFrom, repeatTimes, endings]),
    ).toEqual([
      [0, true, false, 0, []],
      [1, false, true, 0, []],
      [2, false, false, 2, [1]],
      [3, false, false, 0, [2]],
    ]);
  });

  it("gives every voice at sounding pitch, ties joined, thirds of a quarter exact, the top note of a chord", () => {
    expect(song.lines.map(({ name }) => name)).toEqual(["Voice", "Clarinet in Bb, voice 1", "Clarinet in Bb, voice 2"]);
    expect(shownLine(song)).toBe("69@0+1 74@1+2 78@3+2 76@5+0.667 74@5.667+0.667 76@6.333+0.667 74@7+3");
    expect([shownLine(song, 1), shownLine(song, 2)]).toEqual(["62@1+3 62@4+3 62@7+3", "57@5+2"]);
    expect(song.lines[1]?.notes[0]?.pitch).toBe("D4");
    expect(song.leftOut.map(leftOutWords)).toEqual([
      "1 gracenote in Voice, bar 1",
      "1 lower note of a chord (its top note is kept) in Voice, bar 3",
    ]);
  });

  it("gives words verse by verse", () => {
    expect(shownWords(song)).toBe("Pa- per * * * * *");
    expect(shownWords(song, 2)).toBe("* Slow * * * * *");
  });

  it("is the same song timewise, compressed, in UTF-16 and with a byte-order mark", () => {
    const zipped = zipSync({
      "META-INF/container.xml": strToU8(`<container><rootfiles><rootfile full-path="a/song.musicxml"/></rootfiles></container>`),
      "a/song.musicxml": strToU8(LANTERN_XML),
    });
    expect(songFromBytes(zipped, "lantern.mxl")).toEqual(song);
    expect(songFromBytes(zipSync({ "song.xml": strToU8(LANTERN_XML) }), "lantern.mxl")).toEqual(song);
    const utf16 = LANTERN_XML.replace("UTF-8", "UTF-16");
    const bytes = new Uint8Array([0xff, 0xfe, ...[...utf16].flatMap((letter) => [letter.charCodeAt(0), 0])]);
    expect(songFromBytes(bytes, "lantern.xml")).toEqual(song);
    expect(songFromText(`\uFEFF${LANTERN_XML}`, "lantern.xml")).toEqual(song);
    expect(songFromText(timewise(LANTERN_XML), "lantern.xml")).toEqual(song);
  });

  it("in latin-1 keeps its accents", () => {
    const text = LANTERN_XML.replace("UTF-8", "ISO-8859-1").replace("Paper Lantern", "Père Lanterne");
    expect(
      songFromBytes(
        Uint8Array.from(text, (letter) => letter.charCodeAt(0)),
        "a.xml",
      ).title,
    ).toBe("Père Lanterne Weather");
  });
});

describe("MusicXML that is refused", () => {
  const lineOf = (text: string, part: string): number => text.slice(0, text.indexOf(part)).split("\n").length;
  it.each([
    [
      "entities of its own",
      LANTERN_XML.replace(/<!DOCTYPE[^>]*>/, '<!DOCTYPE score-partwise [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>').replace("Pa<", "&b;<"),
      "ENTITY declaration",
    ],
    [
      "an entity from outside",
      LANTERN_XML.replace(/<!DOCTYPE[^>]*>/, '<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/hostname">]>'),
      "ENTITY declaration",
    ],
    ["an entity nobody declared", LANTERN_XML.replace("Pa<", "&lantern;<"), "undefined entity"],
    ["XML that is not well-formed", LANTERN_XML.replace("</part>", ""), "unexpected close tag"],
    ["nesting without end", `<score-partwise>${"<part>".repeat(100_000)}`, "deeper ones"],
    ["another kind of XML", "<html><body/></html>", "<html>"],
    ["a length that is no number", LANTERN_XML.replace("<duration>12<", "<duration>long<"), '"long"'],
    ["a length below zero", LANTERN_XML.replace("<duration>12<", "<duration>-12<"), "-12 divisions"],
    ["divisions of zero", LANTERN_XML.replace("<divisions>6<", "<divisions>0<"), "0"],
    ["a pitch without a step", LANTERN_XML.replace("<step>D</step>", "<step>H</step>"), "H, 5"],
    ["free meter", LANTERN_XML.replace(/<time>.*<\/time>/, "<time><senza-misura/></time>"), "free meter"],
  ])("%s", (_, text, found) => {
    expect(() => songFromText(text, "odd.xml")).toThrow(ReadError);
    expect(() => songFromText(text, "odd.xml")).toThrow(found);
  });

  it("names the measure and the line", () => {
    const text = LANTERN_XML.replace("<duration>12<", "<duration>long<");
    expect(() => songFromText(text, "odd.xml")).toThrow(
      `odd.xml, measure 1, line ${lineOf(text, "<duration>long")}, duration: expected a number`,
    );
  });

  it(
    "A zip that unpacks to more than 32 MB is refused on the way, whatever size it tells",
    () => {
      const bomb = zipSync({ "song.xml": new Uint8Array(40 * 1024 * 1024) }, { level: 6 });
      expect(bomb.length).toBeLessThan(100_000);
      for (const bytes of [bomb, withSizes(bomb, 5000)]) {
        expect(() => songFromBytes(bytes, "bomb.mxl")).toThrow("bomb.mxl, song.xml: expected at most 33554432 bytes unpacked, found more");
      }
    },
    PATIENCE,
  );

  it("A zip with no music, with two pieces of it, or cut short", () => {
    const one = strToU8(LANTERN_XML);
    expect(() => songFromBytes(zipSync({ "notes.txt": one }), "a.mxl")).toThrow("a.mxl: expected one MusicXML file in it, found 0 of them");
    expect(() => songFromBytes(zipSync({ "a.xml": one, "b.xml": one }), "a.mxl")).toThrow("found 2 of them");
    expect(() => songFromBytes(zipSync({ "a.xml": one }).subarray(0, 300), "a.mxl")).toThrow(ReadError);
  });
});

/** Measures before parts, as the other form of MusicXML has it. */
function timewise(text: string): string {
  const parts = [...text.matchAll(/<part id="(P\d)">(.*?)<\/part>/gs)].map(([, id, body]) => ({
    id,
    measures: [...(body ?? "").matchAll(/<measure ([^>]*)>(.*?)<\/measure>/gs)],
  }));
  const measures = (parts[0]?.measures ?? []).map(
    ([, attributes], index) =>
      `<measure ${attributes}>${parts.map(({ id, measures: own }) => `<part id="${id}">${own[index]?.[2]}</part>`).join("")}</measure>`,
  );
  return text.replace(/<part id.*<\/part>/s, measures.join("")).replaceAll("score-partwise", "score-timewise");
}

/** A zip of one file with other unpacked sizes written into it. */
function withSizes(zip: Uint8Array, size: number): Uint8Array {
  const bytes = zip.slice();
  const view = new DataView(bytes.buffer);
  for (let at = 0; at + 4 <= bytes.length; at++) {
    if (view.getUint32(at, true) === 0x04034b50) view.setUint32(at + 22, size, true);
    if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, size, true);
  }
  return bytes;
}
