import axe from "axe-core";
import { afterEach, expect, test } from "vitest";
import "../../components/shared/tokens.css";
import "../../components/app/findings-list.ts";
import type { CureTakenEvent } from "../../components/app/finding-events.ts";
import type { FindingsList } from "../../components/app/findings-list.ts";
import { check } from "../../src/score/check.ts";
import type { Finding } from "../../src/score/finding.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";

afterEach(() => document.body.replaceChildren());

/** D to E three times, B to E once, and a rest the chanter cannot make. */
const SCORE = pipeSketch("d2! e2 d2 e2 | d2 e2 B2 e2 | z4 f4");

async function open() {
  const all = check(SCORE);
  const list = document.createElement("findings-list") as FindingsList;
  list.score = SCORE;
  list.findings = all.filter(({ kind }) => kind !== "crossing");
  list.crossings = all.filter(({ kind }) => kind === "crossing");
  const cures: CureTakenEvent[] = [];
  const chosen: Finding[] = [];
  list.addEventListener("cure-taken", (event) => cures.push(event as CureTakenEvent));
  list.addEventListener("finding-chosen", (event) => chosen.push((event as CustomEvent<{ finding: Finding }>).detail.finding));
  const main = document.createElement("main");
  main.append(list);
  document.body.append(main);
  await list.updateComplete;
  const fold = list.shadowRoot?.querySelector("crossings-fold");
  await fold?.updateComplete;
  return { list, root: fold?.shadowRoot as ShadowRoot, cures, chosen };
}

/** The same with the fold open. */
async function unfolded() {
  const opened = await open();
  const details = opened.root.querySelector("details") as HTMLDetailsElement;
  expect(opened.root.querySelector("li")).toBeNull();
  details.open = true;
  await expect.poll(() => opened.root.querySelector("li")).toBeTruthy();
  return opened;
}

const said = (element: Element | null | undefined): string => (element?.textContent ?? "").replace(/\s+/g, " ").trim();

test("crossings stand folded under the numbered findings, counted", async () => {
  const { list, root } = await open();
  expect(list.shadowRoot?.querySelectorAll(".ring")).toHaveLength(1);
  expect(said(root.querySelector("summary"))).toMatch(/^\d+ finger changes on which another note can sound$/);
  expect((root.querySelector("details") as HTMLDetailsElement).open).toBe(false);
});

test("each kind of step stands once, the commonest first, with its bars; a bar shows the first of them there", async () => {
  const { root, chosen } = await unfolded();
  const [first] = root.querySelectorAll("li");
  expect(said(first)).toMatch(/^From D to E, .* C, B, low A or low G\. ?bar 1 ?bar 2/);
  first?.querySelectorAll<HTMLButtonElement>(".bars button")[1]?.click();
  expect(chosen.map(({ address }) => [address.bar, address.at])).toEqual([[1, 960]]);
});

test("one press takes a cure wherever the step is made", async () => {
  const { root, cures } = await unfolded();
  const cure = [...(root.querySelector("li")?.querySelectorAll<HTMLButtonElement>(".cures button") ?? [])].find(({ textContent }) =>
    textContent?.startsWith("Cover it with a G gracenote"),
  );
  cure?.click();
  expect(cures).toHaveLength(1);
  expect(cures[0]?.detail.edits.map((edit) => edit.kind)).toEqual(["gracenotes", "gracenotes", "gracenotes"]);
});

test("axe objects to nothing, folded or open", async () => {
  for (const put of [open, unfolded]) {
    await put();
    const { violations } = await axe.run(document.body);
    expect(violations.map(({ id }) => id)).toEqual([]);
    document.body.replaceChildren();
  }
});
