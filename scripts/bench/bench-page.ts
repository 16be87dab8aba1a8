import type { Page } from "playwright-core";
import { savedFormOf } from "../../src/score/saved-form.ts";
import { openSketch, sketchIsUsable } from "../../tests/support/built-app.ts";
import { benchScore } from "./bench-score.ts";

/** The two lengths that everything is measured at, in bars: a tune, and far more than anybody writes. */
export const LENGTHS = [32, 1000] as const;

/** What the sketch of so many bars is called. */
export function benchTitle(bars: number): string {
  return `Bench of ${bars} bars`;
}

/** The sketch of so many bars, as a file that the app opens. */
export function benchFile(bars: number): { readonly name: string; readonly mimeType: string; readonly buffer: Buffer } {
  const text = savedFormOf({ ...benchScore(bars), title: benchTitle(bars) });
  return { name: "bench.ninefold.json", mimeType: "application/json", buffer: Buffer.from(text) };
}

/** Opens the app in a page, the bench's sketch of so many bars in it, and gives the keys to its third cell. */
export async function sketchInPage(page: Page, address: string, bars: number): Promise<Page> {
  await openSketch(page, address);
  await openFile(page, bars);
  await page.locator("scale-grid [role=gridcell]").nth(2).focus();
  return page;
}

/** Opens the bench's sketch of so many bars in an app that runs. */
export async function openFile(page: Page, bars: number): Promise<void> {
  await page.getByRole("button", { name: "Sketches" }).click();
  const shelf = page.locator("sketch-shelf dialog");
  await shelf.locator("input[type=file]").setInputFiles(benchFile(bars));
  await shelf.waitFor({ state: "hidden" });
  await page.waitForFunction((expected) => document.title.startsWith(expected), benchTitle(bars));
  await sketchIsUsable(page);
}

/** Up, down, and on to the next note: each arrow up or down is one edit of a pitch. */
export const KEYS = ["ArrowUp", "ArrowDown", "ArrowRight"] as const;

/** Presses so many of those keys, the first again after the last, with so many ms between. */
export async function pressKeys(page: Page, keys: number, pause: number): Promise<void> {
  for (let index = 0; index < keys; index++) {
    await page.keyboard.press(KEYS[index % KEYS.length] ?? "ArrowUp");
    await page.waitForTimeout(pause);
  }
}
