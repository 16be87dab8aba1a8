import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { LENGTHS, pressKeys, sketchInPage } from "../../scripts/bench/bench-page.ts";
import { type BuiltApp, openBuiltApp } from "../support/built-app.ts";

/* What an edit costs, counted and not timed: times depend on the machine, `npm run bench` has them. */

let app: BuiltApp;
beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app?.close());

/** What one act touched on the page. */
interface Touched {
  /** Times each element was drawn for the edit itself, by name. What is put off, like findings, is not among it. */
  readonly drawn: Readonly<Record<string, number>>;
  /** Nodes changed, added or taken away, what is put off included. */
  readonly nodes: number;
}

const [short, long] = LENGTHS;

/** Two edits of a pitch, up and down again, after some to get everything going; the second is the one that is watched. */
async function editTouches(bars: number): Promise<Touched> {
  const user = await app.newUser();
  const page = await sketchInPage(await user.newPage(), app.address, bars);
  await pressKeys(page, 9, 100);
  await pressKeys(page, 1, 1000);
  await page.evaluate(startWatching);
  await page.keyboard.press("ArrowDown");
  await page.waitForTimeout(1000);
  const touched = await watched(page);
  await user.close();
  return touched;
}

function watched(page: Page): Promise<Touched> {
  return page.evaluate(() => (globalThis as unknown as { touched: () => Touched }).touched());
}

/** Runs in the page: notes every change in every shadow root, and every update of an element of ours. */
function startWatching(): void {
  const drawn: Record<string, number> = {};
  const nodes = new Set<Node>();
  const note = (records: readonly MutationRecord[]): void => {
    for (const { target, addedNodes, removedNodes } of records)
      for (const node of [target, ...addedNodes, ...removedNodes]) nodes.add(node);
  };
  const watches: MutationObserver[] = [];
  const watchAll = (root: Document | ShadowRoot): void => {
    const watch = new MutationObserver(note);
    watch.observe(root, { subtree: true, childList: true, attributes: true, characterData: true });
    watches.push(watch);
    for (const element of root.querySelectorAll("*")) {
      if (element.shadowRoot === null) continue;
      watchAll(element.shadowRoot);
      const ours = element as Element & { performUpdate: () => void };
      const update = ours.performUpdate;
      ours.performUpdate = function () {
        drawn[element.localName] = (drawn[element.localName] ?? 0) + 1;
        update.call(this);
      };
    }
  };
  watchAll(document);
  let drawnAtOnce: typeof drawn = {};
  // Updates follow the key in the same turn; the first timer comes after them and before everything that waits.
  addEventListener("keydown", () => setTimeout(() => (drawnAtOnce = { ...drawn })), { capture: true });
  const touched = (): Touched => {
    for (const watch of watches) note(watch.takeRecords());
    return { drawn: drawnAtOnce, nodes: nodes.size };
  };
  Object.assign(globalThis, { touched });
}

test(`an edit draws the grid once and each of the two parts once, and touches as little of the page at ${long} bars as at ${short}`, async () => {
  const [few, many] = [await editTouches(short), await editTouches(long)];
  for (const { drawn } of [few, many]) expect(drawn).toMatchObject({ "scale-grid": 1, "part-sheet": 2 });
  expect(many.nodes).toBeLessThan(few.nodes * 1.1);
  expect(many.nodes).toBeLessThan(120);
});
