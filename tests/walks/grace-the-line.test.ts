import { readFileSync } from "node:fs";
import type { BrowserContext, Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { PipeLine, Score } from "../../src/score/score.ts";
import { type AppPage, visit } from "../support/app-page.ts";
import { type BuiltApp, openBuiltApp } from "../support/built-app.ts";

let app: BuiltApp;
let user: BrowserContext;
let hand: AppPage;
let sentence: Locator;

beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app.close());

beforeEach(async () => {
  user = await app.newUser();
  hand = await visit(user, app.address);
  sentence = hand.page.locator("line-sentence");
});
afterEach(async () => {
  expect(hand.complaints, "no policy break, no request to elsewhere, no error").toEqual([]);
  await user.close();
});

/** The sketch as it is saved to a file now. */
async function saved(): Promise<Score> {
  const [download] = await Promise.all([hand.page.waitForEvent("download"), hand.page.keyboard.press("Control+s")]);
  return scoreFromSavedForm(readFileSync(await download.path(), "utf8"));
}

const pipesOf = (score: Score): PipeLine => score.lines.find((line) => line.kind === "pipes") as PipeLine;

async function choose(blank: string, choice: string): Promise<void> {
  await sentence.getByRole("button", { name: new RegExp(`^${blank}:`) }).click();
  await sentence.getByRole("radio", { name: choice, exact: true }).check();
  await hand.page.keyboard.press("Escape");
}

/** A new sketch of two bars with eight plain quarters, B and E in turn, and both bars chosen. */
async function eightPlainNotes(): Promise<void> {
  await hand.page.getByRole("button", { name: "Sketches" }).click();
  await hand.page.getByRole("button", { name: "New sketch" }).click();
  await expect.poll(() => hand.title()).toBe("Untitled");
  await hand.goTo(0, 0);
  await hand.press("1", ..."BEBEBEBE");
  await expect.poll(async () => await hand.spoken(1, 2880)).toMatch(/ E, /);
  await hand.goTo(0, 0);
  await hand.press("Escape", "s", "Shift+PageDown", "Shift+End");
}

test("bars are graced in full as a march, heard, kept, and taken back by one undo to what was there", async () => {
  await eightPlainNotes();
  const plain = await saved();
  await hand.press(";");
  await expect.poll(() => sentence.locator(".says").textContent()).toContain("gracenotes on");
  await choose("Kind of tune", "march");
  await choose("How much", "fully");
  await expect.poll(() => sentence.locator(".says").textContent()).toBe("24 gracenotes on 8 notes.");

  const steel = hand.page.locator("part-sheet").first().locator("path.gracenotes.proposed");
  await expect.poll(() => steel.count()).toBe(8);
  await expect.poll(() => hand.page.locator("scale-grid path.grace.proposed").count()).toBeGreaterThan(0);
  expect(await saved(), "nothing of it is saved").toEqual(plain);

  await hand.play();
  await expect.poll(() => hand.momentLine(), { timeout: 10_000 }).toBeGreaterThan(0);
  await hand.stop();

  await sentence.getByRole("button", { name: "Keep" }).click();
  await sentence.waitFor({ state: "detached" });
  expect(await steel.count()).toBe(0);
  const kept = pipesOf(await saved()).bars.flatMap(({ events }) =>
    events.flatMap((event) => (event.kind === "note" ? event.gracenotes : [])),
  );
  expect(kept).toHaveLength(24);

  await hand.press("Control+z");
  await expect.poll(async () => await saved()).toEqual(plain);
});

test("Escape leaves what is proposed, wherever the keys are; an edit meanwhile is refused in words", async () => {
  await eightPlainNotes();
  const plain = await saved();
  await hand.page.getByRole("button", { name: "Grace the line" }).click();
  await sentence.waitFor();
  await hand.page.locator("scale-grid [role=gridcell][tabindex='0']").focus();
  await hand.press("Control+Home", "ArrowUp");
  await expect.poll(() => sentence.locator(".says").textContent()).toContain("What you see is only proposed.");
  await hand.press("Escape");
  await sentence.waitFor({ state: "detached" });
  expect(await saved()).toEqual(plain);
});

test("a reload loses the proposal and nothing else", async () => {
  await eightPlainNotes();
  await hand.acknowledged();
  const plain = await saved();
  await hand.page.getByRole("button", { name: "Grace the line" }).click();
  await expect.poll(() => hand.page.locator("scale-grid path.grace.proposed").count()).toBeGreaterThan(0);
  await hand.page.reload();
  await hand.page.locator("scale-grid [role=gridcell]").first().waitFor({ state: "attached" });
  expect(await saved()).toEqual(plain);
});
