import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SongReport } from "../../src/cli/commands/song.ts";
import { ninefold } from "../support/command-line.ts";
import { LANTERN_ABC, LANTERN_XML } from "../support/small-songs.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ninefold-song-"));
  await writeFile(join(folder, "lantern.abc"), LANTERN_ABC);
  await writeFile(join(folder, "lantern.musicxml"), LANTERN_XML);
  await writeFile(join(folder, "chant.abc"), "X:1\nT:Chant\nM:none\nK:C\nCDEF|]\n");
  await writeFile(join(folder, "words.txt"), "Dear piper");
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const reportOf = async (...words: readonly string[]): Promise<SongReport> => {
  const run = await ninefold(["song", ...words, "--json"], folder);
  expect(run).toMatchObject({ exit: 0, complaint: "" });
  return JSON.parse(run.output);
};

describe("ninefold song", () => {
  it("prints what a song holds", async () => {
    expect(await reportOf("lantern.musicxml")).toEqual({
      title: "Paper Lantern Weather",
      lines: [
        { name: "Voice", notes: 7, lowest: 69, highest: 78, melody: true },
        { name: "Clarinet in Bb, voice 1", notes: 3, lowest: 62, highest: 62, melody: false },
        { name: "Clarinet in Bb, voice 2", notes: 1, lowest: 57, highest: 57, melody: false },
      ],
      meters: [{ bar: 0, meter: "3/4" }],
      keys: [{ bar: 0, onset: 0, key: "D major" }],
      tempo: 90,
      bars: 4,
      chords: [{ bar: 1, onset: 1, symbol: "D" }],
      leftOut: ["1 gracenote in Voice, bar 1", "1 lower note of a chord (its top note is kept) in Voice, bar 3"],
    });
  });

  it("prints the notes of a line, counted from 1, repeats not played out and ties joined; else those of the likely tune", async () => {
    const second = await reportOf("lantern.musicxml", "--line", "2", "--notes");
    expect(second.notes).toEqual([
      { bar: 1, onset: 1, duration: 3, midi: 62 },
      { bar: 2, onset: 4, duration: 3, midi: 62 },
      { bar: 3, onset: 7, duration: 3, midi: 62 },
    ]);
    const tune = await reportOf("lantern.musicxml", "--notes");
    expect(tune.notes?.slice(2, 5)).toEqual([
      { bar: 1, onset: 3, duration: 2, midi: 78 },
      { bar: 2, onset: 5, duration: 2 / 3, midi: 76 },
      { bar: 2, onset: 5 + 2 / 3, duration: 2 / 3, midi: 74 },
    ]);
  });

  it("says it in words without --json", async () => {
    const { output } = await ninefold(["song", "lantern.abc"], folder);
    expect(output).toContain("Paper Lantern Weather: 5 bars, 6/8");
    expect(output).toContain("A dorian");
    expect(output).toMatch(/1 {2}Tune +\d+ .*likely the tune/);
    expect(output).toContain("1 gracenote in Tune, bar 1");
    expect(output).not.toContain("end elsewhere");
  });

  it("bars a song of free meter in the meter asked for", async () => {
    expect((await reportOf("chant.abc", "--meter", "2/4")).meters).toEqual([{ bar: 1, meter: "2/4" }]);
  });

  it.each([
    [["chant.abc"], "chant.abc, bar 1: expected a meter (or a wish for one to bar it in), found free meter"],
    [["words.txt"], "words.txt: expected MusicXML, MIDI or ABC (which has a field K:), found none of them"],
    [["nothing.abc"], "nothing.abc: expected a song: MusicXML, MIDI or ABC, found no such file or folder"],
    [["lantern.abc", "--line", "9"], "--line: expected a line from 1 to 3, found 9"],
    [["lantern.abc", "--line", "two"], '--line: expected a whole number from 1, found "two"'],
    [["lantern.abc", "--meter", "3/5"], '--meter: expected a meter such as 3/4, found "3/5"'],
  ])("%j is refused with one line and exit 2", async (words, complaint) => {
    const run = await ninefold(["song", ...words, "--json"], folder);
    expect(run).toMatchObject({ exit: 2, output: "" });
    expect(run.complaint.trim()).toBe(`ninefold song: ${complaint}`);
  });
});
