import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { notesBefore } from "../../src/arranging/grace-place.ts";
import { graceSites } from "../../src/arranging/grace-sites.ts";
import { fingeringTable } from "../../src/pipes/fingering-table.ts";
import { movementsOf } from "../../src/pipes/gracenote-group.ts";
import { shownKey } from "../../src/pitch/key-signature.ts";
import type { PipeNote } from "../../src/score/bar.ts";
import { barNumber } from "../../src/score/bar-number.ts";
import { check } from "../../src/score/check.ts";
import { pipeLines } from "../../src/score/line-of.ts";
import { playedOrder } from "../../src/score/played-order.ts";
import { savedFormOf, scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Score } from "../../src/score/score.ts";
import { expectSound } from "../support/score-laws.ts";

const FOLDER = fileURLToPath(new URL("../../examples/", import.meta.url));
const read = (name: string): Score => scoreFromSavedForm(readFileSync(`${FOLDER}${name}`, "utf8"));
const NAMES = ["paper-lantern-weather.json", "the-dry-dock-set.json", "the-long-light.json"];

const pipeNotes = (score: Score): readonly PipeNote[] =>
  score.lines
    .flatMap((line) => (line.kind === "pipes" ? line.bars.flatMap((bar) => bar.events) : []))
    .filter((event) => event.kind === "note");
/** All but crossings, which no tune is without. */
const findings = (score: Score): readonly string[] =>
  check(score).flatMap(({ kind, address }) => (kind === "crossing" ? [] : [`${kind} ${barNumber(score, address.bar)}`]));
const sections = (score: Score): string =>
  score.frames
    .flatMap(({ section, key }, bar) => (section === null ? [] : [`${section.name} ${barNumber(score, bar)} ${shownKey(key)}`]))
    .join(", ");

/** Gracenotes that the fingers cannot do, whichever way playing reaches them, each with the reason. */
function unplayable(score: Score): readonly string[] {
  return pipeLines(score).flatMap((line) =>
    graceSites(score, line).flatMap((site) =>
      notesBefore(site).flatMap((before) => {
        const { note, gracenotes } = site.note;
        const judged = movementsOf(fingeringTable(line.setup), gracenotes, { before, note });
        return judged.ok ? [] : [`bar ${barNumber(score, site.address.bar)}, ${note} after ${before}: ${judged.reason}`];
      }),
    ),
  );
}

describe("the examples", () => {
  it("are these three", () => {
    expect(
      readdirSync(FOLDER)
        .filter((name) => name.endsWith(".json"))
        .sort(),
    ).toEqual(NAMES);
  });

  for (const name of NAMES) {
    it(`${name} is sound, and saved as the program saves it`, () => {
      const score = read(name);
      expectSound(score);
      expect(savedFormOf(score)).toBe(readFileSync(`${FOLDER}${name}`, "utf8"));
    });

    it(`${name} asks for no gracenote that cannot be fingered`, () => {
      expect(unplayable(read(name))).toEqual([]);
    });
  }

  it("The Long Light: pipes alone, two parts with endings, low G to high A, nothing to look at", () => {
    const score = read("the-long-light.json");
    expect(score.lines.map((line) => line.kind)).toEqual(["pipes"]);
    expect(findings(score)).toEqual([]);
    expect(sections(score)).toBe("First part 0 E♭ major, Second part 10 E♭ major");
    expect(playedOrder(score.frames).length).toBe(1 + 2 * (7 + 1 + 7 + 1));
    expect(pipeNotes(score).length).toBe(66);
    expect(new Set(pipeNotes(score).map(({ note }) => note))).toEqual(
      new Set(["low-g", "low-a", "b", "c", "d", "e", "f", "high-g", "high-a"]),
    );
  });

  it("Paper Lantern Weather: verses in E need the nine, choruses in B the leading tone; one rest and two like notes to look at", () => {
    const score = read("paper-lantern-weather.json");
    expect(score.frames.length).toBe(60);
    expect(sections(score)).toBe(
      "Intro 1 E major, Verse 9 E major, Chorus 17 B major, Verse 25 E major, Chorus 33 B major, Middle 41 E major, Chorus 49 B major, End 57 B major",
    );
    expect(findings(score)).toEqual(["rest 16", "like-notes 17"]);
    const [pipes] = score.lines;
    if (pipes?.kind !== "pipes") throw new RangeError("pipes first");
    const sharps = pipes.bars.flatMap((bar, index) =>
      bar.events.some((event) => event.kind === "note" && event.note === "high-g-sharp") ? [barNumber(score, index)] : [],
    );
    expect(sharps).toEqual([19, 23, 35, 39, 48, 51, 55, 58]);
    expect(score.frames[18]?.chords).toEqual([{ at: 0, symbol: "F#" }]);
    const [, fiddle] = score.lines;
    expect(fiddle?.kind === "concert" && fiddle.bars.filter((bar) => bar.kind === "doubling").length).toBe(16);
  });

  it("The Dry Dock Set: a 480 Hz chanter and a band at 440, half a semitone apart", () => {
    const score = read("the-dry-dock-set.json");
    expect(score.lines.map((line) => (line.kind === "pipes" ? line.setup.lowA : line.player))).toEqual([
      480,
      "flute",
      "fiddle",
      "trumpet-bb",
    ]);
    expect(findings(score)).toEqual(["pitch 1"]);
    expect(playedOrder(score.frames).length).toBe(2 * 8 + 2 * 8);
  });
});
