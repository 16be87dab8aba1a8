import { describe, expect, it } from "vitest";
import { applyEdit, applyEdits } from "../../src/editing/apply-edit.ts";
import { copyBars } from "../../src/editing/clip.ts";
import { concertEventsOf } from "../../src/score/doubling.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { ticks } from "../../src/units/ticks.ts";
import { asText, at, pipeSketch } from "../support/pipe-sketch.ts";
import { lineAsAbc } from "../support/score-as-code.ts";
import { concertNote } from "../support/written-music.ts";

function applied(score: Score, ...edits: readonly Edit[]): Score {
  const outcome = applyEdits(score, edits);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

function reason(score: Score, edit: Edit): string {
  const outcome = applyEdit(score, edit);
  return outcome.ok ? "It was done." : outcome.reason;
}

const bars = (first: number, last = first) => ({ first, last });
const FIDDLE: Edit = { kind: "add-player", id: "fiddle", name: "Fiddle", player: "fiddle", doubles: "pipes", octaves: 0 };
const textOf = (score: Score, id: string): string => {
  const line = score.lines.find((one) => one.id === id);
  return line === undefined ? "" : lineAsAbc(line);
};
/** Where the frames' signs stand: `|:` `:|` `1` `2`, one word a bar. */
const signs = (score: Score): string =>
  score.frames.map((frame) => `${frame.repeatStart ? "|:" : ""}${frame.ending ?? "-"}${frame.repeatEnd ? ":|" : ""}`).join(" ");

describe("bars that come and go", () => {
  it("inserts empty bars in the meter, key and tempo of the bar before", () => {
    const score = applied(pipeSketch("d6! | e6", { beats: 6, unit: 8 }), { kind: "insert-bars", before: 1, count: 2 });
    expect(asText(score)).toBe("d6! | z6 | z6 | e6");
    expect(score.frames.map(({ meter }) => `${meter.beats}/${meter.unit}`)).toEqual(["6/8", "6/8", "6/8", "6/8"]);
  });

  it("breaks a tie that would lead into an inserted bar", () => {
    expect(asText(applied(pipeSketch("d8!- | d8"), { kind: "insert-bars", before: 1, count: 1 }))).toBe("d8! | z8 | d8");
  });

  it("lets a player who doubles go on doubling in inserted bars", () => {
    const score = applied(pipeSketch("d8! | e8"), FIDDLE, { kind: "insert-bars", before: 1, count: 1 });
    expect(textOf(score, "fiddle")).toBe("(with pipes) | (with pipes) | (with pipes)");
  });

  it("puts copied bars in; what comes first is struck in, and only that", () => {
    const score = pipeSketch("d8! | e8");
    expect(asText(applied(score, { kind: "insert-clip", before: 0, clip: copyBars(score, bars(1)) }))).toBe("e8! | d8 | e8");
  });

  it("leaves lines out that the sketch does not know, and lets others rest", () => {
    const clip = copyBars(applied(pipeSketch("f8!"), { ...FIDDLE, id: "flute", doubles: null }), bars(0));
    const score = applied(pipeSketch("d8! | e8"), { ...FIDDLE, doubles: null }, { kind: "insert-clip", before: 1, clip });
    expect(textOf(score, "pipes")).toBe("d8! | f8 | e8");
    expect(textOf(score, "fiddle")).toBe("z8 | z8 | z8");
    expect(score.lines.map((line) => line.id)).toEqual(["pipes", "fiddle"]);
  });

  it("rests instead of a copied doubling whose pipes are not there", () => {
    const clip = copyBars(
      applied(
        pipeSketch("f8!"),
        { kind: "add-pipes", id: "seconds", name: "Seconds", setup: pipesSetup() },
        { ...FIDDLE, doubles: "seconds" },
      ),
      bars(0),
    );
    const score = applied(pipeSketch("d8!"), { ...FIDDLE, doubles: null }, { kind: "insert-clip", before: 1, clip });
    expect(textOf(score, "fiddle")).toBe("z8 | z8");
  });

  it("removes bars, strikes the new first note in and keeps one bar", () => {
    const score = pipeSketch("d8! | e8 | f8");
    expect(asText(applied(score, { kind: "remove-bars", range: bars(0, 1) }))).toBe("f8!");
    expect(reason(score, { kind: "remove-bars", range: bars(0, 2) })).toBe("One bar has to stay.");
  });

  it("moves repeat signs and the section's name off removed bars", () => {
    const score = applied(
      pipeSketch("d8! | e8 | f8 | e8"),
      { kind: "repeat", range: bars(1, 3), on: true },
      { kind: "section", bar: 1, section: { name: "Chorus", letter: "B" } },
    );
    const shorter = applied(score, { kind: "remove-bars", range: bars(1) }, { kind: "remove-bars", range: bars(2) });
    expect(signs(shorter)).toBe("- |:-:|");
    expect(shorter.frames[1]?.section?.name).toBe("Chorus");
  });

  it("says that the pickup comes first", () => {
    const score = applied(pipeSketch("z6 d2! | e8"), { kind: "pickup", ticks: ticks(960) });
    expect(reason(score, { kind: "insert-bars", before: 0, count: 1 })).toBe("The pickup comes first. Insert after it.");
  });
});

function pipesSetup() {
  const [line] = pipeSketch("z8").lines;
  if (line?.kind !== "pipes") throw new RangeError("no pipes");
  return line.setup;
}

describe("another meter", () => {
  const meter = (beats: number, unit: 2 | 4 | 8 | 16, first: number, last: number): Edit => ({
    kind: "meter",
    range: bars(first, last),
    meter: { beats, unit },
  });

  it("moves the bar lines through the music and fills the last bar up", () => {
    expect(asText(applied(pipeSketch("d2! e2 f2 e2 | d8"), meter(3, 4, 0, 1)))).toBe("d2! e2 f2 | e2 d4- | d4 z2");
  });

  it("keeps the bars where a bar is as long as before", () => {
    const score = pipeSketch("d2! e2 f2 e2 | d8");
    const changed = applied(score, meter(2, 2, 0, 1));
    expect(changed.lines[0]?.bars[0]).toBe(score.lines[0]?.bars[0]);
    expect(changed.frames[1]?.meter).toEqual({ beats: 2, unit: 2 });
  });

  it("keeps the number of bars where no one plays yet", () => {
    expect(asText(applied(pipeSketch("z8 | z8"), meter(6, 8, 0, 1)))).toBe("z6 | z6");
  });

  it("takes chords along to where they sound", () => {
    const score = applied(
      pipeSketch("d8! | d8 | d8"),
      {
        kind: "chords",
        bar: 1,
        chords: [
          { at: ticks(0), symbol: "A" },
          { at: ticks(1920), symbol: "E" },
        ],
      },
      meter(3, 4, 0, 2),
    );
    expect(score.frames.map((frame) => frame.chords.map(({ at: time, symbol }) => `${symbol}@${time}`).join())).toEqual([
      "",
      "A@960",
      "E@0",
      "",
    ]);
  });

  it("is refused where the chorus would begin inside a bar", () => {
    const score = applied(pipeSketch("d8! | d8"), { kind: "section", bar: 1, section: { name: "Chorus", letter: "" } });
    expect(reason(score, meter(3, 4, 0, 1))).toBe("What follows bar 1 would begin inside a bar. Change the meter section by section.");
  });

  it("is refused where a bar line would cut a triplet", () => {
    expect(reason(pipeSketch("d2! e2 3:f640/480 3:e640/480 3:d640/480"), meter(3, 4, 0, 0))).toBe(
      "A bar line would cut a triplet or duplet on the Pipes line.",
    );
  });

  it("leaves one rest in each bar in which no one plays", () => {
    expect(asText(applied(pipeSketch("d8! | z8 | z8"), meter(6, 8, 0, 2)))).toBe("d6!- | d2 z4 | z6 | z6");
  });

  it("is refused for a meter that cannot be", () => {
    expect(reason(pipeSketch("d8!"), meter(0, 4, 0, 0))).toBe("A meter has 1 to 64 beats of a half, a quarter, an eighth or a sixteenth.");
  });

  it("lets who doubles go on doubling", () => {
    expect(textOf(applied(pipeSketch("d8! | e8"), FIDDLE, meter(2, 4, 0, 1)), "fiddle")).toBe(
      "(with pipes) | (with pipes) | (with pipes) | (with pipes)",
    );
  });
});

describe("a pickup", () => {
  it("keeps what leads into the second bar, and gets its rest back", () => {
    const short = applied(pipeSketch("z6 d2! | e8"), { kind: "pickup", ticks: ticks(960) });
    expect(asText(short)).toBe("d2! | e8");
    expect(asText(applied(short, { kind: "pickup", ticks: null }))).toBe("z6 d2! | e8");
  });

  it("keeps notes at the beginning of a bar that rests after them", () => {
    expect(asText(applied(pipeSketch("d2! z6 | e8"), { kind: "pickup", ticks: ticks(960) }))).toBe("d2! | e8");
  });

  it("is refused where notes would go, and where nothing follows", () => {
    expect(reason(pipeSketch("d4! e4 | e8"), { kind: "pickup", ticks: ticks(960) })).toBe(
      "Bar 1 has notes all through. Insert a bar before it and make that the pickup.",
    );
    expect(reason(pipeSketch("z6 d2!"), { kind: "pickup", ticks: ticks(960) })).toBe("A pickup needs a bar after it.");
    expect(reason(pipeSketch("z8 | d8!"), { kind: "pickup", ticks: ticks(3840) })).toBe(
      "A pickup is shorter than its bar, and at least a 32nd.",
    );
  });
});

describe("repeats and endings", () => {
  const five = () => pipeSketch("d8! | e8 | f8 | e8 | d8");

  it("puts signs round bars and takes them away again", () => {
    const score = applied(five(), { kind: "repeat", range: bars(1, 3), on: true });
    expect(signs(score)).toBe("- |:- - -:| -");
    expect(signs(applied(score, { kind: "repeat", range: bars(2), on: false }))).toBe("- - - - -");
  });

  it("lets a first ending close the repeat and a second follow it", () => {
    const score = applied(
      five(),
      { kind: "repeat", range: bars(0, 3), on: true },
      { kind: "ending", range: bars(3), ending: 1 },
      { kind: "ending", range: bars(4), ending: 2 },
    );
    expect(signs(score)).toBe("|:- - - 1:| 2");
    expect(signs(applied(score, { kind: "ending", range: bars(3), ending: null }))).toBe("|:- - - -:| -");
  });

  it("refuses repeats inside repeats and endings that lead nowhere", () => {
    const score = applied(five(), { kind: "repeat", range: bars(1, 3), on: true });
    expect(reason(score, { kind: "repeat", range: bars(2, 4), on: true })).toBe(
      "Bars there are repeated already. Take that repeat away first.",
    );
    expect(reason(score, { kind: "ending", range: bars(4), ending: 2 })).toBe("A second ending stands right after a first one.");
    expect(reason(score, { kind: "ending", range: bars(0), ending: 1 })).toBe(
      "A first ending needs bars before it that are played both times.",
    );
  });
});

describe("lines", () => {
  it("makes a bar that is edited the player's own, and only that bar", () => {
    const score = applied(pipeSketch("d8! | e8 | f8"), FIDDLE, {
      kind: "place",
      at: at(1, 0, "fiddle"),
      ticks: ticks(1920),
      tuplet: null,
      content: { kind: "concert", pitches: concertNote("G4", 960).pitches },
    });
    // Written E sounds F on a B flat chanter.
    expect(textOf(score, "fiddle")).toBe("(with pipes) | [G4]4 [F5]4 | (with pipes)");
  });

  it("follows the pipes wherever a player doubles them, octaves away", () => {
    const score = applied(
      pipeSketch("d8!"),
      { ...FIDDLE, octaves: -1 },
      { kind: "repitch", at: at(0, 0), content: { kind: "pipes", note: "f" } },
    );
    const [, fiddle] = score.lines;
    expect(fiddle?.kind === "concert" && concertEventsOf(score, fiddle, 0)).toEqual([concertNote("G4", 3840)]);
  });

  it("keeps the notes of who doubled a line that is removed", () => {
    const score = applied(pipeSketch("d8! | e8"), FIDDLE, { kind: "remove-line", line: "pipes" });
    expect(textOf(score, "fiddle")).toBe("[Eb5]8 | [F5]8");
    expect(reason(score, { kind: "remove-line", line: "fiddle" })).toBe("One line has to stay.");
  });

  it("doubles, and makes its own again", () => {
    const score = applied(
      pipeSketch("d8! | e8"),
      { ...FIDDLE, doubles: null },
      { kind: "double", line: "fiddle", range: bars(1), of: "pipes", octaves: 0 },
    );
    expect(textOf(score, "fiddle")).toBe("z8 | (with pipes)");
    expect(textOf(applied(score, { kind: "make-own", line: "fiddle", range: bars(0, 1) }), "fiddle")).toBe("z8 | [F5]8");
  });

  it("refuses to double over words of the player's own", () => {
    const score = applied(
      pipeSketch("d8!"),
      FIDDLE,
      { kind: "make-own", line: "fiddle", range: bars(0) },
      { kind: "syllables", at: at(0, 0, "fiddle"), syllables: [{ text: "oh", hyphen: false }] },
    );
    expect(reason(score, { kind: "double", line: "fiddle", range: bars(0), of: "pipes", octaves: 0 })).toBe(
      "“oh” would lose its note. Move or clear the word first.",
    );
  });

  const refused: readonly (readonly [Edit, string])[] = [
    [{ ...FIDDLE, player: "kazoo" }, "Nobody plays that instrument here."],
    [{ ...FIDDLE, doubles: "organ" }, "There are no such pipes to double."],
    [{ ...FIDDLE, octaves: 9 }, "A player doubles at most 4 octaves away."],
    [{ ...FIDDLE, id: "pipes" }, "There is a line of that name already."],
    [{ kind: "rename-line", line: "pipes", name: " " }, "A line needs a name."],
    [{ kind: "double", line: "pipes", range: bars(0), of: "pipes", octaves: 0 }, "Only the other players double the pipes."],
  ];
  for (const [edit, why] of refused) {
    it(`${edit.kind} is refused: ${why}`, () => {
      expect(reason(pipeSketch("d8!"), edit)).toBe(why);
    });
  }
});

describe("what is true of bars whoever plays", () => {
  it("sets title, credits, band A, key, tempo, section and chords", () => {
    const tempo = { beat: ticks(1440), perMinute: bpm(60) };
    const score = applied(
      pipeSketch("d8! | e8"),
      { kind: "title", title: "Kettle and Crane" },
      { kind: "band-a", bandA: 442 as Score["bandA"] },
      { kind: "key", range: bars(1), key: { tonic: "G#", mode: "major" } },
      { kind: "tempo", range: bars(0, 1), tempo },
      {
        kind: "chords",
        bar: 0,
        chords: [
          { at: ticks(1920), symbol: "B" },
          { at: ticks(0), symbol: "E" },
        ],
      },
    );
    expect(score).toMatchObject({ title: "Kettle and Crane", bandA: 442, revision: 5 });
    expect(score.frames[0]).toMatchObject({ tempo, chords: [{ symbol: "E" }, { symbol: "B" }] });
    // Eight sharps are respelled.
    expect(score.frames[1]?.key).toEqual({ tonic: "Ab", mode: "major" });
  });

  const refused: readonly (readonly [Edit, string])[] = [
    [{ kind: "band-a", bandA: 500 as Score["bandA"] }, "A band’s A lies between 380 and 480 Hz."],
    [
      { kind: "tempo", range: bars(0), tempo: { beat: ticks(960), perMinute: bpm(5) } },
      "A tempo is 10 to 500 of a note value in a minute.",
    ],
    [{ kind: "section", bar: 0, section: { name: "", letter: "" } }, "A section needs a name."],
    [{ kind: "chords", bar: 0, chords: [{ at: ticks(3840), symbol: "E" }] }, "A chord begins inside its bar."],
    [{ kind: "chords", bar: 9, chords: [] }, "There is no bar there."],
  ];
  for (const [edit, why] of refused) {
    it(`${edit.kind} is refused: ${why}`, () => {
      expect(reason(pipeSketch("d8!"), edit)).toBe(why);
    });
  }
});
