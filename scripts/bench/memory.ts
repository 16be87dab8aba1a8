import type { CDPSession, Page } from "playwright-core";
import { openBuiltApp } from "../../tests/support/built-app.ts";
import { LENGTHS, openFile, pressKeys, sketchInPage } from "./bench-page.ts";
import type { Row } from "./table.ts";

/** Two of three keys are edits. */
const KEYS = 750;
const EDITS = 500;
const PAUSE = 15;

/** The JavaScript heap (audio and decoded fonts lie outside it), garbage collected: with a long sketch open, after edits, after undo, after another sketch. */
export async function memory(): Promise<Row[]> {
  const app = await openBuiltApp();
  try {
    const user = await app.newUser();
    const [short, long] = LENGTHS;
    const page = await sketchInPage(await user.newPage(), app.address, short);
    const inspector = await user.newCDPSession(page);
    const alone = await heapOf(page, inspector);
    await openFile(page, long);
    await page.locator("scale-grid [role=gridcell]").nth(2).focus();
    const opened = await heapOf(page, inspector);
    await pressKeys(page, KEYS, PAUSE);
    const edited = await heapOf(page, inspector);
    for (let step = 0; step < EDITS; step++) await page.keyboard.press("Control+z");
    const undone = await heapOf(page, inspector);
    await openFile(page, short);
    const after = await heapOf(page, inspector);
    return [
      { what: `heap with a sketch of ${short} bars`, value: megabytes(alone) },
      { what: `heap with a sketch of ${long} bars, just opened`, value: megabytes(opened) },
      { what: `the same after ${EDITS} edits, all of which can be undone`, value: megabytes(edited) },
      { what: "of that for each edit", value: `${((edited - opened) / EDITS / 1000).toFixed(1)} kB` },
      { what: `the same after ${EDITS} times undo, all of which can be done again`, value: megabytes(undone) },
      { what: `heap with the sketch of ${short} bars again, against before`, value: (after / alone).toFixed(2) },
    ];
  } finally {
    await app.close();
  }
}

/** In bytes, once everything that was put off is done and what nobody holds is gone. */
async function heapOf(page: Page, inspector: CDPSession): Promise<number> {
  await page.waitForTimeout(3000);
  await inspector.send("HeapProfiler.collectGarbage");
  const { usedSize } = await inspector.send("Runtime.getHeapUsage");
  return usedSize;
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}
