import type { Browser, Page } from "playwright-core";
import { openBuiltApp } from "../../tests/support/built-app.ts";
import { KEYS, LENGTHS, pressKeys, sketchInPage } from "./bench-page.ts";
import { milliseconds, percentile } from "./statistics.ts";
import type { Row } from "./table.ts";
import { keyCosts, TRACED } from "./trace.ts";

/** Keys before the measuring begins, two of three of them edits, so that the engine has compiled what it will. */
const WARMING_KEYS = 75;
/** The two lengths take turns, so that neither profits from what the other warmed. */
const ROUNDS = 4;
const KEYS_A_ROUND = 45;
/** From one edit to the next, in ms: long enough for everything that an edit puts off to be done with. */
const PAUSE = 220;

interface Costs {
  readonly mainThread: number[];
  readonly presented: number[];
}

/**
 * From a key pressed on the grid to grid and both parts repainted, in the built app: how long the main thread was busy with it (script,
 * style, layout, paint, from Chromium's own trace), and when the next frame was on the screen. Each length has a page of its own.
 */
export async function editToRepaint(): Promise<Row[]> {
  const app = await openBuiltApp();
  try {
    const pages = new Map<number, Page>();
    for (const bars of LENGTHS) pages.set(bars, await sketchInPage(await (await app.newUser()).newPage(), app.address, bars));
    for (const page of pages.values()) await pressKeys(page, WARMING_KEYS, 60);
    const costs = new Map<number, Costs>(LENGTHS.map((bars) => [bars, { mainThread: [], presented: [] }]));
    for (let round = 0; round < ROUNDS; round++) {
      for (const [bars, page] of pages) await measure(app.browser, page, costs.get(bars) as Costs);
    }
    return LENGTHS.flatMap((bars) => rowsOf(bars, costs.get(bars) as Costs)).concat(ratioRow(costs));
  } finally {
    await app.close();
  }
}

async function measure(browser: Browser, page: Page, costs: Costs): Promise<void> {
  await page.bringToFront();
  await browser.startTracing(page, { categories: TRACED });
  await pressKeys(page, KEYS_A_ROUND, PAUSE);
  const trace = JSON.parse((await browser.stopTracing()).toString("utf8"));
  const edits = keyCosts(trace.traceEvents).filter((_, index) => KEYS[index % KEYS.length] !== "ArrowRight");
  for (const cost of edits) {
    if (cost === null) throw new Error("a key on the grid changed nothing on the screen");
    costs.mainThread.push(cost.mainThread);
    if (cost.presented !== null) costs.presented.push(cost.presented);
  }
}

function rowsOf(bars: number, { mainThread, presented }: Costs): Row[] {
  const both = (values: readonly number[]): string =>
    values.length === 0 ? "not traced" : `${milliseconds(percentile(values, 0.5))} / ${milliseconds(percentile(values, 0.95))}`;
  return [
    {
      what: `edit on the grid to repainted, ${bars} bars, main thread, p50 / p95 of ${mainThread.length}`,
      value: both(mainThread),
      ...(bars === LENGTHS[0] ? { goal: "p95 16 ms" } : {}),
    },
    { what: `the same, frame on the screen after, p50 / p95 of ${presented.length}`, value: both(presented), goal: "p95 33 ms" },
  ];
}

function ratioRow(costs: ReadonlyMap<number, Costs>): Row {
  const ratio = (share: number): string => {
    const [short, long] = LENGTHS.map((bars) => percentile((costs.get(bars) as Costs).mainThread, share)) as [number, number];
    return (long / short).toFixed(2);
  };
  return { what: `${LENGTHS[1]} bars against ${LENGTHS[0]}, main thread, p50 / p95`, value: `${ratio(0.5)} / ${ratio(0.95)}`, goal: "1.2" };
}
