import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, test } from "vitest";
import { pipeLines } from "../../src/score/line-of.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Score } from "../../src/score/score.ts";
import { type AppPage, visit } from "../support/app-page.ts";
import { type BuiltApp, openBuiltApp } from "../support/built-app.ts";

let app: BuiltApp;
let hand: AppPage;
beforeAll(async () => {
  app = await openBuiltApp();
  hand = await visit(await app.newUser(), app.address);
});
afterAll(async () => {
  expect(hand.complaints, "no policy break, no request to elsewhere, no error").toEqual([]);
  await app.close();
});

async function saved(): Promise<Score> {
  const [download] = await Promise.all([hand.page.waitForEvent("download"), hand.page.keyboard.press("Control+s")]);
  return scoreFromSavedForm(readFileSync(await download.path(), "utf8"));
}

/** What the pipes play in the bar the example opens on. */
const notesIn = (score: Score) => pipeLines(score)[0]?.bars[18]?.events.map((event) => (event.kind === "note" ? event.note : "rest"));

test("the leading tone of the example is heard against the flat seventh, which is then used, and taken back by one undo", async () => {
  const { page } = hand;
  const before = await saved();
  expect(notesIn(before)).toContain("high-g-sharp");
  await page.getByRole("button", { name: "Audition" }).click();
  const view = page.locator("audition-view");
  await view.getByRole("heading", { name: "Flat seventh or leading tone?" }).waitFor();
  const state = (version: number) => view.locator(".version").nth(version).locator(".state").textContent();
  await expect.poll(() => state(0), { timeout: 10_000 }).toBe("sounding now");
  // The loop is really played: the moment moves through the ribbon.
  const now = () => view.locator("audition-ribbon .now").getAttribute("d");
  const first = await now();
  await expect.poll(now, { timeout: 10_000 }).not.toBe(first);
  await page.keyboard.press("3");
  await expect.poll(() => state(2), { timeout: 10_000 }).toBe("sounding now");
  await page.keyboard.press("1");
  await expect.poll(() => state(0), { timeout: 10_000 }).toBe("sounding now");
  await view.getByRole("button", { name: /^Use “Flat seventh”/ }).click();
  await view.waitFor({ state: "detached" });
  expect(notesIn(await saved())).toEqual(notesIn(before)?.map((note) => (note === "high-g-sharp" ? "high-g" : note)));
  await hand.press("Control+z");
  expect(await saved()).toEqual({ ...before, revision: expect.any(Number) });
});
