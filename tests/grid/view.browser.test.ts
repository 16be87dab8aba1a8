import axe from "axe-core";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import "../../components/shared/tokens.css";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Finding } from "../../src/score/finding.ts";
import { newScore } from "../../src/score/new-score.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { GridHarness } from "../support/grid-harness.ts";
import { at, pipeSketch } from "../support/pipe-sketch.ts";

afterEach(() => {
  document.body.replaceChildren();
  delete document.documentElement.dataset.theme;
});

/** The B chanter of the invented song, with or without its high G sharp. */
const withLeadingTone = { ...defaultSetup("B"), crossFingerings: defaultCrossFingerings(["high-g-sharp"]) };

/** A score on the B chanter in B major after edits to a blank one. */
function edited(...edits: readonly Edit[]): Score {
  const blank = newScore({ bars: 4, setup: withLeadingTone, key: { tonic: "B", mode: "major" } });
  const outcome = applyEdits(blank, edits);
  if (!outcome.ok) throw new RangeError(outcome.reason);
  return outcome.value;
}

const place = (bar: number, eighths: number, length: number, note: "high-g-sharp" | "e" | "low-a"): Edit => ({
  kind: "place",
  at: at(bar, eighths),
  ticks: ticks(length * 480),
  tuplet: null,
  content: { kind: "pipes", note },
});

const finding: Finding = { kind: "pitch", address: at(0, 4), message: "It is low.", cures: [] };

describe("what is seen", () => {
  test("the nine have a row each, a cross-fingered note only where the setup says it speaks", async () => {
    const plain = await GridHarness.open(newScore({ setup: defaultSetup("B") }));
    expect(plain.rowNames).toEqual(["high A", "high G", "F", "E", "D", "C", "B", "low A", "low G"]);
    const crossed = await GridHarness.open(edited());
    expect(crossed.rowNames.slice(0, 3)).toEqual(["high A", "high G♯", "high G"]);
  });

  test("the drone's partials are named by the bass drone's number, 4th to 8th", async () => {
    const grid = await GridHarness.open(newScore({ setup: defaultSetup("B") }));
    expect(grid.partials).toEqual(["4th", "5th", "6th", "7th", "8th"]);
  });

  test("the drones' place stands where each chord begins", async () => {
    const chords = (bar: number, ...symbols: readonly string[]): Edit => ({
      kind: "chords",
      bar,
      chords: symbols.map((symbol, index) => ({ at: ticks(index * 1920), symbol })),
    });
    const grid = await GridHarness.open(edited(chords(0, "E"), chords(1, "A", "C#m"), chords(2, "B", "F#")));
    expect(grid.dronePlaces).toEqual(["fifth", "ninth", "seventh", "root", "fourth, rubs"]);
  });

  test("two like notes with nothing between are one stroke, with a gracenote between them two", async () => {
    const one = await GridHarness.open(pipeSketch("d4! d4"));
    expect(one.paths("grace")).toEqual([]);
    expect(one.paths("thread")).toEqual([]);
    const two = await GridHarness.open(pipeSketch("d4! {g}d4"));
    expect(two.paths("grace")).toHaveLength(1);
  });

  test("a rest that is not between a cut-off and a strike-in is held through, and the trace ends at a cut-off", async () => {
    const held = await GridHarness.open(pipeSketch("d4! z2 e2"));
    expect(held.paths("rest")).toHaveLength(1);
    const silent = await GridHarness.open(pipeSketch("d4!. z2 e2!"));
    expect(silent.paths("rest")).toEqual([]);
  });

  test("a note outside the setup is kept at its pitch, broken and struck through", async () => {
    const grid = await GridHarness.open(pipeSketch("=c4! d4"));
    expect(grid.paths("outside")).toHaveLength(1);
    expect(grid.paths("through")).toHaveLength(1);
  });
});

describe("what is heard", () => {
  test("a cell says place, note, role, length, concert pitch, cents and findings", async () => {
    const score = edited(place(0, 0, 4, "e"), place(0, 4, 4, "high-g-sharp"), { kind: "cut-off", at: at(0, 4), on: true });
    const grid = await GridHarness.open(score, { findings: [finding] });
    expect(grid.spoken(0, 4)).toBe(
      "Bar 1, beat 3. High G sharp, leading tone, two beats. A sharp 5, 12 cents low. Low A can sound on the way. Cut-off after it. Finding 1.",
    );
    expect(grid.spoken(0, 2)).toBe("Bar 1, beat 2. E, held.");
    expect(grid.spoken(1, 6)).toBe("Bar 2, beat 4. Low A, empty.");
  });

  test("every column has its index in the whole sketch, and one cell is a tab stop", async () => {
    const grid = await GridHarness.open(pipeSketch("d4! e4 | f8 | z8"));
    expect(grid.columnIndex(0, 0)).toBe(1);
    expect(grid.columnIndex(1, 0)).toBe(9);
    expect(grid.tabStops).toBe(1);
  });

  test("a press on a row's name asks for its note and lets go of it", async () => {
    const grid = await GridHarness.open(newScore({}));
    const heard: string[] = [];
    for (const name of ["row-touched", "row-released"]) {
      grid.grid.addEventListener(name, (event) => heard.push(`${name} ${(event as CustomEvent<{ note: string }>).detail.note}`));
    }
    await grid.pressName("high-g");
    expect(heard).toEqual(["row-touched high-g", "row-released high-g"]);
  });

  for (const theme of ["light", "dark"] as const) {
    for (const compact of [false, true]) {
      test(`axe finds nothing, ${theme}${compact ? ", on a phone" : ""}`, async () => {
        document.documentElement.dataset.theme = theme;
        const score = edited(place(0, 0, 4, "e"), place(0, 4, 4, "high-g-sharp"));
        await GridHarness.open(score, { findings: [finding], compact, width: compact ? 390 : 1334 });
        const { violations } = await axe.run(document.body, {
          rules: { region: { enabled: false }, "page-has-heading-one": { enabled: false } },
        });
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
      });
    }
  }
});

describe("a thousand bars", () => {
  let grid: GridHarness;
  beforeEach(async () => {
    grid = await GridHarness.open(pipeSketch(Array.from({ length: 1000 }, () => "d2! e2 f2 e2").join(" | ")));
    await grid.painted();
  });

  test("only what is in view is drawn, wherever the view is", async () => {
    const few = await GridHarness.open(pipeSketch(Array.from({ length: 32 }, () => "d2! e2 f2 e2").join(" | ")));
    await few.painted();
    await few.scrollTo(1200);
    await grid.scrollTo(60_000);
    expect(grid.scrollLeft).toBe(60_000);
    expect(grid.nodes).toBeLessThan(few.nodes * 1.1);
    expect(grid.spoken(0, 0)).not.toBeNull();
    expect(grid.spoken(400, 0)).toBeNull();
  });

  test("the focused cell stays, and keeps the focus, when it is scrolled out of view", async () => {
    grid.focusOn(2, 0);
    await grid.settled();
    await grid.scrollTo(60_000);
    expect(grid.focusedCell?.dataset.bar).toBe("2");
    await grid.keys("{ArrowRight}");
    await grid.painted();
    expect(grid.focusedCell?.dataset.at).toBe("480");
    expect(grid.scrollLeft).toBeLessThan(1000);
  });

  test("an edit draws its own bar again and no other, and the view stays where it is", async () => {
    await grid.scrollTo(60_000);
    const before = grid.inkElements;
    const place = grid.inkElements.length >> 1;
    const edge = grid.scrollLeft;
    await grid.press([630, 4, "b"]);
    expect(grid.scrollLeft).toBe(edge);
    expect(grid.asked).toHaveLength(1);
    expect(grid.inkElements).toHaveLength(before.length);
    expect(grid.inkElements[place]).toBe(before[place]);
  });
});

test("the view tells what it shows when it is scrolled", async () => {
  const grid = await GridHarness.open(pipeSketch(Array.from({ length: 40 }, () => "d8!").join(" | ")));
  await grid.painted();
  const views: unknown[] = [];
  grid.grid.addEventListener("view-moved", (event) => views.push((event as CustomEvent).detail));
  await grid.scrollTo(960);
  expect(views.at(-1)).toEqual({ scrollLeft: 960, viewWidth: 1034, firstBar: 10, lastBar: 20 });
});

test("the page turns with the moment line, and a reader who scrolls away from it is left there", async () => {
  const grid = await GridHarness.open(pipeSketch(Array.from({ length: 40 }, () => "d8!").join(" | ")));
  await grid.painted();
  const before = grid.inkElements;
  grid.grid.moment = { bar: 2, at: ticks(0) };
  await grid.painted();
  expect(grid.scrollLeft).toBe(0);
  expect(grid.inkElements).toEqual(before);
  grid.grid.moment = { bar: 15, at: ticks(0) };
  await grid.painted();
  expect(grid.scrollLeft).toBeCloseTo(15 * 96 - 1034 * 0.08, 0);
  await grid.scrollTo(0);
  grid.grid.moment = { bar: 16, at: ticks(0) };
  await grid.painted();
  expect(grid.scrollLeft).toBe(0);
});
