import { describe, expect, it } from "vitest";
import { applyEdit } from "../../src/editing/apply-edit.ts";
import { editLabel } from "../../src/editing/edit-label.ts";
import {
  type History,
  historyOf,
  MOST_STEPS,
  recorded,
  redoLabel,
  redone,
  reselected,
  undoLabel,
  undone,
} from "../../src/editing/history.ts";
import { NOTHING, type Selection } from "../../src/editing/selection.ts";
import { concertPitch } from "../../src/pitch/spelling.ts";
import type { Edit } from "../../src/score/edit.ts";
import { ticks } from "../../src/units/ticks.ts";
import { at, pipeSketch } from "../support/pipe-sketch.ts";

const CHOSEN: Selection = { kind: "note", at: at(0, 0) };

function step(history: History, title: string, gesture: string | null = null): History {
  const outcome = applyEdit(history.present.score, { kind: "title", title });
  if (!outcome.ok) throw new Error(outcome.reason);
  return recorded(history, outcome.value, { label: title, selection: CHOSEN, gesture });
}

describe("the history", () => {
  it("gives back the identical score and what was chosen in it, and goes forward again", () => {
    const start = historyOf(pipeSketch("d8!"));
    const one = step(start, "one");
    const two = step(one, "two");
    expect(undoLabel(two)).toBe("two");
    expect(undone(two).present).toBe(one.present);
    expect(undone(undone(two)).present).toBe(start.present);
    expect(undone(undone(two)).present.selection).toBe(NOTHING);
    expect(redoLabel(undone(two))).toBe("two");
    expect(redone(undone(two)).present).toBe(two.present);
  });

  it("stays what it is where there is nothing to undo or to redo", () => {
    const start = historyOf(pipeSketch("d8!"));
    expect(undone(start)).toBe(start);
    expect(redone(start)).toBe(start);
    expect(undoLabel(start)).toBeNull();
    expect(redoLabel(start)).toBeNull();
  });

  it("forgets what could be redone after a new step, and never uses its revision again", () => {
    const one = step(historyOf(pipeSketch("d8!")), "one");
    const other = step(undone(one), "other");
    expect(redoLabel(other)).toBeNull();
    expect(one.present.score.revision).toBe(1);
    expect(other.present.score.revision).toBe(2);
  });

  it("takes a whole gesture back at once", () => {
    const start = historyOf(pipeSketch("d8!"));
    const dragged = step(step(step(start, "a", "drag 1"), "b", "drag 1"), "c", "drag 1");
    expect(undone(dragged).present).toBe(start.present);
    const next = step(dragged, "d", "drag 2");
    expect(undone(next).present.score.title).toBe("c");
    // After an undo the gesture is over, even if the same name comes again.
    expect(undone(step(undone(next), "e", "drag 1")).present.score.title).toBe("c");
  });

  it("choosing is not a step", () => {
    const one = step(historyOf(pipeSketch("d8!")), "one");
    const chosen = reselected(one, NOTHING);
    expect(chosen.present.selection).toBe(NOTHING);
    expect(chosen.past).toBe(one.past);
  });

  it("keeps at least 500 steps, and forgets the oldest beyond its limit", () => {
    let history = historyOf(pipeSketch("d8!"));
    for (let count = 0; count < MOST_STEPS + 10; count += 1) history = step(history, `title ${count}`);
    expect(MOST_STEPS).toBeGreaterThanOrEqual(500);
    expect(history.past.length).toBe(MOST_STEPS);
    let back = 0;
    while (undoLabel(history) !== null) {
      history = undone(history);
      back += 1;
    }
    expect(back).toBe(MOST_STEPS);
    expect(history.present.score.title).toBe("title 9");
  });
});

describe("the label of an edit", () => {
  const table: readonly (readonly [Edit, string])[] = [
    [{ kind: "place", at: at(0, 0), ticks: ticks(960), tuplet: null, content: { kind: "pipes", note: "low-a" } }, "place low A"],
    [{ kind: "move", at: at(0, 0), to: at(0, 1), content: { kind: "concert", pitches: [concertPitch("Bb4")] } }, "move B♭4"],
    [{ kind: "tie", at: at(0, 0), tied: false }, "untie"],
    [{ kind: "insert-bars", before: 0, count: 1 }, "insert a bar"],
    [{ kind: "remove-bars", range: { first: 2, last: 5 } }, "remove 4 bars"],
    [{ kind: "syllables", at: at(0, 0), syllables: [{ text: "rain", hyphen: false }] }, "write “rain”"],
    [{ kind: "band-a", bandA: 442 as never }, "change the band’s A"],
    [{ kind: "remove-line", line: "pipes" }, "remove a line"],
  ];
  for (const [edit, label] of table) {
    it(`for ${edit.kind} is “${label}”`, () => {
      expect(editLabel(edit)).toBe(label);
    });
  }
});
