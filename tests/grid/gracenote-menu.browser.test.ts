import { afterEach, describe, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import { offersFor } from "../../src/arranging/gracenote-offers.ts";
import type { GroupToHear } from "../../src/playback/heard-group.ts";
import type { Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { ticks } from "../../src/units/ticks.ts";
import { GracenoteHarness } from "../support/gracenote-harness.ts";
import { GridHarness } from "../support/grid-harness.ts";
import { asText, at, pipeSketch } from "../support/pipe-sketch.ts";
import { expectAccessible, onPaper } from "../support/sound-page.ts";

const TUNE = "A2! B2 d4 | e8";

afterEach(() => document.body.replaceChildren());

function inTempo(score: Score, perMinute: number): Score {
  return { ...score, frames: score.frames.map((frame) => ({ ...frame, tempo: { beat: ticks(960), perMinute: bpm(perMinute) } })) };
}

/** A grid with the choice open on a note of the first bar, so many eighths from its start. */
async function opened(text: string, eighths: number, perMinute = 60) {
  const grid = await GridHarness.open(inTempo(pipeSketch(text), perMinute));
  const menu = new GracenoteHarness(grid);
  grid.focusOn(0, 0);
  await grid.keys("{ArrowRight}".repeat(eighths));
  await grid.keys(",");
  await expect.poll(() => menu.isOpen).toBe(true);
  return { grid, menu };
}

const pause = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

describe("the choice of gracenotes", () => {
  test("offers exactly what fits on the note, most usual first, by name and notes, and begins at the first", async () => {
    const { grid, menu } = await opened(TUNE, 4);
    const offers = offersFor(grid.score, at(0, 4));
    expect(menu.offers).toHaveLength(offers.length);
    expect(menu.offers.slice(0, 3)).toEqual(["G gracenote: high G", "E gracenote: E", "Light throw: low G, D, C"]);
    expect(menu.spoken.find((words) => words.startsWith("Doubling"))).toBe("Doubling, high G, D, E, not checked in print");
    expect(menu.focused).toBe(0);
    expect(menu.selected).toEqual([]);
  });

  test("by keys: down, and Enter puts it on the note; the focus is back on the grid and one undo step is asked for", async () => {
    const { grid, menu } = await opened(TUNE, 4);
    await userEvent.keyboard("{ArrowDown}{ArrowDown}");
    await expect.poll(() => menu.focused).toBe(2);
    await userEvent.keyboard("{Enter}");
    await grid.painted();
    expect(asText(grid.score)).toBe("A2! B2 {Gdc}d4 | e8");
    expect(grid.asked).toHaveLength(1);
    expect(menu.isOpen).toBe(false);
    expect(grid.focusedCell).not.toBeNull();
  });

  test("by figure, by name and by letter", async () => {
    const { grid, menu } = await opened(TUNE, 4);
    await userEvent.keyboard("3");
    await grid.painted();
    expect(asText(grid.score)).toBe("A2! B2 {Gdc}d4 | e8");
    await grid.keys(",");
    await expect.poll(() => menu.selected).toEqual([2]);
    expect(menu.focused).toBe(2);
    await userEvent.keyboard("h");
    await expect.poll(() => menu.focused).toBe(3);
    await userEvent.keyboard("{Enter}");
    await grid.painted();
    expect(asText(grid.score)).toBe("A2! B2 {GdGc}d4 | e8");
    await grid.keys(",");
    await expect.poll(() => menu.isOpen).toBe(true);
    await userEvent.keyboard("e");
    await grid.painted();
    expect(asText(grid.score)).toBe("A2! B2 {e}d4 | e8");
  });

  test("Escape leaves the note as it was, and the keys go back to the grid", async () => {
    const { grid, menu } = await opened("A2! B2 {g}d4 | e8", 4);
    await userEvent.keyboard("{ArrowDown}{Escape}");
    await grid.painted();
    expect(menu.isOpen).toBe(false);
    expect(grid.asked).toEqual([]);
    expect(grid.focusedCell?.dataset.at).toBe("1920");
  });

  test("all are taken away by the words for it", async () => {
    const { grid, menu } = await opened("A2! B2 {Gdc}d4 | e8", 4);
    expect(menu.pressButton("Take all away")).toBe(true);
    await grid.painted();
    expect(asText(grid.score)).toBe(asText(inTempo(pipeSketch(TUNE), 60)));
  });

  test("G, D, E in turn is put on three like notes as one step", async () => {
    const { grid, menu } = await opened("A2! B2 B2 B2 | e8", 2);
    const place = menu.offers.indexOf("G, D, E in turn: high G on B; D on B; E on B");
    menu.press(place);
    await grid.painted();
    expect(asText(grid.score)).toBe("A2! {g}B2 {d}B2 {e}B2 | e8");
    expect(grid.asked).toHaveLength(1);
  });

  test("a note too short for one says so, and a group can still be spelled for it", async () => {
    const { grid, menu } = await opened("B1! c240/480 d1 e5", 1, 240);
    expect(menu.offers).toEqual([]);
    expect(menu.whyNone).toBe("This note lasts 63 ms at the tempo in force. Even one gracenote wants 80 ms of it.");
    expect(document.activeElement).toBe(grid.grid);
    await userEvent.keyboard("g");
    await expect.poll(() => menu.answer).toContain("it will be hurried");
    await userEvent.keyboard("{Enter}");
    await grid.painted();
    expect(asText(grid.score)).toContain("{g}c");
  });

  test.each(["light", "dark"] as const)("axe finds nothing in the %s theme, with a spelling refused", async (theme) => {
    const { grid, menu } = await opened("A2! B2 {g}d4 | e8", 4);
    onPaper(grid.grid, theme);
    await grid.settled();
    await grid.keys(",");
    await expect.poll(() => menu.isOpen).toBe(true);
    await userEvent.fill(menu.field, "gd");
    await expectAccessible();
  });
});

describe("a group that is spelled", () => {
  test("is read as it is typed, and put there by Enter", async () => {
    const { grid, menu } = await opened(TUNE, 4);
    await userEvent.keyboard("/");
    await userEvent.keyboard("Gdc");
    await expect.poll(() => menu.answer).toBe("Light throw: low G, D, C.");
    await userEvent.keyboard("{Enter}");
    await grid.painted();
    expect(asText(grid.score)).toBe("A2! B2 {Gdc}d4 | e8");
  });

  test("is refused in words when no finger can play it, and cannot be put there", async () => {
    const { grid, menu } = await opened(TUNE, 4);
    await userEvent.fill(menu.field, "gd");
    await expect.poll(() => menu.answer).toBe("On D its finger is off already: a D gracenote fits only on notes below D.");
    expect(menu.field.getAttribute("aria-invalid")).toBe("true");
    expect(menu.pressButton("Put it there")).toBe(false);
    await userEvent.keyboard("{Enter}");
    await grid.painted();
    expect(grid.asked).toEqual([]);
    expect(menu.isOpen).toBe(true);
  });

  test("begins with what is there when no name is known for it", async () => {
    const { menu } = await opened("A2! B2 {gege}d4 | e8", 4);
    expect(menu.field.value).toBe("{gege}");
    expect(menu.answer).toBe("Your own spelling: high G, E, high G, E.");
  });
});

describe("what is pointed at is heard", () => {
  test("a moment after the keys come to rest: the note before, the gracenotes, the note, each for its own time", async () => {
    const { menu } = await opened(TUNE, 4);
    await expect.poll(() => menu.heard.length, { timeout: 2000 }).toBe(1);
    await userEvent.keyboard("{ArrowDown}{ArrowDown}");
    await expect.poll(() => menu.heard.at(-1)?.notes[0]?.gracenotes, { timeout: 2000 }).toEqual(["low-g", "d", "c"]);
    const group = menu.heard.at(-1) as GroupToHear;
    expect(group.before).toEqual({ note: "b", seconds: 1 });
    expect(group.notes).toEqual([{ note: "d", gracenotes: ["low-g", "d", "c"], seconds: 2 }]);
    // The offer that was passed over made no sound, and the one before it was let go first.
    expect(menu.heard.map((one) => one?.notes[0]?.gracenotes.length ?? null)).toEqual([1, null, 3]);
  });

  test("by mouse: one after the other, never two, and silence on leaving the list", async () => {
    const { menu } = await opened(TUNE, 4);
    await expect.poll(() => menu.heard.length, { timeout: 2000 }).toBe(1);
    menu.hover(2);
    await pause(250);
    menu.hover(3);
    await pause(250);
    menu.hover(3, "pointerleave");
    expect(menu.heard.map((one) => one?.notes[0]?.gracenotes.length ?? null)).toEqual([1, null, 3, null, 4, null]);
  });

  test("passing over offers quickly is silent", async () => {
    const { menu } = await opened(TUNE, 4);
    await expect.poll(() => menu.heard.length, { timeout: 2000 }).toBe(1);
    for (const index of [1, 2, 3, 4]) {
      menu.hover(index);
      await pause(20);
    }
    menu.hover(4, "pointerleave");
    await pause(300);
    expect(menu.heard.map((one) => one !== null)).toEqual([true, false]);
  });

  test("closing stops it", async () => {
    const { grid, menu } = await opened(TUNE, 4);
    await expect.poll(() => menu.heard.length, { timeout: 2000 }).toBe(1);
    await userEvent.keyboard("{Escape}");
    await grid.painted();
    expect(menu.heard.at(-1)).toBeNull();
    expect(menu.heard).toHaveLength(2);
  });

  test("a finger hears with the first touch and takes with the second", async () => {
    const { grid, menu } = await opened(TUNE, 4);
    menu.press(2, "touch");
    await expect.poll(() => menu.heard.at(-1)?.notes[0]?.gracenotes, { timeout: 2000 }).toEqual(["low-g", "d", "c"]);
    expect(grid.asked).toEqual([]);
    menu.press(2, "touch");
    await grid.painted();
    expect(asText(grid.score)).toBe("A2! B2 {Gdc}d4 | e8");
  });

  test("a spelling is heard when the hand that types comes to rest", async () => {
    const { menu } = await opened(TUNE, 4);
    await userEvent.fill(menu.field, "{Gdc}");
    await expect.poll(() => menu.heard.at(-1)?.notes[0]?.gracenotes, { timeout: 2000 }).toEqual(["low-g", "d", "c"]);
    await userEvent.fill(menu.field, "{Gd}");
    expect(menu.heard.at(-1)).toBeNull();
  });
});
