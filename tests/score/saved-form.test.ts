import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { PLAIN_FINGERINGS } from "../../src/pipes/fingerings.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { withFingering } from "../../src/pipes/setup-changes.ts";
import { pipeLines } from "../../src/score/line-of.ts";
import { newScore } from "../../src/score/new-score.ts";
import { LaterVersionError, savedFormOf, scoreFromSavedForm } from "../../src/score/saved-form.ts";
import { upgraded } from "../../src/score/saved-upgrades.ts";
import type { Score } from "../../src/score/score.ts";
import { ReadError } from "../../src/units/read-error.ts";
import { ticks } from "../../src/units/ticks.ts";

function sketch(): Score {
  const at = { line: "pipes", bar: 0, at: ticks(0) };
  const applied = applyEdits(newScore({ title: "Kettle and Crane", bars: 2 }), [
    { kind: "place", at, ticks: ticks(960), tuplet: null, content: { kind: "pipes", note: "d" } },
    { kind: "gracenotes", at, gracenotes: ["high-g"] },
    { kind: "syllables", at, syllables: [{ text: "pa", hyphen: true }] },
    { kind: "add-player", id: "fiddle", name: "Fiddle", player: "fiddle", doubles: "pipes", octaves: 0 },
    { kind: "chords", bar: 0, chords: [{ at: ticks(0), symbol: "E" }] },
  ]);
  if (!applied.ok) throw new Error(applied.reason);
  return applied.value;
}

/** The saved sketch with another value at a path such as `lines[0].bars[1].of`; undefined takes the entry away. */
function tampered(path: string, value: unknown): string {
  const saved: unknown = JSON.parse(savedFormOf(sketch()));
  const steps = path.split(/[.[\]]+/).filter((step) => step !== "");
  const last = steps.pop() ?? "";
  let place = saved as Record<string, unknown>;
  for (const step of steps) place = place[step] as Record<string, unknown>;
  if (value === undefined) delete place[last];
  else place[last] = value;
  return JSON.stringify(saved);
}

function errorOf(text: string): ReadError {
  try {
    scoreFromSavedForm(text);
  } catch (error) {
    if (error instanceof ReadError) return error;
    throw error;
  }
  throw new Error("It was read.");
}

describe("the saved form", () => {
  it("gives back the very same sketch, and the same text for it", () => {
    const text = savedFormOf(sketch());
    expect(scoreFromSavedForm(text)).toStrictEqual(sketch());
    expect(savedFormOf(scoreFromSavedForm(text))).toBe(text);
  });

  it("keeps nine measured cents values in the chanter's order", () => {
    const cents = { "high-a": 1200, "low-g": -204, "low-a": 0, b: 204, c: 386, d: 498, e: 702, f: 884, "high-g": 969 };
    const text = savedFormOf(scoreFromSavedForm(tampered("lines[0].setup.scale", { kind: "measured", cents })));
    expect(text).toContain('"cents":{"low-g":-204,"low-a":0,"b":204');
  });

  it("writes one bar a line and leaves out what is usual", () => {
    expect(savedFormOf(sketch()).split("\n")).toContain(
      '{"kind":"pipes","events":[{"kind":"note","note":"d","ticks":960,"syllables":[{"text":"pa","hyphen":true}],"gracenotes":["high-g"],"strikeIn":true},{"kind":"rest","ticks":2880}]},',
    );
  });

  it("takes a byte order mark and other white space", () => {
    expect(scoreFromSavedForm(`\ufeff ${savedFormOf(sketch())}\n\n`)).toStrictEqual(sketch());
  });

  it("takes bars that do not fill their frames: check finds them", () => {
    const text = tampered("lines[0].bars[0].events[0].ticks", 480);
    expect(scoreFromSavedForm(text).lines[0]?.bars[0]).toMatchObject({ events: [{ ticks: 480 }, { ticks: 2880 }] });
  });

  it("refuses a later version by name", () => {
    const error = errorOf(tampered("version", 7));
    expect(error).toBeInstanceOf(LaterVersionError);
    expect(error.message).toBe("Saved by a later Ninefold (version 7). This one reads up to 2.");
  });

  const faults: readonly (readonly [what: string, path: string, value: unknown, message: string])[] = [
    ["another format", "format", "other", "file: expected a sketch saved by Ninefold, found another kind of file"],
    ["no version", "version", undefined, "version: expected a whole number from 1, found nothing"],
    ["a version in letters", "version", "1", 'version: expected a whole number from 1, found "1"'],
    ["a frame without a meter", "frames[1].meter", undefined, "frames[1].meter: expected a value, found nothing"],
    ["an entry nobody knows", "lines[0].bars[0].colour", 1, "lines[0].bars[0].colour: expected no entry of that name, found one"],
    [
      "a length in letters",
      "lines[0].bars[0].events[1].ticks",
      "long",
      'lines[0].bars[0].events[1].ticks: expected a whole number, 1 to 245760, found "long"',
    ],
    [
      "a length of nothing",
      "lines[0].bars[0].events[1].ticks",
      0,
      "lines[0].bars[0].events[1].ticks: expected a whole number, 1 to 245760, found 0",
    ],
    [
      "a length that is not whole",
      "lines[0].bars[0].events[1].ticks",
      0.5,
      "lines[0].bars[0].events[1].ticks: expected a whole number, 1 to 245760, found 0.5",
    ],
    [
      "another note",
      "lines[0].bars[0].events[0].note",
      "h",
      'lines[0].bars[0].events[0].note: expected a chanter note such as low-a, found "h"',
    ],
    [
      "a third thing between note and rest",
      "lines[0].bars[0].events[0].kind",
      "drum",
      'lines[0].bars[0].events[0].kind: expected a note or a rest, found "drum"',
    ],
    ["no bars at all", "frames", [], "frames: expected at least one bar, found a list of 0"],
    ["one bar too few", "lines[0].bars", [{ kind: "pipes" }], "lines[0].bars: expected 2 bars, one for each frame, found 1"],
    ["two lines of one id", "lines[1].id", "pipes", 'lines[1].id: expected an id that no other line has, found "pipes"'],
    ["a doubling of nobody", "lines[1].bars[1].of", "organ", 'lines[1].bars[1].of: expected the id of a pipe line, found "organ"'],
    ["a doubling of a fiddle", "lines[1].bars[1].of", "fiddle", 'lines[1].bars[1].of: expected the id of a pipe line, found "fiddle"'],
    ["an instrument nobody plays", "lines[1].player", "kazoo", 'lines[1].player: expected a player of the catalogue, found "kazoo"'],
    ["a chord outside its bar", "frames[0].chords[0].at", 3840, "frames[0].chords[0].at: expected a time inside the bar, found 3840"],
    ["a band A nobody has", "bandA", 500, "bandA: expected a band A in hertz, 380 to 480, found 500"],
    ["low A without end", "lines[0].setup.lowA", 1e9, "lines[0].setup.lowA: expected 1 to 20000 hertz, found 1000000000"],
    ["a list where a text should be", "title", [1, 2], "title: expected a text, found a list of 2"],
  ];
  for (const [what, path, value, message] of faults) {
    it(`names place, expectation and finding for ${what}`, () => {
      expect(errorOf(tampered(path, value)).message).toBe(message);
    });
  }

  const hostile: readonly (readonly [what: string, text: string, message: string])[] = [
    ["nothing", "", "file: expected JSON, found nothing"],
    ["text that is not JSON", "X:1\nT:Tune", "file: expected JSON, found text that is not JSON"],
    ["a list", "[]", "file: expected a sketch saved by Ninefold, found a list of 0"],
    ["null", "null", "file: expected a sketch saved by Ninefold, found null"],
    [
      "a number too large for JSON",
      savedFormOf(sketch()).replace('"bandA": 440', '"bandA": 1e999'),
      "bandA: expected a band A in hertz, 380 to 480, found null",
    ],
    [
      "a key of the prototype",
      savedFormOf(sketch()).replace('"title"', '"__proto__": {"title": "x"}, "title"'),
      "__proto__: expected no entry of that name, found one",
    ],
    [
      "a constructor",
      savedFormOf(sketch()).replace('"title"', '"constructor": {}, "title"'),
      "constructor: expected no entry of that name, found one",
    ],
    [
      "a player out of the prototype",
      savedFormOf(sketch()).replace('"player":"fiddle"', '"player":"toString"'),
      'lines[1].player: expected a player of the catalogue, found "toString"',
    ],
    ["a hundred thousand brackets", "[".repeat(100_000), "file: expected JSON, found text that is not JSON"],
  ];
  for (const [what, text, message] of hostile) {
    it(`refuses ${what}`, () => {
      expect(errorOf(text).message).toBe(message);
    });
  }

  it("measures a list before it looks at its million entries", () => {
    const text = tampered(
      "lines[0].bars[0].events",
      Array.from({ length: 1_000_000 }, () => 0),
    );
    const started = performance.now();
    expect(errorOf(text).message).toBe("lines[0].bars[0].events: expected at most 1600 entries, found a list of 1000000");
    expect(performance.now() - started).toBeLessThan(2000);
  });

  it("reads a sketch of version 1: the nine as the tables have them, each cross-fingering as loud and dull as it was sounded then", () => {
    const old = readFileSync(new URL("saved/version-1.json", import.meta.url), "utf8");
    expect(JSON.parse(old).version).toBe(1);
    const read = scoreFromSavedForm(old);
    const setup = pipeLines(read)[0]?.setup;
    expect(setup?.fingerings).toEqual(PLAIN_FINGERINGS);
    expect(setup?.crossFingerings.map(({ note, level, dullness }) => [note, level, dullness])).toEqual([
      ["c-natural", -2, 7],
      ["f-natural", -2, 7],
      ["high-g-sharp", -2, 5],
    ]);
    expect(read.frames.every(({ tune }) => tune === null)).toBe(true);
    expect(scoreFromSavedForm(savedFormOf(read))).toStrictEqual(read);
  });

  it("keeps the piper's own fingerings and the tunes of a medley, and writes only what is not usual", () => {
    const tune = { title: "Crane Lullaby", tuneType: "Slow air", composer: "Mairi Quern" };
    const setup = withFingering(pipeLines(sketch())[0]?.setup as PipeSetup, "d", "X XXX OOOO");
    const applied = applyEdits(sketch(), [
      { kind: "setup", line: "pipes", setup },
      { kind: "tune", bar: 1, tune },
    ]);
    if (!applied.ok) throw new Error(applied.reason);
    const text = savedFormOf(applied.value);
    expect(text).toContain('"fingerings":{"d":"X XXX OOOO"}');
    expect(text.match(/Crane Lullaby/g)).toHaveLength(1);
    expect(scoreFromSavedForm(text)).toStrictEqual(applied.value);
  });

  it("brings older versions up one step at a time", () => {
    const upgraders = { 1: (fields: object) => ({ ...fields, two: true }), 2: (fields: object) => ({ ...fields, three: true }) };
    expect(upgraded({ version: 1, title: "x" }, 3, upgraders)).toStrictEqual({ title: "x", two: true, three: true });
    expect(upgraded({ version: 3, title: "x" }, 3, upgraders)).toStrictEqual({ title: "x" });
    expect(() => upgraded({ version: 1 }, 2, {})).toThrow(RangeError);
  });
});
