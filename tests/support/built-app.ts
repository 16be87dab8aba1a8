import { existsSync } from "node:fs";
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { BUILT } from "../../scripts/build.mjs";
import { CHROMIUM_ARGUMENTS, findChromium } from "../../scripts/find-chromium.mjs";
import { type Served, serve } from "../../scripts/serve.mjs";

/** The built app as a user meets it: served with its headers, and a browser that has never seen it. */
export interface BuiltApp {
  readonly address: string;
  readonly browser: Browser;
  /** A fresh user: nothing stored, nothing cached. */
  readonly newUser: (options?: BrowserContextOptions) => Promise<BrowserContext>;
  /** Ends the server alone, as when the network goes. */
  readonly stopServing: () => Promise<void>;
  readonly close: () => Promise<void>;
}

/**
 * @param folder what is served, if not the build itself
 * @throws RangeError where the app was not built or there is no browser
 */
export async function openBuiltApp(folder = BUILT): Promise<BuiltApp> {
  if (!existsSync(`${folder}/index.html`)) throw new RangeError("there is no built app: npm run build");
  const executablePath = findChromium();
  if (executablePath === null) throw new RangeError("there is no Chromium: set CHROMIUM");
  const served: Served = await serve({ folder, port: 0 });
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGUMENTS });
  let serving = true;
  const stopServing = async (): Promise<void> => {
    if (serving) await served.stop();
    serving = false;
  };
  return {
    address: served.address,
    browser,
    newUser: (options) => browser.newContext({ viewport: { width: 1366, height: 900 }, ...options }),
    stopServing,
    close: async () => {
      await browser.close();
      await stopServing();
    },
  };
}

/** Opens the app and waits until it can be worked with: the grid has cells, and every part on the desk is drawn. */
export async function openSketch(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await sketchIsUsable(page);
}

/** Waits until the grid has cells and at least two parts have ink. */
export async function sketchIsUsable(page: Page): Promise<void> {
  await page.locator("scale-grid [role=gridcell]").first().waitFor({ state: "attached" });
  await page.locator("part-sheet").nth(1).locator("svg path").first().waitFor({ state: "attached" });
}
