import { expect, test } from "vitest";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { CHANTER_NOTES } from "../../src/pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { fingeringTable } from "../../src/pipes/fingering-table.ts";
import { movementsOf } from "../../src/pipes/gracenote-group.ts";
import { withFingering } from "../../src/pipes/setup-changes.ts";
import { check } from "../../src/score/check.ts";
import { dividingGracenote } from "../../src/score/dividing-gracenote.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";
import { LETTERS } from "../support/score-as-code.ts";

const setup = { ...defaultSetup("Bb"), crossFingerings: defaultCrossFingerings(["c-natural", "f-natural", "high-g-sharp"]) };

test("a G divides like notes up to F and on high G sharp, the thumb two high Gs, a struck G two high As", () => {
  expect(CHANTER_NOTES.map((note) => [note, dividingGracenote(setup, note)?.gracenote, dividingGracenote(setup, note)?.kind])).toEqual(
    CHANTER_NOTES.map((note) => [note, note === "high-g" ? "high-a" : "high-g", note === "high-a" ? "strike" : "lift"]),
  );
});

test("a low A with its first finger off is divided by the next gracenote that its holes allow, the thumb", () => {
  const own = withFingering(setup, "low-a", "X OXX XXXO");
  expect(dividingGracenote(own, "low-a")).toEqual({ gracenote: "high-a", kind: "lift" });
  expect(dividingGracenote(own, "b")).toEqual({ gracenote: "high-g", kind: "lift" });
});

test.each(CHANTER_NOTES)("the cure for two like notes on %s can be fingered and makes the finding go", (note) => {
  const sketch = pipeSketch(`${LETTERS[note]}4! ${LETTERS[note]}4`);
  const score = { ...sketch, lines: sketch.lines.map((line) => (line.kind === "pipes" ? { ...line, setup } : line)) };
  const [finding] = check(score).filter(({ kind }) => kind === "like-notes");
  const [cure] = finding?.cures ?? [];
  const [edit] = cure?.edits ?? [];
  if (cure === undefined || edit?.kind !== "gracenotes") throw new Error("no gracenote on offer");
  expect(movementsOf(fingeringTable(setup), edit.gracenotes, { before: note, note }).ok).toBe(true);
  const cured = applyEdits(score, cure.edits);
  if (!cured.ok) throw new Error(cured.reason);
  expect(check(cured.value).filter(({ kind }) => kind === "like-notes")).toEqual([]);
});
