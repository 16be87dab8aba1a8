import type { BrowserContext, Page } from "playwright-core";
import { type BuiltApp, openBuiltApp } from "../../tests/support/built-app.ts";
import { LENGTHS, sketchInPage } from "./bench-page.ts";
import { median, milliseconds } from "./statistics.ts";
import type { Row } from "./table.ts";

const RUNS = 5;

/** From the address entered to grid and both parts in view and the main thread free again, with a sketch that this device keeps. The lengths take turns. */
export async function opening(): Promise<Row[]> {
  const app = await openBuiltApp();
  try {
    const users = new Map<number, BrowserContext>();
    for (const bars of LENGTHS) users.set(bars, await userWithSketch(app, bars));
    const times = new Map<number, number[]>(LENGTHS.map((bars) => [bars, []]));
    for (let run = 0; run < RUNS; run++) {
      for (const [bars, user] of users) times.get(bars)?.push(await timeToUsable(await user.newPage(), app.address));
    }
    const [short, long] = LENGTHS.map((bars) => median(times.get(bars) ?? [])) as [number, number];
    return [
      ...LENGTHS.map((bars) => ({
        what: `sketch of ${bars} bars opened, from the address to grid and parts usable (median of ${RUNS})`,
        value: milliseconds(median(times.get(bars) ?? [])),
        ...(bars === LENGTHS[1] ? { goal: "1000 ms" } : {}),
      })),
      { what: `${LENGTHS[1]} bars against ${LENGTHS[0]}`, value: (long / short).toFixed(2) },
    ];
  } finally {
    await app.close();
  }
}

/** A user who had this sketch open last. */
async function userWithSketch(app: BuiltApp, bars: number): Promise<BrowserContext> {
  const user = await app.newUser();
  const page = await sketchInPage(await user.newPage(), app.address, bars);
  await page.locator("small-print [data-save=saved]").waitFor({ state: "attached" });
  await page.close();
  return user;
}

/** In ms. The page is closed afterwards. */
async function timeToUsable(page: Page, address: string): Promise<number> {
  await page.addInitScript(watchForUse);
  await page.goto(address);
  const usable = await page.waitForFunction(() => (globalThis as { usableAfter?: number }).usableAfter);
  const time = await usable.jsonValue();
  await page.close();
  return time as number;
}

/** Runs in the page: notes when the grid has cells, both parts have notes, the frame with them is painted and the main thread can take a key. */
function watchForUse(): void {
  const look = (): void => {
    const app = document.querySelector("ninefold-app")?.shadowRoot;
    const cell = app?.querySelector("scale-grid")?.shadowRoot?.querySelector("[role=gridcell]");
    const sheets = [...(app?.querySelectorAll("part-sheet") ?? [])];
    const drawn = sheets.filter((sheet) => sheet.shadowRoot?.querySelector("svg path.note"));
    if (!cell || drawn.length < 2) {
      requestAnimationFrame(look);
      return;
    }
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => Object.assign(globalThis, { usableAfter: performance.now() });
    requestAnimationFrame(() => port2.postMessage(null));
  };
  requestAnimationFrame(look);
}
