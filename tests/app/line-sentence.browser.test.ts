import axe from "axe-core";
import { afterEach, beforeEach, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import "../../components/shared/tokens.css";
import { LineDesk } from "../../components/app/line-desk.ts";
import "../../components/app/line-sentence.ts";
import { html, LitElement } from "lit";
import type { LineSentence } from "../../components/app/line-sentence.ts";
import { Session } from "../../components/session/session.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { asText, at, pipeSketch } from "../support/pipe-sketch.ts";

/** A page with a line desk and nothing else of the app. */
class DeskPage extends LitElement {
  readonly desk = new LineDesk(this, (address) => this.revealed.push(address.bar), {
    tell: (words, { act }) => this.told.push({ words, undo: act }),
  });
  readonly told: { readonly words: string; readonly undo: () => void }[] = [];
  readonly revealed: number[] = [];
  override render() {
    return html`<main>${this.desk.render("")}</main>`;
  }
}
customElements.define("desk-page", DeskPage);

let page: DeskPage;
let session: Session;

beforeEach(() => {
  page = new DeskPage();
  document.body.append(page);
});
afterEach(() => page.remove());

async function open(score: Score, bar = 0): Promise<LineSentence> {
  session = new Session(score);
  session.subscribe(() => page.requestUpdate());
  return reopen(bar);
}

async function reopen(bar = 0): Promise<LineSentence> {
  await page.desk.show(session, "pipes", bar);
  await settled();
  return page.renderRoot.querySelector("line-sentence") as LineSentence;
}

async function settled(): Promise<void> {
  for (let turn = 0; turn < 4; turn += 1) {
    await page.updateComplete;
    await page.renderRoot.querySelector("line-sentence")?.updateComplete;
  }
}

const within = (sentence: LineSentence, selector: string): readonly HTMLElement[] => [
  ...sentence.renderRoot.querySelectorAll<HTMLElement>(selector),
];

/** The sentence as it is read. */
function read(sentence: LineSentence): string {
  const [line] = within(sentence, ".sentence");
  const words = [...(line?.childNodes ?? [])].map((node) =>
    node instanceof HTMLElement
      ? (node as HTMLElement & { words: string }).words
      : node.nodeType === Node.TEXT_NODE
        ? node.textContent
        : "",
  );
  return words.join("").replace(/\s+/g, " ").trim();
}

const says = (sentence: LineSentence): string => within(sentence, ".says")[0]?.textContent?.trim() ?? "";

async function press(sentence: LineSentence, words: string): Promise<void> {
  const button = within(sentence, "button").find(({ textContent }) => textContent?.trim() === words);
  if (button === undefined) throw new RangeError(`no ${words}`);
  button.click();
  await settled();
}

async function choose(sentence: LineSentence, blank: string, choice: string): Promise<void> {
  const holder = within(sentence, `filled-blank[label="${blank}"]`)[0] as HTMLElement & { show(): void; hide(): void };
  const label = [...holder.querySelectorAll("label")].find(({ textContent }) => textContent?.trim() === choice);
  holder.show();
  label?.querySelector("input")?.click();
  await settled();
  holder.hide();
}

const MARCH = (() => {
  const sketch = pipeSketch("{g}A4! c2 e2 | f4 e4 | d4 B4 | A8");
  return { ...sketch, credits: { ...sketch.credits, tuneType: "March" } };
})();

test("opens as a sentence about the whole line, as the tune is, and proposes what it says", async () => {
  const sentence = await open(MARCH);
  expect(read(sentence)).toBe("Grace the whole line as a march: a gracenote on each beat.");
  expect(says(sentence)).toBe("7 gracenotes on 7 notes; 1 note with gracenotes already stays as it is.");
  expect(asText(session.shown)).toBe(asText(pipeSketch("{g}A4! {g}c2 {g}e2 | {g}f4 {g}e4 | {g}d4 {g}B4 | {g}A8")));
  expect(session.score).toBe(MARCH);
});

test("the proposal follows the sentence", async () => {
  const sentence = await open(MARCH);
  await choose(sentence, "How much", "fully");
  expect(asText(session.shown)).toContain("{gfg}f4 {gef}e4");
  await choose(sentence, "Kind of tune", "jig");
  expect(asText(session.shown)).toContain("{gfg}f4 {g}e4");
  await choose(sentence, "How much", "only what divides like notes");
  expect(says(sentence)).toBe("No two like notes meet here undivided; 1 note with gracenotes already stays as it is.");
  expect(session.proposal).toBeNull();
  expect(within(sentence, ".btn.main")[0]?.matches(":disabled")).toBe(true);
});

test("is about the stretch that is chosen, and about another as soon as that is", async () => {
  session = new Session(MARCH);
  session.subscribe(() => page.requestUpdate());
  session.choose({ kind: "stretch", line: "pipes", from: at(1, 0), to: at(2, 0) });
  const sentence = await reopen();
  expect(read(sentence)).toBe("Grace bar 2 as a march: a gracenote on each beat.");
  session.choose({ kind: "stretch", line: "pipes", from: at(2, 0), to: at(4, 0) });
  await settled();
  expect(read(sentence)).toContain("Grace bars 3 to 4");
  expect(asText(session.shown)).toBe(asText(pipeSketch("{g}A4! c2 e2 | f4 e4 | {g}d4 {g}B4 | {g}A8")));
});

test("Keep makes one undo step of it, and what was chosen is chosen again", async () => {
  session = new Session(MARCH);
  session.subscribe(() => page.requestUpdate());
  const chosen = { kind: "stretch", line: "pipes", from: at(1, 0), to: at(2, 0) } as const;
  session.choose(chosen);
  const sentence = await reopen();
  await press(sentence, "Next");
  expect(session.selection).toEqual({ kind: "note", at: { line: "pipes", bar: 1, at: ticks(0) } });
  await press(sentence, "Keep");
  expect(page.desk.isOpen).toBe(false);
  expect(session.undoLabel).toBe("grace the line as a march");
  expect(session.selection).toEqual(chosen);
  expect(page.told.map(({ words }) => words)).toEqual(["Kept. 2 gracenotes on 2 notes."]);
  page.told[0]?.undo();
  expect(session.score).toBe(MARCH);
  expect(session.undoLabel).toBeNull();
});

test("the places are stepped through in a ring, and shown", async () => {
  const sentence = await open(MARCH);
  await press(sentence, "Previous");
  expect(within(sentence, ".where")[0]?.textContent).toBe("7 of 7");
  await press(sentence, "Next");
  expect(within(sentence, ".where")[0]?.textContent).toBe("1 of 7");
  expect(page.revealed).toEqual([3, 0]);
  expect(says(sentence)).toMatch(/stays as it is\. Bar 1: G gracenote on C, \{g\}\.$/);
});

test("Escape leaves without a trace; inside an open blank it closes the blank first", async () => {
  const sentence = await open(MARCH);
  const blank = within(sentence, "filled-blank")[0] as HTMLElement & { show(): void; open: boolean };
  blank.show();
  await settled();
  await userEvent.keyboard("{Escape}");
  await settled();
  expect(page.desk.isOpen).toBe(true);
  await userEvent.keyboard("{Escape}");
  await settled();
  expect(page.desk.isOpen).toBe(false);
  expect(session.shown).toBe(MARCH);
  expect(session.undoLabel).toBeNull();
});

test("a blank stays open while what is done is another", async () => {
  const sentence = await open(MARCH);
  const [blank] = within(sentence, "filled-blank[label='What is done']") as [HTMLElement & { show(): void }];
  blank.show();
  await settled();
  blank.querySelectorAll("input")[2]?.click();
  await settled();
  expect(read(sentence)).toBe("Take the gracenotes away from the whole line.");
  expect(blank.isConnected).toBe(true);
  await userEvent.keyboard("{Escape}");
  await settled();
  expect(page.desk.isOpen).toBe(true);
});

test("repeated notes are held through each beat, and gracenotes taken away, in the same place", async () => {
  const sentence = await open(pipeSketch("{g}B1! B1 c2 e4"));
  await choose(sentence, "What is done", "Hold repeated notes");
  expect(read(sentence)).toBe("Hold repeated notes through each beat in the whole line.");
  expect(asText(session.shown)).toBe(asText(pipeSketch("{g}B2! c2 e4")));
  await choose(sentence, "What is done", "Take the gracenotes away");
  expect(read(sentence)).toBe("Take the gracenotes away from the whole line.");
  expect(asText(session.shown)).toBe(asText(pipeSketch("B1! B1 c2 e4")));
  await press(sentence, "Keep");
  expect(session.undoLabel).toBe("remove the gracenotes");
});

test("axe finds nothing, with a blank open or not", async () => {
  const sentence = await open(MARCH);
  const faults = async () => (await axe.run(page)).violations.filter(({ id }) => id !== "region").map(({ id }) => id);
  expect(await faults()).toEqual([]);
  (within(sentence, "filled-blank[label='How much']")[0] as HTMLElement & { show(): void }).show();
  await settled();
  expect(await faults()).toEqual([]);
});
