import type { Browser, Page } from "playwright-core";
import { openBuiltApp } from "../../tests/support/built-app.ts";
import { LENGTHS, sketchInPage } from "./bench-page.ts";
import { milliseconds, percentile } from "./statistics.ts";
import type { Row } from "./table.ts";
import { markCosts, TRACED } from "./trace.ts";

const ROUNDS = 3;
/** So many bars to the right, and as many back. */
const BARS_A_ROUND = 16;
const PAUSE = 120;
const MARK = "scrolled one bar";

/** The grid scrolled by one bar, the parts with it: how long the main thread is busy until the frame. The lengths take turns, after a round to warm up. */
export async function scrolling(): Promise<Row[]> {
  const app = await openBuiltApp();
  try {
    const pages = new Map<number, Page>();
    for (const bars of LENGTHS) pages.set(bars, await sketchInPage(await (await app.newUser()).newPage(), app.address, bars));
    for (const page of pages.values()) await scrollToAndFro(page);
    const costs = new Map<number, number[]>(LENGTHS.map((bars) => [bars, []]));
    for (let round = 0; round < ROUNDS; round++) {
      for (const [bars, page] of pages) costs.get(bars)?.push(...(await measured(app.browser, page)));
    }
    return rowsOf(costs);
  } finally {
    await app.close();
  }
}

async function measured(browser: Browser, page: Page): Promise<readonly number[]> {
  await page.bringToFront();
  await browser.startTracing(page, { categories: TRACED });
  await scrollToAndFro(page);
  const trace = JSON.parse((await browser.stopTracing()).toString("utf8"));
  return markCosts(trace.traceEvents, MARK).flatMap((cost) => (cost === null ? [] : [cost]));
}

/** The widest step of a bar there is to scroll, so that every step brings new bars into sight. */
const STEP = 240;

async function scrollToAndFro(page: Page): Promise<void> {
  const box = page.locator("scale-grid .scroller");
  for (let step = 0; step < BARS_A_ROUND * 2; step++) {
    const by = step < BARS_A_ROUND ? STEP : -STEP;
    await box.evaluate(
      (scroller, { mark, px }) => {
        performance.mark(mark);
        scroller.scrollLeft += px;
      },
      { mark: MARK, px: by },
    );
    await page.waitForTimeout(PAUSE);
  }
}

function rowsOf(costs: ReadonlyMap<number, readonly number[]>): Row[] {
  const of = (bars: number, share: number): number => percentile(costs.get(bars) ?? [], share);
  const [short, long] = LENGTHS;
  return [
    ...LENGTHS.map((bars) => ({
      what: `grid and parts scrolled by ${STEP} px, ${bars} bars, main thread, p50 / p95 of ${costs.get(bars)?.length ?? 0}`,
      value: `${milliseconds(of(bars, 0.5))} / ${milliseconds(of(bars, 0.95))}`,
      goal: "p95 16 ms",
    })),
    {
      what: `${long} bars against ${short}, main thread, p50 / p95`,
      value: `${(of(long, 0.5) / of(short, 0.5)).toFixed(2)} / ${(of(long, 0.95) / of(short, 0.95)).toFixed(2)}`,
      goal: "1.2",
    },
  ];
}
