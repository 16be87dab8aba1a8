import { describe, expect, test } from "vitest";
import type { Asked } from "../../components/grid/asked.ts";
import { chosenNote, type HeldNote, heldNoteAt } from "../../components/grid/chosen-notes.ts";
import { askedBy, type Gesture, ghostOf, type Hand } from "../../components/grid/gesture.ts";
import { DESK, heightOf } from "../../components/grid/grid-measures.ts";
import { gridRows } from "../../components/grid/grid-rows.ts";
import { type HitField, hitAt } from "../../components/grid/hit-test.ts";
import { KEY_HELP, keyAct } from "../../components/grid/key-acts.ts";
import { lengthenBy, moveStart, removeTime } from "../../components/grid/note-acts.ts";
import { typedNote } from "../../components/grid/typed-note.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { NOTHING, type Selection } from "../../src/editing/selection.ts";
import { centsOverLowA } from "../../src/pipes/sounding.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import { asText, at, pipeSketch } from "../support/pipe-sketch.ts";

const TUNE = pipeSketch("A2! B2 c4 | d8");

function outcomeOf(score: Score, asked: Asked | null): string {
  if (asked === null) return "nothing asked";
  const outcome = applyEdits(score, asked.edits);
  return outcome.ok ? asText(outcome.value) : outcome.reason;
}

function held(score: Score, time: number): HeldNote {
  const found = heldNoteAt(score, "pipes", time);
  if (found === null) throw new RangeError("There is a note.");
  return found;
}

const hand = (eighths: number, note: Hand["note"]): Hand => ({ time: eighths * 480, note });

describe("a drag", () => {
  test("along a row covers every step it touches, whichever way it goes", () => {
    const gesture: Gesture = { kind: "place", pressed: hand(5.5, "e") };
    expect(ghostOf(TUNE, gesture, hand(2.5, "low-g"), "eighth")).toEqual({ kind: "note", from: 960, to: 2880, note: "e" });
  });

  test("of a note keeps the place between the steps until it has gone half a step", () => {
    const gesture: Gesture = { kind: "move", held: held(TUNE, 960), pressed: hand(2.5, "b") };
    expect(ghostOf(TUNE, gesture, hand(2.9, "b"), "eighth").from).toBe(960);
    expect(ghostOf(TUNE, gesture, hand(3.1, "b"), "eighth").from).toBe(1440);
  });

  test("of a note back to where it was asks for nothing", () => {
    const gesture: Gesture = { kind: "move", held: held(TUNE, 960), pressed: hand(2.5, "b") };
    expect(askedBy(TUNE, "pipes", gesture, hand(2.6, "b"), "eighth")).toBeNull();
  });

  test("of an end never makes a note shorter than a step", () => {
    const gesture: Gesture = { kind: "end", held: held(TUNE, 960) };
    expect(ghostOf(TUNE, gesture, hand(0, "b"), "eighth")).toMatchObject({ from: 960, to: 1440 });
  });
});

describe("the start of a note", () => {
  test("that is touched from before moves the end of the note before", () => {
    expect(outcomeOf(TUNE, moveStart(TUNE, "pipes", held(TUNE, 960), 480))).toBe("A! B3 c4 | d8");
    expect(outcomeOf(TUNE, moveStart(TUNE, "pipes", held(TUNE, 960), 1440))).toBe("A3! B c4 | d8");
  });

  test("out of a silence moves alone and keeps gracenotes and words", () => {
    const score = pipeSketch('A2!. z2 "la"{g}c4! | d8');
    expect(outcomeOf(score, moveStart(score, "pipes", held(score, 1920), 2400))).toBe('A2!. z2 z "la"{g}c3! | d8');
    expect(outcomeOf(score, moveStart(score, "pipes", held(score, 1920), 1440))).toBe('A2!. z "la"{g}c5! | d8');
  });

  test("cannot pass the start of the note before", () => {
    expect(moveStart(TUNE, "pipes", held(TUNE, 960), 0)).toBeNull();
  });
});

test("longer and shorter go by a step and end on the steps", () => {
  const score = pipeSketch("d360/480! e600/480 f6");
  expect(outcomeOf(score, lengthenBy(score, "pipes", held(score, 0), 1, "eighth"))).toBe("d2! f6");
  expect(lengthenBy(TUNE, "pipes", held(TUNE, 0), -2, "eighth")).toBeNull();
});

test("what is deleted leaves nothing chosen", () => {
  const asked = removeTime(TUNE, "pipes", 960, 1920);
  expect(outcomeOf(TUNE, asked)).toBe("A2! z2 c4 | d8");
  expect(asked.selection).toEqual(NOTHING);
  expect(asked.label).toBe("delete");
});

describe("a press", () => {
  const widths = [160, 160];
  const { setup } = TUNE.lines[0] as PipeLine;
  const height = (note: Hand["note"]): number => heightOf(DESK, centsOverLowA(setup, note));
  const field = (selection: Selection): HitField => ({
    score: TUNE,
    line: "pipes",
    widths,
    selection,
    rows: gridRows(setup, TUNE.bandA, DESK),
    measures: DESK,
    height,
  });
  const chosen: Selection = { kind: "note", at: at(0, 2) };

  test("finds a note within 12 px up and down where its row is the nearest", () => {
    expect(hitAt(field(NOTHING), 60, height("b") + 11).kind).toBe("note");
    expect(hitAt(field(NOTHING), 60, height("b") + 13).kind).toBe("row");
    expect(hitAt(field(NOTHING), 60, height("d")).kind).toBe("row");
  });

  test("finds the handles of the chosen note, 12 px outwards and a third of the note inwards", () => {
    expect(hitAt(field(chosen), 80 + 11, height("b")).kind).toBe("end");
    expect(hitAt(field(chosen), 80 - 12, height("b")).kind).toBe("end");
    expect(hitAt(field(chosen), 40 - 11, height("b")).kind).toBe("start");
    expect(hitAt(field(chosen), 60, height("b")).kind).toBe("note");
    expect(hitAt(field(NOTHING), 80 - 2, height("b")).kind).toBe("note");
  });

  test("a choice whose note has gone is none", () => {
    expect(chosenNote(TUNE, "pipes", { kind: "note", at: at(7, 0) })).toBeNull();
  });
});

describe("keys", () => {
  const press = (key: string, held: { shift?: boolean; command?: boolean; alt?: boolean } = {}) =>
    keyAct({ key, shift: false, command: false, alt: false, ...held }, true);

  test("of two As or Gs a letter means the nearer one", () => {
    expect(typedNote("A", "b", false)).toBe("low-a");
    expect(typedNote("A", "f", false)).toBe("high-a");
    expect(typedNote("G", "c", false)).toBe("low-g");
    expect(typedNote("G", "e", false)).toBe("high-g");
    expect(typedNote("C", "d", true)).toBe("c-natural");
    expect(typedNote("D", "d", true)).toBeNull();
  });

  test("Shift with an arrow is the length of a chosen note, and a stretch where none is chosen", () => {
    expect(press("ArrowRight", { shift: true })).toEqual({ kind: "length", by: 1 });
    expect(keyAct({ key: "ArrowRight", shift: true, command: false, alt: false }, false)).toEqual({
      kind: "go",
      to: "next",
      stretching: true,
    });
  });

  test("the platform's own keys copy, paste and undo; the rest of them are the browser's", () => {
    expect(press("c", { command: true })).toEqual({ kind: "copy" });
    expect(press("Z", { command: true, shift: true })).toEqual({ kind: "redo" });
    expect(press("r", { command: true })).toBeNull();
    expect(press("Tab")).toBeNull();
    expect(press("F5")).toBeNull();
  });

  test("no two lines of the page of keys name the same key", () => {
    const keys = KEY_HELP.flatMap((group) => group.keys.map((line) => line.keys));
    expect(new Set(keys).size).toBe(keys.length);
  });
});
