import type { BrowserContext } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { type AppPage, visit } from "../support/app-page.ts";
import { type BuiltApp, openBuiltApp } from "../support/built-app.ts";

let app: BuiltApp;
let user: BrowserContext;

beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app.close());
afterEach(() => user.close());

/** What the choice of gracenotes shows, as it is read. */
const offered = (hand: AppPage) => hand.page.locator("scale-grid gracenote-menu [role=option]");
const told = (hand: AppPage) => hand.page.locator("scale-grid gracenote-menu #answer");

test("a note is graced by keys: what fits is heard, one is taken, the part shows it, another is spelled, and all is taken back", async () => {
  user = await app.newUser();
  const hand = await visit(user, app.address);
  await hand.goTo(16, 0);
  const bare = await hand.ink(0);
  expect(await hand.spoken(16, 0)).not.toContain("Doubling");

  await hand.press(",");
  await offered(hand).first().waitFor();
  const names = await offered(hand).allTextContents();
  expect(names.some((name) => name.includes("Doubling"))).toBe(true);
  // The keys rest on the first offer: the chanter sounds by itself, nothing plays.
  await expect.poll(async () => (await hand.soundContexts()).map(({ state }) => state), { timeout: 10_000 }).toEqual(["running"]);
  expect(await hand.page.getByRole("button", { name: "Play" }).count()).toBeGreaterThan(0);

  await hand.press("d", "o", "u", "Enter");
  await expect.poll(() => hand.spoken(16, 0)).toContain("Doubling, high A high G");
  const doubled = await hand.ink(0);
  expect(doubled).not.toBe(bare);

  await hand.press(",");
  await offered(hand).first().waitFor();
  await hand.press("/");
  await hand.page.keyboard.type("gx");
  await expect.poll(() => told(hand).textContent()).toContain("“x” is no gracenote.");
  await hand.press("Escape");
  await offered(hand).first().waitFor({ state: "detached" });
  expect(await hand.ink(0)).toBe(doubled);

  await hand.press(",", "0");
  await expect.poll(() => hand.ink(0)).toBe(bare);
  await hand.press("Control+z", "Control+z");
  await expect.poll(() => hand.ink(0)).toBe(bare);
  await hand.press("Control+Shift+z");
  await expect.poll(() => hand.ink(0)).toBe(doubled);
  expect(hand.complaints).toEqual([]);
});

test("on a phone the choice comes up at the foot; one touch hears, the next takes", async () => {
  user = await app.newUser({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const hand = await visit(user, app.address);
  await hand.page.locator("reading-line").getByRole("button", { name: "Gracenote" }).tap();
  const list = hand.page.getByRole("listbox").filter({ visible: true });
  await list.waitFor();
  const box = await hand.page.locator("hand-panel gracenote-menu [popover]").boundingBox();
  expect(Math.round((box?.y ?? 0) + (box?.height ?? 0))).toBe(844);
  expect(box?.width).toBe(390);
  const second = list.getByRole("option").nth(1);
  const before = await second.boundingBox();
  expect(before?.height).toBeGreaterThanOrEqual(44);
  await second.tap();
  await expect.poll(async () => (await hand.soundContexts()).map(({ state }) => state), { timeout: 10_000 }).toEqual(["running"]);
  // Nothing moved under the finger.
  expect(await second.boundingBox()).toEqual(before);
  await list.getByRole("option").nth(0).tap();
  await second.tap();
  expect(await list.isVisible()).toBe(true);
  await second.tap();
  await list.waitFor({ state: "hidden" });
  expect(await hand.page.locator("nav.views").getByRole("button", { name: "Undo" }).isEnabled()).toBe(true);
  expect(hand.complaints).toEqual([]);
});
