import { afterEach, describe, expect, test } from "vitest";
import "../../components/shared/tokens.css";
import { GridHarness, type Touch } from "../support/grid-harness.ts";
import { asText, pipeSketch } from "../support/pipe-sketch.ts";

/* What the hand does on the grid and what comes of it, by mouse, finger and keys. Scores are written and read as text, an eighth a unit. */

afterEach(() => document.body.replaceChildren());

/** Four bars of rests. */
const EMPTY = "z8|z8|z8|z8";

/** Two bars with four notes. */
const TUNE = "A2! B2 c4|d8";

const HANDS: readonly Touch[] = ["mouse", "touch"];

describe.each(HANDS)("by %s", (hand) => {
  test("a press along a row draws a note as long as the way, in steps", async () => {
    const grid = await GridHarness.open(pipeSketch(EMPTY));
    await grid.drag(
      [
        [0, 2.1, "d"],
        [0, 4, "d"],
        [0, 5.6, "e"],
      ],
      hand,
    );
    expect(asText(grid.score)).toBe("z2 d4! z2 | z8 | z8 | z8");
    expect(grid.asked).toHaveLength(1);
  });

  test("a press without a way draws one step", async () => {
    const grid = await GridHarness.open(pipeSketch(EMPTY));
    await grid.press([1, 3.4, "f"], hand);
    expect(asText(grid.score)).toBe("z8 | z3 f! z4 | z8 | z8");
  });

  test("a letter typed after drawing goes on where the drawn note ends", async () => {
    const grid = await GridHarness.open(pipeSketch(EMPTY));
    await grid.drag(
      [
        [0, 2.1, "d"],
        [0, 5.6, "d"],
      ],
      hand,
    );
    await grid.key("e");
    expect(asText(grid.score)).toBe("z2 d4! e z | z8 | z8 | z8");
  });

  test("a note is taken to another time and row", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    await grid.drag(
      [
        [0, 2.5, "b"],
        [0, 3.5, "e"],
        [1, 2.5, "e"],
      ],
      hand,
    );
    expect(asText(grid.score)).toBe("A4! c4 | d2 e2 d4");
  });

  test("the ring at the end makes a note longer, the one at the start moves where it begins", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    await grid.press([0, 3, "b"], hand);
    expect(grid.handles).toBe(2);
    await grid.drag(
      [
        [0, 4, "b"],
        [0, 5, "b"],
      ],
      hand,
    );
    expect(asText(grid.score)).toBe("A2! B3 c3 | d8");
    await grid.drag(
      [
        [0, 2, "b"],
        [0, 1, "b"],
      ],
      hand,
    );
    expect(asText(grid.score)).toBe("A! B4 c3 | d8");
  });
});

test("nothing is asked for while the hand is down, and Escape takes the drag back", async () => {
  const grid = await GridHarness.open(pipeSketch(TUNE));
  await grid.hold([
    [0, 2.5, "b"],
    [1, 2.5, "e"],
  ]);
  expect(grid.ghosts).toBe(1);
  expect(grid.asked).toHaveLength(0);
  await grid.key("Escape");
  expect(grid.ghosts).toBe(0);
  expect(asText(grid.score)).toBe(asText(pipeSketch(TUNE)));
});

test("the mouse over a row shows a ghost of the step with name, concert pitch and cents", async () => {
  const grid = await GridHarness.open(pipeSketch(EMPTY));
  await grid.hover([0, 2.2, "e"]);
  expect(grid.ghosts).toBe(1);
  expect(grid.tag).toBe("E F5 +2");
});

test("Shift with the mouse chooses a stretch, and asks for no edit", async () => {
  const grid = await GridHarness.open(pipeSketch(TUNE));
  await grid.drag(
    [
      [0, 2.5, "high-a"],
      [1, 1.5, "high-a"],
    ],
    "mouse",
    true,
  );
  expect(grid.asked).toHaveLength(0);
  expect(grid.selection).toEqual({ kind: "stretch", line: "pipes", from: { bar: 0, at: 960 }, to: { bar: 1, at: 960 } });
});

describe("by keys", () => {
  test("letters put down notes of one step, one after the other; of two As and Gs the nearer", async () => {
    const grid = await GridHarness.open(pipeSketch(EMPTY));
    await grid.keys("abcdefga");
    expect(asText(grid.score)).toBe("A! B c d e f g a | z8 | z8 | z8");
    await grid.keys("ga");
    expect(asText(grid.score)).toBe("A! B c d e f g a | g a z6 | z8 | z8");
  });

  test("the step is what a letter lasts", async () => {
    const grid = await GridHarness.open(pipeSketch(EMPTY));
    await grid.keys("1d3ef");
    expect(asText(grid.score)).toBe("d2! e240/480 f240/480 z5 | z8 | z8 | z8");
    await grid.keys("5");
    expect(grid.said).toBe("Drawing in triplets.");
  });

  test("triplets are put down in threes", async () => {
    const grid = await GridHarness.open(pipeSketch(EMPTY));
    await grid.keys("5bcd");
    expect(asText(grid.score)).toMatch(/^3:B320\/480! 3:c320\/480 3:d320\/480 z6 \|/);
  });

  test("letters go on past the last bar, in a new one", async () => {
    const grid = await GridHarness.open(pipeSketch("d8!."));
    await grid.key("End", { ctrl: true });
    await grid.keys("ef");
    expect(asText(grid.score)).toBe("d8! | e f. z6");
    expect(grid.score.frames).toHaveLength(2);
  });

  test("a letter with Shift is the cross-fingered note only where it speaks", async () => {
    const grid = await GridHarness.open(pipeSketch(EMPTY));
    await grid.key("C", { shift: true });
    expect(grid.asked).toHaveLength(0);
    expect(grid.said).toBe("C natural does not speak in this setup.");
  });

  test("arrows change the chosen note's pitch, its length with Shift, its time with Alt", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    grid.focusOn(0, 0);
    await grid.keys("{ArrowRight}{ArrowRight}");
    expect(grid.selection).toMatchObject({ kind: "note", at: { bar: 0, at: 960 } });
    await grid.keys("{ArrowUp}");
    expect(asText(grid.score)).toBe("A2! c2 c4 | d8");
    await grid.keys("{ArrowUp}{Shift>}{ArrowRight}{/Shift}");
    expect(asText(grid.score)).toBe("A2! d3 c3 | d8");
    await grid.key("ArrowLeft", { alt: true });
    expect(asText(grid.score)).toBe("A! d3 A c3 | d8");
  });

  test("the second half of a split note is tied back to the first", async () => {
    const grid = await GridHarness.open(pipeSketch("A4! c4"));
    await grid.press([0, 1, "low-a"]);
    await grid.key("/");
    expect(asText(grid.score)).toBe("A2! {g}A2 c4");
    await grid.key("t");
    expect(asText(grid.score)).toBe("A2!- A2 c4");
  });

  test("a copied stretch is pasted where the keys are, in the middle of a held note too", async () => {
    const grid = await GridHarness.open(pipeSketch("A2! B2 c4|d8"));
    await grid.press([0, 3, "b"]);
    await grid.key("c", { ctrl: true });
    await grid.key("End");
    await grid.key("ArrowRight");
    for (const _ of [1, 2]) await grid.key("ArrowRight");
    await grid.key("v", { ctrl: true });
    expect(asText(grid.score)).toBe("A2! B2 c4 | d2 B2 d4");
  });

  test("V on a note asks once to hear it in versions, and changes nothing", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    let asked = 0;
    grid.grid.addEventListener("audition-asked", () => {
      asked += 1;
    });
    await grid.press([0, 3, "b"]);
    await grid.keys("v");
    expect(asked).toBe(1);
    expect(grid.asked).toHaveLength(0);
    expect(grid.selection).toMatchObject({ kind: "note", at: { bar: 0, at: 960 } });
  });

  test("split, tie and delete", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    grid.focusOn(1, 0);
    await grid.keys("{ArrowRight}{ArrowRight}/");
    expect(asText(grid.score)).toBe("A2! B2 c4 | d2 {g}d6");
    await grid.keys("{ArrowLeft}t");
    expect(asText(grid.score)).toBe("A2! B2 c4 | d2- d6");
    await grid.keys("t");
    expect(asText(grid.score)).toBe("A2! B2 c4 | d2 d6");
    await grid.keys("{Delete}");
    expect(asText(grid.score)).toBe("A2! B2 c4 | z2 d6");
  });

  test("a comma and a letter give the chosen note a gracenote that is in reach, and 0 takes it away", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    grid.focusOn(0, 0);
    await grid.keys("{ArrowRight}{ArrowRight},");
    await expect.poll(() => grid.isOpen("gracenotes")).toBe(true);
    await grid.keys("d");
    expect(asText(grid.score)).toBe("A2! {d}B2 c4 | d8");
    await grid.painted();
    await grid.keys(",");
    await expect.poll(() => grid.isOpen("gracenotes")).toBe(true);
    await grid.keys("0");
    expect(asText(grid.score)).toBe(asText(pipeSketch(TUNE)));
  });

  test("a stretch is copied, cut and pasted", async () => {
    const grid = await GridHarness.open(pipeSketch("A2! B2 c4|d8|z8"));
    grid.focusOn(0, 0);
    await grid.key("s");
    await grid.key("ArrowRight", { shift: true });
    await grid.key("ArrowRight", { shift: true });
    await grid.key("ArrowRight", { shift: true });
    expect(grid.selection).toMatchObject({ from: { bar: 0, at: 0 }, to: { bar: 0, at: 1920 } });
    await grid.key("c", { ctrl: true });
    grid.focusOn(1, 0);
    await grid.key("PageDown");
    await grid.key("v", { ctrl: true });
    expect(asText(grid.score)).toBe("A2! B2 c4 | d8 | A2 B2 z4");
  });

  test("bars are duplicated, inserted and removed", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    grid.focusOn(1, 0);
    await grid.key("d", { ctrl: true });
    expect(asText(grid.score)).toBe("A2! B2 c4 | d8 | d8");
    await grid.key("Escape");
    await grid.key("+");
    expect(grid.score.frames).toHaveLength(4);
    await grid.key("-");
    await grid.key("-");
    expect(grid.score.frames).toHaveLength(2);
  });

  test("undo, redo, playing and the page of keys are asked for", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    const heard: string[] = [];
    for (const name of ["undo-asked", "redo-asked", "play-asked"]) {
      grid.grid.addEventListener(name, (event) => heard.push(`${name} ${JSON.stringify((event as CustomEvent).detail)}`));
    }
    await grid.key("z", { ctrl: true });
    await grid.key("z", { ctrl: true, shift: true });
    await grid.key("PageDown");
    await grid.key(" ");
    expect(heard).toEqual(["undo-asked {}", "redo-asked {}", 'play-asked {"from":{"bar":1,"at":0}}']);
    await grid.key("?");
    expect(grid.isOpen("keys")).toBe(true);
  });
});

test("mouse, finger and keys ask for equal edits for the same act", async () => {
  const acts: Readonly<
    Record<string, { hand: (grid: GridHarness, hand: Touch) => Promise<void>; keys: (grid: GridHarness) => Promise<void> }>
  > = {
    place: {
      hand: (grid, hand) => grid.press([2, 4.5, "low-a"], hand),
      keys: async (grid) => {
        grid.focusOn(2, 4);
        await grid.keys("a");
      },
    },
    lengthen: {
      hand: async (grid, hand) => {
        await grid.press([0, 3, "b"], hand);
        await grid.drag(
          [
            [0, 4, "b"],
            [0, 5, "b"],
          ],
          hand,
        );
      },
      keys: async (grid) => {
        grid.focusOn(0, 0);
        await grid.keys("{ArrowRight}{ArrowRight}{Shift>}{ArrowRight}{/Shift}");
      },
    },
    move: {
      hand: (grid, hand) =>
        grid.drag(
          [
            [0, 3, "b"],
            [0, 4, "b"],
          ],
          hand,
        ),
      keys: async (grid) => {
        grid.focusOn(0, 0);
        await grid.keys("{ArrowRight}{ArrowRight}");
        await grid.key("ArrowRight", { alt: true });
      },
    },
    repitch: {
      hand: (grid, hand) =>
        grid.drag(
          [
            [0, 3, "b"],
            [0, 3, "c"],
          ],
          hand,
        ),
      keys: async (grid) => {
        grid.focusOn(0, 0);
        await grid.keys("{ArrowRight}{ArrowRight}{ArrowUp}");
      },
    },
  };
  for (const [name, act] of Object.entries(acts)) {
    const edits: unknown[] = [];
    for (const hand of HANDS) {
      const grid = await GridHarness.open(pipeSketch("A2! B2 c4.|z8|z8"));
      await act.hand(grid, hand);
      edits.push(grid.edits);
      document.body.replaceChildren();
    }
    const grid = await GridHarness.open(pipeSketch("A2! B2 c4.|z8|z8"));
    await act.keys(grid);
    edits.push(grid.edits);
    document.body.replaceChildren();
    expect(edits[0], name).not.toEqual([]);
    expect(edits[1], name).toEqual(edits[0]);
    expect(edits[2], name).toEqual(edits[0]);
  }
});

describe("by the mouse's second button", () => {
  test("a note is chosen, and its words are those of the keys", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    const words = await grid.menuAt([0, 3, "b"]);
    expect(words.slice(0, 6)).toEqual(["Shorter", "Longer", "Gracenote", "Split", "Tie", "Delete"]);
    expect(grid.selection).toMatchObject({ kind: "note", at: { bar: 0, at: 960 } });
    await grid.pressWord("Split");
    expect(asText(grid.score)).toBe("A2! B {g}B c4 | d8");
  });

  test("an empty place offers its bar: copy, paste, duplicate, insert, remove", async () => {
    const grid = await GridHarness.open(pipeSketch(TUNE));
    const words = await grid.menuAt([1, 3, "high-a"]);
    expect(words.map((word) => word.replaceAll(/[()]/g, ""))).toEqual([
      "Copy",
      "Paste",
      "Duplicate bar",
      "Insert bar",
      "Remove bar",
      "Delete",
    ]);
    await grid.pressWord("Duplicate bar");
    expect(asText(grid.score)).toBe("A2! B2 c4 | d8 | d8");
    await grid.menuAt([0, 3, "high-a"]);
    await grid.pressWord("Copy");
    await grid.menuAt([2, 3, "high-a"]);
    await grid.pressWord("Paste");
    expect(asText(grid.score)).toBe("A2! B2 c4 | d8 | A2 B2 c4");
    await grid.menuAt([1, 3, "high-a"]);
    await grid.pressWord("Remove bar");
    expect(asText(grid.score)).toBe("A2! B2 c4 | A2 B2 c4");
  });
});

test("what is refused leaves the score as it was", async () => {
  const grid = await GridHarness.open(pipeSketch("d8!."));
  grid.focusOn(0, 0);
  await grid.keys("t");
  expect(grid.refusal).not.toBe("");
  expect(asText(grid.score)).toBe("d8!.");
});
