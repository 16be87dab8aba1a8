import axe from "axe-core";
import { afterEach, describe, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import "../../components/grid/form-ribbon.ts";
import "../../components/grid/reading-line.ts";
import "../../components/shared/tokens.css";
import type { EditsAsked } from "../../components/shared/edits-asked.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { NOTHING, type Selection } from "../../src/editing/selection.ts";
import type { Score } from "../../src/score/score.ts";
import { asText, at, pipeSketch } from "../support/pipe-sketch.ts";

afterEach(() => {
  document.body.replaceChildren();
  delete document.documentElement.dataset.theme;
});

const TUNE = pipeSketch("A2! B2 c4 | d8 | z8 | z8");
const WIDTHS = [400, 400, 400, 400];

async function ribbon(scrollLeft: number) {
  const element = document.createElement("form-ribbon");
  element.style.inlineSize = "1300px";
  const named = TUNE.frames.map((frame, index) => (index === 2 ? { ...frame, section: { name: "Chorus", letter: "" } } : frame));
  Object.assign(element, {
    score: { ...TUNE, frames: named },
    widths: WIDTHS,
    view: { scrollLeft, viewWidth: 800, firstBar: 0, lastBar: 1 },
  });
  document.body.append(element);
  await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
  await element.updateComplete;
  const asked: number[] = [];
  element.addEventListener("view-asked", (event) => asked.push((event as CustomEvent<{ scrollLeft: number }>).detail.scrollLeft));
  return { element, asked, root: element.shadowRoot as ShadowRoot };
}

describe("the ribbon", () => {
  test("shows what is in view to scale: half of the sketch is half of the ribbon", async () => {
    const { root } = await ribbon(400);
    const length = root.querySelector(".ribbon")?.clientWidth ?? 0;
    const bracket = root.querySelector(".bracket") as HTMLElement;
    expect(bracket.offsetWidth).toBeCloseTo(length / 2, 0);
    expect(bracket.offsetLeft).toBeCloseTo(length / 4, 0);
    expect(bracket.getAttribute("aria-valuetext")).toBe("Bars 1 to 2");
  });

  test("a press on a section's name asks for its first bar", async () => {
    const { root, asked } = await ribbon(0);
    root.querySelector<HTMLElement>(".section")?.click();
    expect(asked).toEqual([800]);
  });

  test("keys go by bars, by views, to the start and to the end", async () => {
    const { root, asked } = await ribbon(400);
    root.querySelector<HTMLElement>(".bracket")?.focus();
    await userEvent.keyboard("{ArrowRight}{ArrowLeft}{PageDown}{Home}{End}");
    expect(asked).toEqual([800, 0, 1200, 0, 1600]);
  });
});

async function reading(score: Score, selection: Selection, more: Readonly<Record<string, unknown>> = {}) {
  const element = document.createElement("reading-line");
  Object.assign(element, { score, line: "pipes", selection, ...more });
  document.body.append(element);
  await element.updateComplete;
  const root = element.shadowRoot as ShadowRoot;
  return { element, root, text: () => (root.querySelector(".reading") as HTMLElement).textContent.replaceAll(/\s+/g, " ").trim() };
}

describe("the reading line", () => {
  test("says the chosen note, where it is, its concert pitch, cents, hertz and holes", async () => {
    const { text, root } = await reading(TUNE, { kind: "note", at: at(0, 4) });
    expect(text()).toContain("C, the leading tone, bar 1 beats 3 and 4.");
    expect(text()).toContain("D5 −14 cents");
    expect(text()).toContain("582.7 Hz");
    expect(root.querySelector(".holes")?.getAttribute("aria-label")).toBe("lower middle and lower ring open");
  });

  test("says what can sound on the way to the chosen note, the whole sentence where the hand rests", async () => {
    const score = pipeSketch("d4! e4 | A8");
    const { text, root } = await reading(score, { kind: "note", at: at(0, 4) });
    expect(text()).toContain("on the way: C, B, low A or low G");
    expect(root.querySelector(".passing")?.getAttribute("title")).toBe(
      "From D to E, fingers that do not move as one sound C, B, low A or low G.",
    );
    const first = await reading(score, { kind: "note", at: at(0, 0) });
    expect(first.text()).not.toContain("on the way");
  });

  test("says a stretch, and what can be done when nothing is chosen", async () => {
    const stretch = await reading(TUNE, { kind: "stretch", line: "pipes", from: at(0, 0), to: at(2, 0) });
    expect(stretch.text()).toContain("Bars 1 to 2");
    const nothing = await reading(TUNE, NOTHING);
    expect(nothing.text()).toContain("Draw along a row, or type its letter, A to G.");
  });

  test("a refusal takes its place, and is said to the screen reader", async () => {
    const { text, root } = await reading(TUNE, { kind: "note", at: at(0, 4) }, { refusal: "There is no note here." });
    expect(text()).toBe("Not done There is no note here.");
    expect(root.querySelector('[role="status"]')?.textContent).toContain("There is no note here.");
  });

  test("offers to undo what took something away, and nothing else", async () => {
    const deleted = await reading(TUNE, NOTHING, { undoLabel: "delete" });
    const undone: string[] = [];
    deleted.element.addEventListener("undo-asked", () => undone.push("undo"));
    deleted.root.querySelector<HTMLElement>(".offers .link")?.click();
    expect(undone).toEqual(["undo"]);
    const placed = await reading(TUNE, NOTHING, { undoLabel: "place D" });
    expect(placed.root.querySelector(".offers .link")).toBeNull();
  });
});

describe("the six words", () => {
  async function hand(words: string): Promise<string> {
    const panel = document.createElement("hand-panel");
    Object.assign(panel, { score: TUNE, line: "pipes", selection: { kind: "note", at: at(1, 0) } });
    document.body.append(panel);
    await panel.updateComplete;
    let result = "nothing asked";
    panel.addEventListener("edits-asked", (event) => {
      const outcome = applyEdits(TUNE, (event.detail as EditsAsked).edits);
      result = outcome.ok ? asText(outcome.value) : outcome.reason;
    });
    const buttons = [...(panel.shadowRoot as ShadowRoot).querySelectorAll<HTMLElement>(".six button")];
    expect(buttons.every((button) => button.offsetHeight >= 44 && button.offsetWidth >= 44)).toBe(true);
    buttons.find((button) => button.textContent === words)?.click();
    await panel.updateComplete;
    return result;
  }

  test.each([
    ["Shorter", "A2! B2 c4 | d7 z | z8 | z8"],
    ["Longer", "A2! B2 c4 | d8- | d z7 | z8"],
    ["Split", "A2! B2 c4 | d4 {g}d4 | z8 | z8"],
    ["Tie", "A tie needs the same note right after this one."],
    ["Delete", "A2! B2 c4 | z8 | z8 | z8"],
  ])("%s, each 44 px to the finger", async (words, result) => {
    expect(await hand(words)).toBe(result);
  });
});

test("with bars chosen the six words are about bars", async () => {
  const panel = document.createElement("hand-panel");
  Object.assign(panel, { score: TUNE, line: "pipes", selection: { kind: "stretch", line: "pipes", from: at(0, 0), to: at(2, 0) } });
  document.body.append(panel);
  await panel.updateComplete;
  let result = "";
  panel.addEventListener("edits-asked", (event) => {
    const outcome = applyEdits(TUNE, (event.detail as EditsAsked).edits);
    result = outcome.ok ? asText(outcome.value) : outcome.reason;
  });
  const buttons = [...(panel.shadowRoot as ShadowRoot).querySelectorAll<HTMLElement>(".six button")];
  expect(buttons.map((button) => button.textContent)).toEqual(["Copy", "Paste", "Duplicate bars", "Insert bar", "Remove bars", "Delete"]);
  buttons[4]?.click();
  expect(result).toBe("z8 | z8");
});

for (const theme of ["light", "dark"] as const) {
  test(`axe finds nothing, ${theme}`, async () => {
    document.documentElement.dataset.theme = theme;
    document.body.style.background = "var(--paper)";
    await ribbon(0);
    await reading(TUNE, { kind: "note", at: at(0, 4) }, { undoLabel: "delete" });
    const panel = document.createElement("hand-panel");
    Object.assign(panel, { score: TUNE, line: "pipes", selection: { kind: "note", at: at(1, 0) } });
    document.body.append(panel);
    await panel.updateComplete;
    const { violations } = await axe.run(document.body, {
      rules: { region: { enabled: false }, "page-has-heading-one": { enabled: false } },
    });
    document.body.style.background = "";
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`)).toEqual([]);
  });
}
