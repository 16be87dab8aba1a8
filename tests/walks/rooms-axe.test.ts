import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type AppPage, visit } from "../support/app-page.ts";
import { type BuiltApp, openBuiltApp } from "../support/built-app.ts";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

let app: BuiltApp;
beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app.close());

/** What axe has against the page as it stands; one line for each kind. */
async function faults({ page }: AppPage): Promise<readonly string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async (tags) => {
    interface Violation {
      readonly id: string;
      readonly help: string;
      readonly nodes: readonly { readonly html: string }[];
    }
    const { axe } = window as unknown as {
      axe: { run(context: Document, options: object): Promise<{ violations: readonly Violation[] }> };
    };
    const { violations } = await axe.run(document, { runOnly: tags });
    return violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`);
  }, RULES);
}

/** Every room and a panel, and how one gets there from the working sketch. */
const PLACES: readonly (readonly [name: string, go: (hand: AppPage) => Promise<void>])[] = [
  ["with a note chosen", (hand) => hand.goTo(0, 0).then(() => hand.press("D"))],
  ["with a setting open", (hand) => hand.openSetting("Chanter")],
  [
    "with gracing proposed",
    async (hand) => {
      await hand.goTo(0, 0);
      await hand.press(";");
      await hand.page.locator("line-sentence").waitFor();
    },
  ],
  ["the shelf of sketches", (hand) => hand.openShelf().then(() => undefined)],
  [
    "the hand-over room",
    async (hand) => {
      await hand.page.getByRole("button", { name: "Hand over" }).click();
      await hand.page.locator("print-pages svg").first().waitFor();
    },
  ],
];

test.each([
  [{ width: 1366, height: 900 }, "light"],
  [{ width: 1366, height: 900 }, "dark"],
  [{ width: 390, height: 844 }, "light"],
  [{ width: 390, height: 844 }, "dark"],
] as const)("axe finds nothing against WCAG 2.2 AA in any room at %o, %s", async (viewport, colorScheme) => {
  // The page's policy would refuse the checker itself; that the app keeps the policy is another walk's business.
  const user = await app.newUser({ viewport, colorScheme, bypassCSP: true });
  for (const [name, go] of PLACES) {
    const hand = await visit(user, app.address);
    await go(hand);
    expect(await faults(hand), name).toEqual([]);
    await hand.page.close();
  }
  await user.close();
});
