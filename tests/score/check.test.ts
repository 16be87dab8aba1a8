import { describe, expect, it } from "vitest";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { check } from "../../src/score/check.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { Score } from "../../src/score/score.ts";
import { hertz } from "../../src/units/hertz.ts";
import { asText, at, pipeSketch } from "../support/pipe-sketch.ts";
import { concertNote } from "../support/written-music.ts";

/** All but the crossings, which nearly every tune has; those have tests of their own. */
const found = (score: Score): readonly Finding[] => check(score).filter(({ kind }) => kind !== "crossing");

const said = (score: Score): readonly string[] =>
  found(score).map(({ kind, address, message }) => `${kind} ${address.line} ${address.bar}+${address.at}: ${message}`);

function applied(score: Score, edits: readonly Edit[]): Score {
  const outcome = applyEdits(score, edits);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

/** What is left after the cure of that name for the only finding. */
function cured(score: Score, label: string): Score {
  const [finding] = found(score);
  const cure = finding?.cures.find((one) => one.label === label);
  if (cure === undefined) throw new Error(`no cure ${label} among ${finding?.cures.map((one) => one.label).join()}`);
  return applied(score, cure.edits);
}

const REST = "The chanter cannot rest here. Hold E, or mark a cut-off.";
const LONG_REST = "The chanter cannot rest here. Mark a cut-off, or hold E.";

const TABLE: readonly (readonly [fact: string, music: string, findings: readonly string[]])[] = [
  ["nothing in a line that breathes where it may", "d2! e2. z2 f2! | {g}f2 {a}g2 a4", []],
  ["nothing in rests before the first note and after the last", "z8 | d8! | z8 | z8", []],
  ["a rest inside a phrase", "d2! e2 z2 f2", [`rest pipes 0+1920: ${REST}`]],
  ["one rest, however many rests it is written as", "d2! e6 | z8 | z4 f4", [`rest pipes 1+0: ${LONG_REST}`]],
  ["two like notes", "d2! f2 f4", ["like-notes pipes 0+1920: Two Fs with nothing between them sound as one. A G gracenote divides them."]],
  [
    "two like notes over a bar line",
    "d4! A4 | A8",
    ["like-notes pipes 1+0: Two low As with nothing between them sound as one. A G gracenote divides them."],
  ],
  [
    "two high Gs want the thumb",
    "d4! g2 g2",
    ["like-notes pipes 0+2880: Two high Gs with nothing between them sound as one. A thumb gracenote divides them."],
  ],
  [
    "two high As want a strike",
    "d4! a2 a2",
    ["like-notes pipes 0+2880: Two high As with nothing between them sound as one. A strike to high G divides them."],
  ],
  ["tied notes are one note", "d8!- | d8", []],
  ["a tie to another note", "d8!- | e8", ["tie pipes 0+0: This tie leads to another note. Take it away, or make the notes alike."]],
  ["a tie to a rest", "d4!- z4", ["tie pipes 0+0: This tie leads to another note. Take it away, or make the notes alike."]],
  ["a tie at the very end", "d8!-", ["tie pipes 0+0: This tie leads to another note. Take it away, or make the notes alike."]],
  ["a first note that nothing starts", "d8", ["rest pipes 0+0: Nothing starts the chanter here. Mark a strike-in."]],
  [
    "a note after a cut-off that nothing starts",
    "d4!. z2 e2",
    ["rest pipes 0+2880: The chanter was cut off before this note. Mark a strike-in."],
  ],
  [
    "a strike-in while the chanter sounds",
    "d4! e4!",
    ["rest pipes 0+1920: The chanter is already sounding here. Take the strike-in away."],
  ],
  [
    "a note that does not speak",
    "d4! =c4",
    ["cross-fingering pipes 0+1920: C natural does not speak in this setup. Play C, or tick it once it speaks."],
  ],
  [
    "a bar that is too short",
    "d4! e2 | f8",
    ["bar-length pipes 0+2880: This bar has 3 quarters where its meter asks for 4. Fill it with a rest."],
  ],
  [
    "a bar that is too long",
    "d4! e4 f2 | f8",
    [
      "bar-length pipes 0+3840: This bar has 5 quarters where its meter asks for 4. Cut what runs over.",
      "like-notes pipes 1+0: Two Fs with nothing between them sound as one. A G gracenote divides them.",
    ],
  ],
  [
    "a length that no value shows",
    "d77/480! e3763/480",
    [
      "note-value pipes 0+0: No note value lasts as long as this. Make it longer or shorter.",
      "note-value pipes 0+77: No note value lasts as long as this. Make it longer or shorter.",
    ],
  ],
  [
    "a triplet that lacks a note",
    "3:d320/480! 3:e320/480 f3200/480",
    [
      "note-value pipes 0+0: This triplet is not filled. Add what it lacks, or clear it.",
      "note-value pipes 0+640: No note value lasts as long as this. Make it longer or shorter.",
    ],
  ],
];

describe("check finds", () => {
  for (const [fact, music, findings] of TABLE) {
    it(fact, () => {
      expect(said(pipeSketch(music))).toEqual(findings);
    });
  }

  it("no like notes between a first ending and the second, which is played after what stands before both", () => {
    const score = applied(pipeSketch("d8! | f8 | {g}e8 | d4 e4 | e8"), [
      { kind: "repeat", range: { first: 0, last: 3 }, on: true },
      { kind: "ending", range: { first: 3, last: 3 }, ending: 1 },
      { kind: "ending", range: { first: 4, last: 4 }, ending: 2 },
    ]);
    expect(said(score)).toEqual(["like-notes pipes 4+0: Two Es with nothing between them sound as one. A G gracenote divides them."]);
  });

  it("no rest on pipes that can rest", () => {
    const setup = { ...defaultSetup("A"), canRest: true };
    expect(said(applied(pipeSketch("d2! e2 z2 f2"), [{ kind: "setup", line: "pipes", setup }]))).toEqual([]);
  });

  it("nothing in a cross-fingered note that speaks", () => {
    const setup = { ...defaultSetup("B"), crossFingerings: defaultCrossFingerings(["high-g-sharp"]) };
    expect(said(applied(pipeSketch("d4! ^g4"), [{ kind: "setup", line: "pipes", setup }]))).toEqual([]);
  });

  it("repeats and endings that do not close", () => {
    const open = applied(pipeSketch("d8! | e8 | f8"), [
      { kind: "repeat", range: { first: 1, last: 1 }, on: true },
      { kind: "ending", range: { first: 1, last: 1 }, ending: null },
    ]);
    const marks = (bar: number, marked: object): Score => ({
      ...open,
      frames: open.frames.map((frame, index) => ({ ...frame, repeatStart: false, repeatEnd: false, ...(index === bar ? marked : {}) })),
    });
    expect(said(marks(1, { repeatStart: true }))).toEqual([
      "repeat pipes 1+0: The repeat that begins here does not end. Mark its last bar, or take it away.",
    ]);
    expect(said(marks(2, { repeatEnd: true }))).toEqual([]);
    expect(said(marks(1, { ending: 2 }))).toEqual([
      "repeat pipes 1+0: This second ending has no first one before it. Take it away, or mark the first.",
    ]);
    expect(said(marks(1, { ending: 1 }))).toEqual(["repeat pipes 1+0: The first ending does not lead back. Mark a repeat at its end."]);
    expect(said(marks(1, { ending: 1, repeatEnd: true }))).toEqual([
      "repeat pipes 1+0: The first ending has no second one after it. Mark it, or take the first away.",
    ]);
  });

  it("what a player cannot reach, once for a whole stretch of doubling", () => {
    const score = applied(pipeSketch("a8! | {g}f8 | a8"), [
      { kind: "add-player", id: "cornet", name: "Cornet", player: "cornet-bb", doubles: "pipes", octaves: 1 },
    ]);
    // High A sounds B flat 5 on a B flat chanter, an octave higher B flat 6; a cornet ends at B flat 5.
    expect(said(score)).toEqual(["range cornet 0+0: B♭6 lies over B♭5, where this player’s range ends. Play it an octave lower."]);
    expect(said(cured(score, "Double at the pipes’ pitch"))).toEqual([]);
  });

  it("pipes that go above or below a player, who can double them an octave below or above", () => {
    const doubling = (music: string, player: "trombone" | "whistle-d"): Score =>
      applied(pipeSketch(music), [{ kind: "add-player", id: player, name: "Player", player, doubles: "pipes", octaves: 0 }]);
    for (const [score, label] of [
      [doubling("a8! | e8", "trombone"), "Double an octave below"],
      [doubling("G8! | e8", "whistle-d"), "Double an octave above"],
    ] as const) {
      expect(found(score).map(({ kind, cures }) => [kind, cures.map((cure) => cure.label)])).toEqual([["range", [label]]]);
      expect(said(cured(score, label))).toEqual([]);
    }
  });

  it("notes of a player's own out of reach, bar by bar", () => {
    const score = applied(pipeSketch("d8! | e8"), [
      { kind: "add-player", id: "fiddle", name: "Fiddle", player: "fiddle", doubles: null, octaves: 0 },
      {
        kind: "place",
        at: at(1, 0, "fiddle"),
        ticks: concertNote("C3", 1920).ticks,
        tuplet: null,
        content: { kind: "concert", pitches: concertNote("C3", 960).pitches },
      },
    ]);
    expect(said(score)).toEqual(["range fiddle 1+0: C3 lies under G3, where this player’s range ends. Play it an octave higher."]);
    expect(said(cured(score, "An octave higher"))).toEqual([]);
  });

  it("pipes and band more than 10 cents apart, and the band's A that fits: 453.06 Hz for 480", () => {
    const alone = applied(pipeSketch("d8!"), [{ kind: "setup", line: "pipes", setup: defaultSetup(hertz(480)) }]);
    expect(said(alone)).toEqual([]);
    const score = applied(alone, [{ kind: "add-player", id: "fiddle", name: "Fiddle", player: "fiddle", doubles: "pipes", octaves: 0 }]);
    expect(found(score).map((finding) => finding.kind)).toEqual(["pitch"]);
    expect(check(score)[0]?.message).toMatch(/^A chanter at 480 lies between .*453\.1/);
    const tuned = cured(score, "Band at A 453.1");
    expect(tuned.bandA).toBeCloseTo(453.06, 2);
    expect(said(tuned)).toEqual([]);
  });
});

describe("a cure", () => {
  const table: readonly (readonly [music: string, label: string, after: string])[] = [
    ["d2! e2 z2 f2", "Hold E", "d2! e4 f2"],
    ["d2! e2 z2 f2", "Mark a cut-off", "d2! e2. z2 f2!"],
    ["d2! f2 f4", "Add it", "d2! f2 {g}f4"],
    ["d2! f2 f4", "Tie them", "d2! f2- f4"],
    ["d8!- | e8", "Take it away", "d8! | e8"],
    ["d8", "Strike in here", "d8!"],
    ["d4! e4!", "Take it away", "d4! e4"],
    ["d4! =c4", "Play C", "d4! c4"],
    ["d4! =c4", "It speaks", "d4! =c4"],
    ["d77/480! e3763/480", "Make it longer", "d120/480! e3720/480"],
    ["z77/480 e3763/480!", "Make it longer", "z120/480 e3720/480!"],
    ["3:d320/480! 3:e320/480 f3200/480", "Clear it", "z2 f6!"],
    ["d4! e2 | f8", "Fill it", "d4! e2 z2 | f8"],
    ["d4! e4 f2 | {g}f8", "Cut it", "d4! e4 | {g}f8"],
  ];
  for (const [music, label, after] of table) {
    it(`“${label}” makes ${after} of ${music}`, () => {
      expect(asText(cured(pipeSketch(music), label))).toBe(after);
    });
  }
});

describe("check", () => {
  it("gives the same findings for a bar that did not change, as the same objects", () => {
    const score = pipeSketch("d2! f2 f4 | {g}e8 | d8");
    const before = check(score);
    const [line] = score.lines;
    const after = check(applied(score, [{ kind: "repitch", at: at(2, 0), content: { kind: "pipes", note: "b" } }]));
    expect(line?.id).toBe("pipes");
    expect(before.map(({ kind }) => kind)).toEqual(["crossing", "like-notes", "crossing"]);
    expect(after.slice(0, 2)).toEqual(before.slice(0, 2));
    for (const [index, finding] of before.slice(0, 2).entries()) expect(after[index]).toBe(finding);
  });

  it("finds one bar in each place where it stands", () => {
    const score = pipeSketch("d2! f2 f4 | {g}e8");
    const bars = [0, 1, 0, 1, 0].map((index) => score.lines[0]?.bars[index]);
    const again = {
      ...score,
      frames: [0, 1, 0, 1, 0].map((index) => score.frames[index]),
      lines: [{ ...score.lines[0], bars }],
    } as unknown as Score;
    expect(
      check(again)
        .filter((finding) => finding.kind === "like-notes")
        .map((finding) => finding.address.bar),
    ).toEqual([0, 2, 4]);
  });

  it("never throws on scores whose lines, bars and frames do not fit each other", () => {
    const score = applied(pipeSketch("d2! f2 f4 | {g}e8- | d8"), [
      { kind: "add-player", id: "fiddle", name: "Fiddle", player: "fiddle", doubles: "pipes", octaves: 0 },
    ]);
    const [pipes, fiddle] = score.lines;
    const crooked: readonly Score[] = [
      { ...score, frames: [] },
      { ...score, lines: [] },
      { ...score, frames: score.frames.slice(0, 1) },
      { ...score, lines: [{ ...pipes, bars: [] }, fiddle] as Score["lines"] },
      { ...score, lines: [fiddle] as Score["lines"] },
      { ...score, lines: [pipes, { ...fiddle, player: "kazoo" }] as Score["lines"] },
      { ...score, lines: [pipes, { ...fiddle, bars: [{ kind: "own", events: [] }] }] as Score["lines"] },
      { ...score, lines: [pipes, { ...fiddle, bars: [{ kind: "doubling", of: "pipes", octaves: 1000 }] }] as Score["lines"] },
      { ...score, lines: [pipes, { ...fiddle, bars: [{ kind: "doubling", of: "fiddle", octaves: 0 }] }] as Score["lines"] },
    ];
    for (const one of crooked) expect(Array.isArray(check(one))).toBe(true);
  });
});
