import { afterEach, expect, test } from "vitest";
import "../../components/notation/part-sheet.ts";
import { barElement, repaint } from "../../components/notation/bar-element.ts";
import type { PartSheet } from "../../components/notation/part-sheet.ts";
import { applyEdit } from "../../src/editing/apply-edit.ts";
import type { BarDrawing } from "../../src/engraving/drawing.ts";
import { engravedBar } from "../../src/engraving/engrave-part.ts";
import { screenWidths } from "../../src/engraving/screen-widths.ts";
import type { Address } from "../../src/score/address.ts";
import type { Finding } from "../../src/score/finding.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { expectAccessible, onPaper } from "../support/sound-page.ts";

afterEach(() => document.body.replaceChildren());

async function sheetOf(score: Score, line = "pipes", theme: "light" | "dark" = "light"): Promise<PartSheet> {
  const sheet = document.createElement("part-sheet");
  Object.assign(sheet, { score, line, widths: screenWidths(score) });
  sheet.style.width = "1300px";
  onPaper(sheet, theme);
  await settled(sheet);
  return sheet;
}

/** The sheet learns its width from an observer, some frames later. */
async function settled(sheet: PartSheet): Promise<void> {
  await expect.poll(() => sheet.shadowRoot?.querySelector(".bars > g, part-score")).toBeTruthy();
  await sheet.updateComplete;
}

function barsOf(sheet: PartSheet): Element[] {
  return [...(sheet.shadowRoot?.querySelectorAll(".bars > g") ?? [])];
}

function optionOf(sheet: PartSheet): Element {
  return sheet.shadowRoot?.querySelector('[role="option"]') as Element;
}

function keys(sheet: PartSheet, ...names: readonly string[]): readonly Address[] {
  const heard: Address[] = [];
  const list = sheet.shadowRoot?.querySelector('[role="listbox"]') as HTMLElement;
  sheet.addEventListener("note-chosen", (event) => heard.push((event as CustomEvent<{ address: Address }>).detail.address));
  for (const key of names) list.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
  return heard;
}

test("an edit of one note touches the ink of its own bar only, and less than half of that", async () => {
  const score = lanternScore("B");
  const sheet = await sheetOf(score);
  const before = barsOf(sheet);
  expect(before.length).toBeGreaterThan(3);
  const edited = applyEdit(score, { kind: "gracenotes", at: { line: "pipes", bar: 1, at: ticks(0) }, gracenotes: ["e"] });
  if (!edited.ok) throw new RangeError(edited.reason);
  const touched = new Set<Node>();
  const watch = new MutationObserver((records) => {
    for (const { target, addedNodes } of records) for (const node of [target, ...addedNodes]) touched.add(node);
  });
  watch.observe(sheet.shadowRoot?.querySelector(".bars") as Element, { subtree: true, childList: true, attributes: true });
  sheet.score = edited.value;
  sheet.widths = screenWidths(edited.value);
  await sheet.updateComplete;
  await Promise.resolve();
  watch.disconnect();
  const after = barsOf(sheet);
  expect(after).toEqual(before);
  const bar = before[1] as Element;
  expect([...touched].filter((node) => !bar.contains(node))).toEqual([]);
  expect(touched.size).toBeGreaterThan(0);
  expect(touched.size).toBeLessThan(bar.childElementCount / 2);
});

test("a bar repainted to show another drawing is the same as one painted from nothing", () => {
  const score = lanternScore("B");
  const drawings = score.lines.flatMap((line) =>
    score.frames.map((_, bar) =>
      engravedBar(score, line, bar, { spacing: "page", width: 300, firstInSystem: bar === 0, lastInSystem: false }),
    ),
  );
  const shown = barElement(drawings[0] as BarDrawing);
  for (const [index, drawing] of drawings.entries()) {
    repaint(shown, drawings.at(index - 1) as BarDrawing, drawings[0] as BarDrawing);
    repaint(shown, drawings[0] as BarDrawing, drawing);
    expect(shown.outerHTML).toBe(barElement(drawing).outerHTML);
  }
});

test("a click on a note chooses it, and the chosen note is steel", async () => {
  const sheet = await sheetOf(lanternScore("B"));
  const heard: Address[] = [];
  sheet.addEventListener("note-chosen", (event) => heard.push((event as CustomEvent<{ address: Address }>).detail.address));
  const note = barsOf(sheet)[1]?.querySelector('path.note[data-at="1440"]') as SVGPathElement;
  const { left, top, width, height } = note.getBoundingClientRect();
  const [clientX, clientY] = [left + width / 2, top + height / 2];
  // To whatever lies uppermost there, as a real press would go.
  const hit = sheet.shadowRoot?.elementFromPoint(clientX, clientY);
  hit?.dispatchEvent(new PointerEvent("pointerdown", { clientX, clientY, bubbles: true, composed: true, button: 0 }));
  expect(heard).toEqual([{ line: "pipes", bar: 1, at: 1440 }]);
  sheet.selection = { kind: "note", at: heard[0] as Address };
  await sheet.updateComplete;
  const steel = getComputedStyle(sheet).getPropertyValue("--steel").trim();
  const probe = document.createElement("i");
  probe.style.color = steel;
  document.body.append(probe);
  expect(getComputedStyle(note).fill).toBe(getComputedStyle(probe).color);
});

test("arrow keys go from note to note over bar lines, each spoken with bar, beat, name and value", async () => {
  const sheet = await sheetOf(lanternScore("B"));
  expect(optionOf(sheet).getAttribute("aria-label")).toBe("Bar 0, beat 4. Low A, eighth note.");
  const heard = keys(sheet, "ArrowRight", "ArrowRight", "ArrowRight");
  expect(heard.map(({ bar, at }) => [bar, at])).toEqual([
    [0, 480],
    [1, 0],
    [1, 1440],
  ]);
  await sheet.updateComplete;
  expect(optionOf(sheet).getAttribute("aria-label")).toBe("Bar 1, after beat 2. C natural, cross-fingered, 16th note.");
});

test("the moment line stands where time is linear in the bar, and the note that sounds there is told apart", async () => {
  const score = lanternScore("B");
  const sheet = await sheetOf(score);
  sheet.moment = { bar: 1, at: ticks(1500) };
  const line = sheet.shadowRoot?.querySelector(".moment") as SVGRectElement;
  const widths = screenWidths(score);
  expect(Number(line.getAttribute("x")) + 0.75).toBeCloseTo((widths[0] as number) + ((widths[1] as number) * 1500) / 3840, 0);
  expect([...(sheet.shadowRoot?.querySelectorAll(".sounding") ?? [])].map((note) => (note as SVGElement).dataset.at)).toEqual(["1440"]);
  sheet.moment = null;
  expect(sheet.shadowRoot?.querySelectorAll(".sounding")).toHaveLength(0);
  expect(getComputedStyle(line).display).toBe("none");
});

test("only bars in view are painted, and scrolling brings the others", async () => {
  const long = lanternScore("B");
  const score: Score = {
    ...long,
    frames: Array.from({ length: 60 }, () => long.frames[1] as Score["frames"][number]),
    lines: long.lines.map((line) => ({ ...line, bars: Array.from({ length: 60 }, () => line.bars[1]) })) as unknown as Score["lines"],
  };
  const sheet = await sheetOf(score);
  expect(barsOf(sheet).length).toBeLessThan(12);
  sheet.scrolled = 4_000;
  const lefts = barsOf(sheet).map((bar) => Number(/translate\(([\d.]+)/.exec(bar.getAttribute("transform") ?? "")?.[1]));
  expect(Math.min(...lefts)).toBeGreaterThan(4_000 - 2 * (sheet.widths[0] as number));
  expect(Math.max(...lefts)).toBeLessThan(4_000 + 1_000);
});

test("head and label of a part say the key in force at the left edge, wherever that is scrolled to", async () => {
  const score = lanternScore("B", "trumpet-bb");
  const sheet = await sheetOf(score, "doubler");
  const shown = async (scrolled: number) => {
    sheet.scrolled = scrolled;
    await sheet.updateComplete;
    const head = sheet.shadowRoot?.querySelector("svg.head > g");
    return [sheet.shadowRoot?.querySelector(".label p:last-child")?.textContent, head?.querySelector(".signature:nth-child(3)")] as const;
  };
  const change = screenWidths(score)
    .slice(0, 4)
    .reduce((sum, width) => sum + width, 0);
  const [first, signature] = await shown(0);
  expect(first).toBe("F♯ major");
  const [before, same] = await shown(change - 2);
  expect([before, same]).toEqual([first, signature]);
  const [after, other] = await shown(change + 2);
  expect(after).toBe("D♭ major");
  expect(other?.getAttribute("d")).not.toBe(signature?.getAttribute("d"));
  expect((await shown(0))[0]).toBe("F♯ major");
});

test.each(["light", "dark"] as const)("the chosen finding's ring is filled with ink, its number paper, on a %s sheet", async (theme) => {
  const score = lanternScore("B");
  const sheet = await sheetOf(score, "pipes", theme);
  const finding = (bar: number): Finding => ({
    kind: "tie",
    address: { line: "pipes", bar, at: ticks(0) },
    message: "A tie.",
    cures: [],
  });
  sheet.findings = [finding(0), finding(1)];
  sheet.chosenFinding = sheet.findings[1] as Finding;
  await sheet.updateComplete;
  const colours = [...(sheet.shadowRoot?.querySelectorAll(".ring") ?? [])].map((ring) =>
    ["circle", "text"].map((name) => getComputedStyle(ring.querySelector(name) as Element).fill),
  );
  const [plain, chosen] = colours as [string[], string[]];
  expect(chosen).toEqual(plain.toReversed());
  expect(new Set(plain).size).toBe(2);
});

test.each(["light", "dark"] as const)("axe finds nothing on a %s sheet", async (theme) => {
  await sheetOf(lanternScore("B"), "doubler", theme);
  await expectAccessible();
});

test("under 600 px a part is read in lines that stay inside the page", async () => {
  const sheet = document.createElement("part-sheet");
  const score = lanternScore("B");
  Object.assign(sheet, { score, line: "pipes", widths: screenWidths(score) });
  sheet.style.width = "390px";
  onPaper(sheet);
  await settled(sheet);
  const lines = sheet.shadowRoot?.querySelector("part-score");
  await lines?.updateComplete;
  const bars = [...(lines?.shadowRoot?.querySelectorAll(".bars > g > .staff") ?? [])];
  expect(bars.length).toBeGreaterThan(score.frames.length);
  for (const bar of bars) expect(bar.getBoundingClientRect().right).toBeLessThanOrEqual(sheet.getBoundingClientRect().right + 0.5);
});

test("while it plays, the line of a narrow part that sounds is brought into view, and its bars are painted", async () => {
  const short = lanternScore("B");
  const score: Score = {
    ...short,
    frames: Array.from({ length: 40 }, () => short.frames[1] as Score["frames"][number]),
    lines: short.lines.map((line) => ({ ...line, bars: Array.from({ length: 40 }, () => line.bars[1]) })) as unknown as Score["lines"],
  };
  const sheet = document.createElement("part-sheet");
  Object.assign(sheet, { score, line: "pipes", widths: screenWidths(score) });
  sheet.style.width = "390px";
  onPaper(sheet);
  await settled(sheet);
  expect(window.scrollY).toBe(0);
  sheet.moment = { bar: 39, at: ticks(0) };
  await expect.poll(() => window.scrollY).toBeGreaterThan(1_000);
  const lines = sheet.shadowRoot?.querySelector("part-score");
  await expect.poll(() => lines?.shadowRoot?.querySelector(".sounding")).toBeTruthy();
  window.scrollTo(0, 0);
});
