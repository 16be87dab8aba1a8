import { readFileSync } from "node:fs";
import type { BrowserContext, Download } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import { type AppPage, visit } from "../support/app-page.ts";
import { type BuiltApp, openBuiltApp } from "../support/built-app.ts";

let app: BuiltApp;
let user: BrowserContext;
let hand: AppPage;

beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app.close());

beforeEach(async () => {
  user = await app.newUser();
  hand = await visit(user, app.address);
});
afterEach(async () => {
  expect(hand.complaints, "no policy break, no request to elsewhere, no error").toEqual([]);
  await user.close();
});

const textOf = async (download: Download): Promise<string> => readFileSync(await download.path(), "utf8");

describe("a first visit", () => {
  test("opens on a working sketch: a title, rows, notes, two parts with ink", async () => {
    expect(await hand.title()).toBe("Paper Lantern Weather");
    expect(await hand.rows()).toEqual(expect.arrayContaining(["low-g", "low-a", "b", "c", "d", "e", "f", "high-g", "high-a"]));
    expect(await hand.partNames()).toEqual(["Pipes", "Fiddle"]);
    for (const part of [0, 1]) expect((await hand.ink(part)).length).toBeGreaterThan(1000);
  });

  test("a letter is a note from the first moment of a new sketch, before anything has been pressed", async () => {
    await hand.page.getByRole("button", { name: "Sketches" }).click();
    await hand.page.getByRole("button", { name: "New sketch" }).click();
    await expect.poll(() => hand.title()).toBe("Untitled");
    await hand.page.keyboard.press("d");
    await expect
      .poll(() => hand.page.locator("reading-line").evaluate((line) => line.shadowRoot?.textContent))
      .toContain("D, bar 1 beat 1");
  });

  test("lets an A, a B flat and a B chanter be put in the stock, and every row is named after it", async () => {
    for (const [name, words, lowA] of [
      ["A", "A chanter", "A4"],
      ["B♭", "B♭ chanter", "B♭4"],
      ["B", "B chanter", "B4"],
    ] as const) {
      await hand.chooseChanter(name);
      await expect.poll(() => hand.setupSentence()).toContain(words);
      expect(await hand.page.locator('scale-grid button[data-note="low-a"] .concert').textContent()).toBe(lowA);
    }
  });

  test("takes the band along with another chanter, says so, and takes it back when asked", async () => {
    await hand.chooseChanter("B♭");
    const told = hand.page.getByRole("status").filter({ hasText: "The band moved" });
    await expect.poll(() => told.textContent()).toContain("The band moved with the chanter, a semitone down: E♭ major.");
    await hand.page.getByRole("button", { name: "Keep the band in E major" }).click();
    await hand.page.getByText("The band stays in E major.").waitFor();
  });

  test("places a note by mouse and by keyboard, and both parts follow", async () => {
    for (const place of [
      async () => {
        await hand.goTo(0, 0);
        await hand.click(0, 0, "e");
      },
      async () => {
        await hand.goTo(1, 0);
        await hand.press("D");
      },
    ]) {
      const before = [await hand.ink(0), await hand.revision()];
      await place();
      await expect.poll(() => hand.revision()).toBe(Number(before[1]) + 1);
      expect(await hand.ink(0)).not.toBe(before[0]);
    }
    expect(await hand.spoken(0, 0)).toMatch(/^Bar 1, beat 1\. E, /);
    expect(await hand.spoken(1, 0)).toMatch(/^Bar 2, beat 1\. D, /);
  });

  test("shows an edit of a doubled bar in the part of the player who doubles it", async () => {
    await hand.openExample("The Dry Dock Set");
    const before = [await hand.ink(0), await hand.ink(3)];
    await hand.goTo(1, 0);
    await hand.press("B");
    await expect.poll(() => hand.ink(0)).not.toBe(before[0]);
    await expect.poll(() => hand.ink(3)).not.toBe(before[1]);
  });

  test("plays when asked and not before: sound runs, the reading and the moment line move, stop stops", async () => {
    expect(await hand.soundContexts()).toEqual([]);
    await hand.play();
    await expect.poll(async () => (await hand.soundContexts()).map(({ state }) => state)).toContain("running");
    const [first] = await hand.soundContexts();
    const reading = await hand.reading();
    await expect.poll(() => hand.reading(), { timeout: 10_000 }).not.toBe(reading);
    const [later] = await hand.soundContexts();
    expect(later?.time).toBeGreaterThan(first?.time ?? Number.POSITIVE_INFINITY);
    // Drones sound for a bar before the music, and the first sound waits a little for recordings.
    await expect.poll(() => hand.momentLine(), { timeout: 10_000 }).toBeGreaterThan(0);
    await hand.stop();
    const stopped = await hand.reading();
    await hand.page.waitForTimeout(600);
    expect(await hand.reading()).toBe(stopped);
  });

  test("keeps every edit through a reload, and undo and redo lead back and forth", async () => {
    await hand.goTo(0, 0);
    expect(await hand.spoken(0, 0)).toMatch(/empty\.$/);
    await hand.press("D", "E", "F");
    const written = await hand.spoken(0, 0);
    expect(written).toMatch(/^Bar 1, beat 1\. D, /);
    await hand.press("Control+z", "Control+z", "Control+z");
    expect(await hand.spoken(0, 0)).toMatch(/empty\.$/);
    await hand.press("Control+Shift+z", "Control+y", "Control+y");
    expect(await hand.spoken(0, 0)).toBe(written);
    await hand.acknowledged();
    const revision = await hand.revision();
    await hand.reload();
    expect(await hand.spoken(0, 0)).toBe(written);
    expect(await hand.revision()).toBe(revision);
  });

  test("begins another sketch at its beginning, with the keys on low A", async () => {
    await hand.openExample("The Long Light");
    await expect.poll(() => hand.cell(0, 0).isVisible()).toBe(true);
    const shelf = await hand.openShelf();
    await shelf.getByRole("button", { name: "New sketch" }).click();
    await shelf.waitFor({ state: "hidden" });
    await expect.poll(() => hand.spoken(0, 0)).toBe("Bar 1, beat 1. Low A, empty.");
    await hand.goTo(0, 0);
    await hand.press("A");
    expect(await hand.spoken(0, 0)).toMatch(/^Bar 1, beat 1\. Low A, /);
  });

  test("saves the sketch to a file that the reader takes, and opens it again as it was", async () => {
    await hand.goTo(0, 0);
    await hand.press("B");
    const written = await hand.spoken(0, 0);
    const download = hand.page.waitForEvent("download");
    await hand.press("Control+s");
    const file = await download;
    expect(file.suggestedFilename()).toBe("Paper Lantern Weather.ninefold.json");
    expect(scoreFromSavedForm(await textOf(file)).title).toBe("Paper Lantern Weather");
    await hand.openExample("The Long Light");
    await hand.openFile(await file.path());
    expect(await hand.title()).toBe("Paper Lantern Weather");
    expect(await hand.spoken(0, 0)).toBe(written);
  });

  test("refuses a file that is no sketch in words, and leaves everything as it was", async () => {
    const shelf = await hand.openShelf();
    await shelf.locator("input[type=file]").setInputFiles({ name: "wedding.json", mimeType: "application/json", buffer: Buffer.from("{") });
    await expect.poll(() => shelf.getByRole("alert").textContent()).toMatch(/^wedding\.json was not opened\. .*Nothing was changed\.$/);
    await hand.press("Escape");
    expect(await hand.title()).toBe("Paper Lantern Weather");
  });

  test("hands over: pages to print, SVG and MusicXML of a part", async () => {
    await hand.page.getByRole("button", { name: "Hand over" }).click();
    const room = hand.page.locator("hand-over");
    await room.locator("print-pages svg").first().waitFor();
    const ink = await room.locator("print-pages svg path, print-pages svg use").count();
    expect(ink).toBeGreaterThan(50);
    const download = hand.page.waitForEvent("download");
    await room.getByRole("button", { name: "Part as MusicXML" }).click();
    const file = await download;
    expect(file.suggestedFilename()).toMatch(/^Paper Lantern Weather - Pipes, revision \d+\.musicxml$/);
    expect(await textOf(file)).toContain("<part-name>Pipes</part-name>");
    await hand.page.emulateMedia({ media: "print" });
    const printed = await hand.page.pdf({ preferCSSPageSize: true });
    const pages = [...printed.toString("latin1").matchAll(/\/Type\s*\/Page[^s]/g)].length;
    expect(pages).toBe(await room.locator("print-pages > svg").count());
  });
});

describe("a first visit on a phone, 390 x 844", () => {
  beforeEach(async () => {
    await user.close();
    user = await app.newUser({ viewport: { width: 390, height: 844 }, hasTouch: true });
    hand = await visit(user, app.address);
  });

  test("shows the grid or one part, never wider than the screen", async () => {
    const width = () => hand.page.evaluate(() => document.documentElement.scrollWidth);
    expect(await hand.page.locator("scale-grid").isVisible()).toBe(true);
    expect(await hand.page.locator("part-sheet").first().isVisible()).toBe(false);
    expect(await width()).toBeLessThanOrEqual(390);
    for (const [index, name] of ["Pipes", "Fiddle"].entries()) {
      await hand.page.locator("nav.views").getByRole("button", { name }).tap();
      await expect.poll(() => hand.page.locator("part-sheet").nth(index).locator("svg path").count()).toBeGreaterThan(20);
      expect(
        await hand.page
          .locator("part-sheet")
          .nth(1 - index)
          .isVisible(),
      ).toBe(false);
      expect(await hand.page.locator("scale-grid").isVisible()).toBe(false);
      expect(await width()).toBeLessThanOrEqual(390);
    }
  });

  test("places a note with a tap, takes it back with the word for it, and plays from the foot of the screen", async () => {
    await hand.goTo(0, 0);
    const place = await hand.placeOf(0, 0, "e");
    await hand.page.touchscreen.tap(place.x, place.y);
    await expect.poll(() => hand.spoken(0, 0)).toMatch(/^Bar 1, beat 1\. E, /);
    await hand.page.getByRole("button", { name: "Undo" }).first().tap();
    await expect.poll(() => hand.spoken(0, 0)).toMatch(/empty\.$/);
    const play = await hand.page.locator("transport-bar").getByRole("button", { name: "Play" }).boundingBox();
    expect(play?.y).toBeGreaterThan(700);
    await hand.play();
    await expect.poll(async () => (await hand.soundContexts()).map(({ state }) => state)).toContain("running");
    await hand.stop();
  });
});
