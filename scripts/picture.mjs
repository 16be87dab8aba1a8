// @ts-check
import "./node-version.mjs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { BUILT, buildIfChanged } from "./build.mjs";
import { CHROMIUM_ARGUMENTS, findChromium } from "./find-chromium.mjs";
import { ROOT } from "./run.mjs";
import { serve } from "./serve.mjs";

/* Makes the README's picture from the running app, the first example with a finding pressed: node scripts/picture.mjs */

const OUT = join(ROOT, "examples/ninefold.png");

const built = await buildIfChanged();
if (built && built.code !== 0) throw new Error(built.output);
const executablePath = findChromium();
if (executablePath === null) throw new Error("There is no Chromium: set CHROMIUM.");
const { address, stop } = await serve({ folder: BUILT, port: 0 });
const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGUMENTS });
try {
  const page = await browser.newPage({ viewport: { width: 1366, height: 1010 }, colorScheme: "light" });
  await page.goto(address);
  await page.locator("part-sheet").nth(1).locator("svg path").first().waitFor({ state: "attached" });
  await page.evaluate(() => document.fonts.ready);
  await page.locator("findings-list").getByRole("button", { name: "Show finding 2" }).click();
  await page.waitForTimeout(500);
  await page.screenshot({ path: OUT });
  console.log(OUT);
} finally {
  await browser.close();
  await stop();
}
