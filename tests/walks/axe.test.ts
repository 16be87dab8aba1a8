import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type BuiltApp, openBuiltApp, openSketch } from "../support/built-app.ts";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface AxeResults {
  readonly passes: readonly unknown[];
  readonly violations: readonly { readonly id: string; readonly help: string; readonly nodes: readonly { readonly html: string }[] }[];
}

let app: BuiltApp;
beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app.close());

test.each([
  ["1366 x 900 by daylight", { width: 1366, height: 900 }, "light"],
  ["1366 x 900 by lamplight", { width: 1366, height: 900 }, "dark"],
  ["390 x 844 by daylight", { width: 390, height: 844 }, "light"],
] as const)("axe finds nothing against WCAG 2.2 AA on the working sketch, %s", async (_, viewport, colorScheme) => {
  // The page's policy would refuse the checker itself; that the app keeps the policy is another walk's business.
  const user = await app.newUser({ viewport, colorScheme, bypassCSP: true });
  const page = await user.newPage();
  if (viewport.width > 600) await openSketch(page, app.address);
  else {
    await page.goto(app.address);
    await page.locator("scale-grid [role=gridcell]").first().waitFor({ state: "attached" });
  }
  await page.evaluate(AXE);
  const results = await page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run(context: Document, options: object): Promise<unknown> } };
    return axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] });
  });
  const { violations, passes } = results as AxeResults;
  expect(violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`)).toEqual([]);
  expect(passes.length).toBeGreaterThan(10);
  await user.close();
});
