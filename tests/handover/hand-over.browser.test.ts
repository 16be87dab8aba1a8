import { afterEach, beforeEach, expect, test, vi } from "vitest";
import "../../components/handover/hand-over.ts";
import "../../components/notation/print-pages.ts";
import type { HandOver } from "../../components/handover/hand-over.ts";
import { lanternScore } from "../support/lantern-score.ts";

let room: HandOver;
let names: string[];
beforeEach(async () => {
  names = [];
  // A file handed to the browser is a press on a link that downloads; here it is only written down.
  vi.spyOn(HTMLAnchorElement.prototype, "click").mockImplementation(function (this: HTMLAnchorElement) {
    names.push(this.download);
  });
  room = document.createElement("hand-over");
  room.score = lanternScore("B");
  document.body.append(room);
  await room.show();
});
afterEach(() => {
  vi.restoreAllMocks();
  document.body.replaceChildren();
});

const inRoom = <Found extends Element>(selector: string): Found | null => room.renderRoot.querySelector<Found>(selector);
const button = (words: string): HTMLButtonElement => {
  const found = [...room.renderRoot.querySelectorAll("button")].find(({ textContent }) => textContent === words);
  if (found === undefined) throw new RangeError(`no button says ${words}`);
  return found;
};
const said = (): string => inRoom("[role=status]")?.textContent ?? "";

async function choose(name: string, value: string): Promise<void> {
  const select = inRoom<HTMLSelectElement>(`select[aria-label="${name}"]`);
  if (select === null) throw new RangeError(`nothing is called ${name}`);
  select.value = value;
  select.dispatchEvent(new Event("change"));
  await room.updateComplete;
}

const choices = (): readonly (string | null)[] =>
  [...room.renderRoot.querySelectorAll("select")].map((select) => select.getAttribute("aria-label"));

test("a piper is asked what, whose, chords and paper; another player whose and paper, and is given the part", async () => {
  expect(choices()).toEqual(["What", "Whose", "Chords", "Paper"]);
  await choose("What", "learner");
  await choose("Whose", "own");
  expect(choices()).toEqual(["Whose", "Paper"]);
  expect(inRoom("print-pages")).toMatchObject({ label: "The piano" });
  await choose("Whose", "pipes");
  expect(inRoom("print-pages")).toMatchObject({ label: "Pipes, learner’s part" });
});

test("the chart page is a piper's too: it has no chords, and comes after the part when everybody's are made", async () => {
  await choose("What", "charts");
  expect(choices()).toEqual(["What", "Whose", "Paper"]);
  expect(inRoom("print-pages")).toMatchObject({ label: "Pipes, chart page" });
  button("All parts as PDF").click();
  const players = ["Pipes", "Pipes, chart page", "The trumpet-bb", "The piano"];
  await expect.poll(() => names, { timeout: 10_000 }).toEqual(players.map((name) => `Paper Lantern Weather - ${name}, revision 12.pdf`));
});

test("a PDF is handed out under player and revision, and the room says so", async () => {
  button("Part as PDF").click();
  await expect.poll(() => names, { timeout: 10_000 }).toEqual(["Paper Lantern Weather - Pipes, revision 12.pdf"]);
  await expect.poll(said).toBe("Paper Lantern Weather - Pipes, revision 12.pdf is handed to the browser to save.");
});

test("everybody's parts are handed out in score order, the pipers' as they are chosen", async () => {
  await choose("What", "learner");
  button("All parts as PDF").click();
  await expect
    .poll(() => names, { timeout: 10_000 })
    .toEqual(["Pipes, learner", "The trumpet-bb", "The piano"].map((name) => `Paper Lantern Weather - ${name}, revision 12.pdf`));
  await expect.poll(said).toBe("3 PDF files are handed to the browser to save.");
});

test("letters that a PDF cannot have are named, with the way to have them", async () => {
  room.score = { ...room.score, title: "Night 紙" };
  await room.updateComplete;
  button("Part as PDF").click();
  await expect
    .poll(said, { timeout: 10_000 })
    .toMatch(/Our fonts do not have 紙: the PDF shows the number of each\. Printing takes them from this device\.$/);
});

test("closing the room while a PDF is made hands nothing out", async () => {
  button("All parts as PDF").click();
  room.hide();
  await new Promise((resolve) => setTimeout(resolve, 700));
  expect(names).toEqual([]);
});
