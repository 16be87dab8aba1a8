import { describe, expect, it } from "vitest";
import { applyEdit } from "../../src/editing/apply-edit.ts";
import { copyStretch } from "../../src/editing/clip.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { Edit } from "../../src/score/edit.ts";
import { ticks } from "../../src/units/ticks.ts";
import { asText, at, pipeSketch } from "../support/pipe-sketch.ts";

/* Lengths and times are in eighths: `at(1, 2)` is the second quarter of the second bar. */

const eighths = (count: number) => ticks(count * 480);
const note = (name: ChanterNote) => ({ kind: "pipes", note: name }) as const;
const place = (bar: number, from: number, length: number, name: ChanterNote, tuplet: 3 | 2 | null = null): Edit => ({
  kind: "place",
  at: at(bar, from),
  ticks: ticks(length * 480),
  tuplet,
  content: note(name),
});

const APPLIED: readonly (readonly [fact: string, before: string, edit: Edit, after: string])[] = [
  ["the first note of a sketch is struck in", "z8", place(0, 2, 2, "d"), "z2 d2! z4"],
  ["the second note is not", "d2! z6", place(0, 2, 2, "e"), "d2! e2 z4"],
  ["a note put before the first takes the strike-in over", "z4 d4!", place(0, 0, 4, "e"), "e4! d4"],
  ["a note on the middle of a held one leaves its head and its tail", "d8!", place(0, 2, 2, "e"), "d2! e2 d4"],
  ["the tail of a covered note has no gracenotes and no words", 'A2! "rain"{g}d6', place(0, 2, 2, "e"), 'A2! "rain"e2 d4'],
  ["a note over the bar line is tied", "d8! | d8", place(0, 6, 4, "e"), "d6! e2- | e2 d6"],
  ["a note over three bars is tied twice", "d8! | d8 | d8", place(0, 6, 12, "e"), "d6! e2- | e8- | e2 d6"],
  ["a note on a tie breaks it", "d8!- | d8", place(1, 0, 4, "e"), "d8! | e4 d4"],
  ["a note in a silence is struck in and cut off", "d2!. z4 e2!", place(0, 3, 2, "f"), "d2!. z f2!. z e2!"],
  ["a note right after a phrase makes it longer", "d2!. z4 e2!", place(0, 2, 2, "f"), "d2! f2. z2 e2!"],
  ["a note right before a phrase begins it", "d2!. z4 e2!", place(0, 4, 2, "f"), "d2!. z2 f2! e2"],
  ["a note that fills a silence joins the phrases", "d2!. z4 e2!", place(0, 2, 4, "f"), "d2! f4 e2"],
  ["a triplet note makes its beat a triplet", "d8!", place(0, 0, 2 / 3, "e", 3), "3:e320/480! 3:d640/480- d6"],
  [
    "the next triplet note joins the same triplet",
    "3:e320/480! 3:d640/480- d6",
    place(0, 2 / 3, 2 / 3, "f", 3),
    "3:e320/480! 3:f320/480 3:d320/480- d6",
  ],
  ["a straight quarter takes a whole triplet away", "3:e320/480! 3:f320/480 3:d320/480 d6", place(0, 0, 2, "b"), "B2! d6"],

  ["another pitch goes to all that is tied", "d8!- | d4 e4", { kind: "repitch", at: at(1, 0), content: note("f") }, "f8!- | f4 e4"],
  ["another pitch leaves gracenotes, words and marks", '"oh"{g}d8!.', { kind: "repitch", at: at(0, 0), content: note("f") }, '"oh"{g}f8!.'],

  ["a longer note makes the next begin later", "d2! {g}e4 f2", { kind: "resize", at: at(0, 0), ticks: eighths(4) }, "d4! {g}e2 f2"],
  ["a longer note covers what is shorter than it grew", "d2! e2 f4", { kind: "resize", at: at(0, 0), ticks: eighths(4) }, "d4! f4"],
  ["a longer note may run over the bar line", "d8! | e8", { kind: "resize", at: at(0, 0), ticks: eighths(10) }, "d8!- | d2 e6"],
  ["a shorter note lets the next begin earlier", "d4! {g}e4", { kind: "resize", at: at(0, 0), ticks: eighths(2) }, "d2! {g}e6"],
  ["a shorter note before a rest leaves more rest", "d4!. z4", { kind: "resize", at: at(0, 0), ticks: eighths(2) }, "d2!. z2 z4"],
  ["a note that grows into a silence keeps its cut-off", "d2!. z6", { kind: "resize", at: at(0, 0), ticks: eighths(4) }, "d4!. z4"],
  ["a note that grows through a silence loses both marks", "d2!. z2 e4!", { kind: "resize", at: at(0, 0), ticks: eighths(4) }, "d4! e4"],
  ["a tied note is resized as one", "d8!- | d4 e4", { kind: "resize", at: at(1, 0), ticks: eighths(14) }, "d8!- | d6 e2"],

  [
    "a note that leaves is held by the note before",
    "d2! e2 f4",
    { kind: "move", at: at(0, 2), to: at(0, 6), content: note("e") },
    "d4! f2 e2",
  ],
  ["a note takes its gracenotes along", "d2! {g}e2 f4", { kind: "move", at: at(0, 2), to: at(0, 4), content: note("b") }, "d4! {g}B2 f2"],
  [
    "the first note leaves a rest, and the next is struck in",
    "d2! e2 f4",
    { kind: "move", at: at(0, 0), to: at(0, 4), content: note("d") },
    "z2 e2! d2 f2",
  ],
  [
    "a move straight up is another pitch",
    "d2! {g}e2 f4",
    { kind: "move", at: at(0, 2), to: at(0, 2), content: note("high-g") },
    "d2! {g}g2 f4",
  ],

  ["the second half of a split note gets a dividing gracenote", "d8!", { kind: "split", at: at(0, 0), ticks: eighths(4) }, "d4! {g}d4"],
  ["a split high G is divided by the thumb", "d2! g6", { kind: "split", at: at(0, 2), ticks: eighths(2) }, "d2! g2 {a}g4"],
  [
    "a split note keeps its words in front and its cut-off behind",
    '"oh"d8!.',
    { kind: "split", at: at(0, 0), ticks: eighths(6) },
    '"oh"d6! {g}d2.',
  ],

  ["a tie takes the gracenotes of the second note", "d4! {g}d4", { kind: "tie", at: at(0, 0), tied: true }, "d4!- d4"],
  [
    "a tie moves the second note's words to a first that has none",
    'd4! "oh"{g}d4',
    { kind: "tie", at: at(0, 0), tied: true },
    '"oh"d4!- d4',
  ],
  ["a tie is undone where it begins", "d4!- d4", { kind: "tie", at: at(0, 0), tied: false }, "d4! d4"],

  ["what is cleared is a rest", "d2! e2 f4", { kind: "clear", from: at(0, 2), ticks: eighths(2) }, "d2! z2 f4"],
  ["clearing the first note strikes the next in", "d2! e6", { kind: "clear", from: at(0, 0), ticks: eighths(2) }, "z2 e6!"],
  ["clearing the end of a phrase cuts it off earlier", "d2! e2. z4", { kind: "clear", from: at(0, 2), ticks: eighths(2) }, "d2!. z2 z4"],
  ["clearing may run over the bar line", "d8! | d8", { kind: "clear", from: at(0, 6), ticks: eighths(4) }, "d6! z2 | z2 d6"],
  [
    "clearing one note of a triplet leaves a triplet rest",
    "3:e320/480! 3:f320/480 3:d320/480 d6",
    { kind: "clear", from: at(0, 2 / 3), ticks: ticks(320) },
    "3:e320/480! 3:z320/480 3:d320/480 d6",
  ],

  [
    "gracenotes stand on the beginning of a tied note",
    "d8!- | d8",
    { kind: "gracenotes", at: at(1, 0), gracenotes: ["high-g"] },
    "{g}d8!- | d8",
  ],
  ["words too", "d8!- | d8", { kind: "syllables", at: at(1, 0), syllables: [{ text: "rain", hyphen: false }] }, '"rain"d8!- | d8'],

  ["a cut-off lets the next note be struck in", "d2! z2 e4", { kind: "cut-off", at: at(0, 0), on: true }, "d2!. z2 e4!"],
  ["taking a cut-off away takes the strike-in with it", "d2!. z2 e4!", { kind: "cut-off", at: at(0, 0), on: false }, "d2! z2 e4"],
  ["a strike-in after a rest cuts the note before off", "d2! z2 e4", { kind: "strike-in", at: at(0, 4), on: true }, "d2!. z2 e4!"],

  ["the note before is held through the rest", "d2! z2 e4", { kind: "hold", at: at(0, 2) }, "d4! e4"],
  ["all rests up to the next note are held through", "d2! z6 | z8 | z4 e4", { kind: "hold", at: at(1, 0) }, "d8!- | d8- | d4 e4"],
  ["where no note follows, the note is held to the end of the bar", "d2! z6 | z8", { kind: "hold", at: at(0, 2) }, "d8! | z8"],
  [
    "holding a note that is struck in right after a cut-off leaves both marks",
    "d2!. e2! z2 f2",
    { kind: "hold", at: at(0, 4) },
    "d2!. e4! f2",
  ],
  ["and so does making it longer", "d2!. e2! f4", { kind: "resize", at: at(0, 2), ticks: ticks(1440) }, "d2!. e3! f3"],
  ["holding through a silence takes its marks away", "d2!. z2 e4!", { kind: "hold", at: at(0, 2) }, "d4! e4"],

  [
    "a pasted stretch begins anywhere and is cut by bar lines",
    "d2! e2 f2 e2 | d8",
    { kind: "paste", at: at(0, 7), clip: copyStretch(pipeSketch("d2! e2 f2 e2 | d8"), "pipes", at(0, 2), at(0, 6)) },
    "d2! e2 f2 e e- | e f2 d5",
  ],
];

describe("an edit of notes", () => {
  for (const [fact, before, edit, after] of APPLIED) {
    it(`${edit.kind}: ${fact}`, () => {
      const outcome = applyEdit(pipeSketch(before), edit);
      expect(outcome).toMatchObject({ ok: true });
      if (outcome.ok) expect(asText(outcome.value)).toBe(after);
    });
  }
});

const REFUSED: readonly (readonly [before: string, edit: Edit, reason: string])[] = [
  ["d8!", place(0, 6, 4, "e"), "That runs past the last bar. Insert bars first."],
  ["d8!", place(1, 0, 4, "e"), "There is no bar there."],
  ["d8!", { ...place(0, 0, 4, "e"), at: at(0, 0, "organ") } as Edit, "There is no such line."],
  ["d8!", place(0, 1 / 8, 1, "e"), "That would leave something shorter than a 32nd. Make it longer, or move it by a step."],
  [
    "d8!",
    { kind: "place", at: at(0, 0), ticks: eighths(2), tuplet: null, content: { kind: "concert", pitches: [] } },
    "A chanter note goes on a pipe line, a concert pitch on another player’s.",
  ],
  [
    "3:e320/480! 3:f320/480 3:d320/480 d6",
    place(0, 1, 2, "b"),
    "That would cut a triplet or duplet where it has no note. Clear it first, or change its notes one by one.",
  ],
  [
    "d8! | d8",
    place(0, 7, 4 / 3, "b", 3),
    "A triplet or duplet of that length does not fit here. It begins where its group could begin, and stays inside the bar.",
  ],
  ['"pa"d2! "per"e2 f4', place(0, 0, 4, "b"), "“per” would lose its note. Move or clear the word first."],
  ['"pa"d2! "per"e2 f4', { kind: "resize", at: at(0, 0), ticks: eighths(4) }, "“per” would lose its note. Move or clear the word first."],
  ['"pa"d4! "per"{g}d4', { kind: "tie", at: at(0, 0), tied: true }, "“per” would lose its note. Move or clear the word first."],
  ["z8", { kind: "repitch", at: at(0, 0), content: note("d") }, "There is no note here."],
  ["d8!", { kind: "split", at: at(0, 0), ticks: eighths(8) }, "A note is split somewhere inside it."],
  ["d4! e4", { kind: "tie", at: at(0, 0), tied: true }, "A tie needs the same note right after this one."],
  ["d8!", { kind: "tie", at: at(0, 0), tied: false }, "No tie begins here. Split the note to make two of it."],
  ["d8!", { kind: "hold", at: at(0, 0) }, "There is no rest here to hold through."],
  ["z8", { kind: "hold", at: at(0, 0) }, "There is no note before this rest to hold."],
  ["d8!", { kind: "strike-in", at: at(0, 0), on: false }, "The first note has to be struck in."],
  [
    "d4! e4",
    { kind: "strike-in", at: at(0, 4), on: true },
    "The chanter is already sounding here. Cut it off before you strike it in again.",
  ],
  ["d8!", { kind: "paste", at: at(0, 0), clip: { kind: "pipes", events: [] } }, "Nothing was copied."],
  [
    "d8!",
    { kind: "paste", at: at(0, 0), clip: { kind: "concert", events: [] } },
    "A chanter note goes on a pipe line, a concert pitch on another player’s.",
  ],
];

describe("an edit of notes is refused", () => {
  for (const [before, edit, reason] of REFUSED) {
    it(`${edit.kind} on ${before}: ${reason}`, () => {
      expect(applyEdit(pipeSketch(before), edit)).toEqual({ ok: false, reason });
    });
  }
});
