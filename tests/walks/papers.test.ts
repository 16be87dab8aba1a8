import { readFileSync, rmSync } from "node:fs";
import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BrowserContext, Download } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { type AppPage, visit } from "../support/app-page.ts";
import { type BuiltApp, openBuiltApp } from "../support/built-app.ts";
import { ninefold } from "../support/command-line.ts";

let app: BuiltApp;
beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app.close());

let user: BrowserContext;
let hand: AppPage;
let asked: string[];
beforeEach(async () => {
  user = await app.newUser({ serviceWorkers: "block" });
  asked = [];
  user.on("request", (request) => asked.push(request.url()));
  hand = await visit(user, app.address);
  await hand.page.getByRole("button", { name: "Hand over" }).click();
  await hand.page.locator("print-pages svg").first().waitFor();
});
afterEach(async () => {
  // Blocked, since it would fetch everything at once and hide what is fetched when.
  expect(hand.complaints.filter((complaint) => !complaint.startsWith("Service Worker registration blocked"))).toEqual([]);
  await user.close();
});

const room = () => hand.page.locator("hand-over");
const choose = (name: string, label: string) => room().getByRole("combobox", { name }).selectOption({ label });
const bytesOf = async (file: Download): Promise<Buffer> => readFileSync(await file.path());

/** What is handed out after a press, so many files. */
async function handedOut(button: string, count: number): Promise<readonly Download[]> {
  const files: Download[] = [];
  hand.page.on("download", (file) => files.push(file));
  await room().getByRole("button", { name: button }).click();
  await expect.poll(() => files.length, { timeout: 20_000 }).toBe(count);
  return files;
}

test("the first PDF fetches what makes it, and is byte for byte the one the command line writes", async () => {
  expect(asked.filter((address) => /pdf|paper-fonts/.test(address))).toEqual([]);
  await choose("Paper", "A4");
  const files = await handedOut("All parts as PDF", 2);
  expect(asked.some((address) => /pdf-worker/.test(address))).toBe(true);
  await expect.poll(() => room().getByRole("status").textContent()).toBe("2 PDF files are handed to the browser to save.");
  const folder = await mkdtemp(join(tmpdir(), "ninefold-papers-"));
  try {
    const run = await ninefold(["parts", "examples/paper-lantern-weather.json", "--out", folder, "--as", "pdf", "--json"]);
    const written = (JSON.parse(run.output) as { files: readonly { path: string }[] }).files.map(({ path }) => path);
    expect(files.map((file) => join(folder, file.suggestedFilename()))).toEqual(written);
    for (const [index, file] of files.entries()) {
      expect((await bytesOf(file)).equals(readFileSync(written[index] as string)), file.suggestedFilename()).toBe(true);
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test("a piper's learner's part with chords is seen, and handed out as PDF and SVG under its own name", async () => {
  const inkOf = (role: string) => room().locator(`print-pages .${role}`).count();
  const charts = await inkOf("holes");
  expect(await inkOf("chord")).toBe(0);
  await choose("What", "The learner’s part");
  await choose("Chords", "with the band’s chords");
  await expect.poll(() => inkOf("holes")).toBeGreaterThan(2 * charts);
  expect(await inkOf("chord")).toBeGreaterThan(0);
  await expect
    .poll(() => room().locator("print-pages svg").first().getAttribute("aria-label"))
    .toMatch(/^Pipes, learner’s part, page 1 of \d$/);
  const [pdf] = await handedOut("Part as PDF", 1);
  expect(pdf?.suggestedFilename()).toMatch(/^Paper Lantern Weather - Pipes, learner, revision \d+\.pdf$/);
  expect((await bytesOf(pdf as Download)).toString("latin1", 0, 8)).toBe("%PDF-1.7");
  const count = await room().locator("print-pages > svg").count();
  const pages = await handedOut("Pages as SVG", count);
  expect(pages[0]?.suggestedFilename()).toMatch(/^Paper Lantern Weather - Pipes, learner, revision \d+(?:, page 1 of \d+)?\.svg$/);
});

test("the chart page of the pipes is seen as it prints, and handed out as PDF", async () => {
  await choose("What", "The chart page");
  await expect.poll(() => room().locator("print-pages svg").getAttribute("aria-label")).toBe("Pipes, chart page, page 1 of 1");
  const [pdf] = await handedOut("Part as PDF", 1);
  expect(pdf?.suggestedFilename()).toMatch(/^Paper Lantern Weather - Pipes, chart page, revision \d+\.pdf$/);
});

test("a player who is no piper is offered the part alone, on the paper chosen", async () => {
  await choose("Whose", "Fiddle");
  await choose("Paper", "Letter");
  expect(await room().getByRole("combobox").count()).toBe(2);
  await expect.poll(() => room().locator("print-pages svg").first().getAttribute("width")).toBe("215.9mm");
});
