import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterEach, beforeEach, expect, test } from "vitest";
import { BUILT } from "../../scripts/build.mjs";
import { type BuiltApp, openBuiltApp, openSketch, sketchIsUsable } from "../support/built-app.ts";

let folder: string;
let app: BuiltApp;
beforeEach(async () => {
  // A copy, since the second test makes another build of it.
  folder = join(mkdtempSync(join(tmpdir(), "ninefold-")), "dist");
  cpSync(BUILT, folder, { recursive: true });
  app = await openBuiltApp(folder);
});
afterEach(async () => {
  await app.close();
  rmSync(join(folder, ".."), { recursive: true });
});

/** How long the page may take to be idle, register the worker and have it fetch everything, in ms. */
const KEEPING = { timeout: 20_000 };

/** Waits until everything is kept and the kept copy is in charge. */
async function isKept(page: Page): Promise<void> {
  await expect
    .poll(() => page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active?.state), KEEPING)
    .toBe("activated");
}

function keptVersions(page: Page): Promise<string[]> {
  return page.evaluate(() => caches.keys());
}

/** What stands in the head of the page as it was served. */
function description(page: Page): Promise<string | null> {
  return page.locator('meta[name="description"]').getAttribute("content");
}

test("after one visit the app opens with the server gone, lazy parts included", async () => {
  const user = await app.newUser();
  const page = await user.newPage();
  await openSketch(page, app.address);
  await isKept(page);
  await app.stopServing();

  await page.reload();
  await sketchIsUsable(page);
  const kept = await page.evaluate(async () => {
    const names = await caches.keys();
    const cache = await caches.open(names[0] ?? "");
    const scripts = (await cache.keys()).map(({ url }) => new URL(url).pathname).filter((path) => path.endsWith(".js"));
    const answers = await Promise.all(scripts.map(async (path) => (await fetch(path)).ok));
    return { caches: names.length, scripts: scripts.length, answered: answers.filter(Boolean).length };
  });
  expect(kept.caches).toBe(1);
  expect(kept.scripts).toBeGreaterThan(1);
  expect(kept.answered).toBe(kept.scripts);
});

test("a newer build shows with the next visit, and is then the one that is kept, alone", async () => {
  const user = await app.newUser();
  const first = await user.newPage();
  await openSketch(first, app.address);
  await isKept(first);
  const older = await keptVersions(first);
  expect(older).toHaveLength(1);

  anotherBuild();
  await first.reload();
  expect(await description(first)).toBe("Another build.");
  // The newer worker waits for every page of the older one to go; one that comes before it has taken over keeps the older one.
  await expect
    .poll(() => first.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.waiting?.state), KEEPING)
    .toBe("installed");
  await first.close();
  const visit = async (): Promise<string[]> => {
    const page = await user.newPage();
    await page.goto(app.address);
    const versions = await keptVersions(page);
    await page.close();
    return versions;
  };
  await expect.poll(visit, { ...KEEPING, interval: 500 }).toEqual(["ninefold-0123456789ab"]);
  expect(older).not.toContain("ninefold-0123456789ab");

  const second = await user.newPage();
  await openSketch(second, app.address);
  await app.stopServing();
  await second.reload();
  await sketchIsUsable(second);
  expect(await description(second)).toBe("Another build.");
});

/** Changes the page, and the worker's version with it, as a build of changed sources would. */
function anotherBuild(): void {
  replaceIn("index.html", /(?<=name="description" content=")[^"]*/, "Another build.");
  replaceIn("service-worker.js", /(?<=["'`])[0-9a-f]{12}(?=["'`])/, "0123456789ab");
}

function replaceIn(name: string, what: RegExp, by: string): void {
  const file = join(folder, name);
  const before = readFileSync(file, "utf8");
  const after = before.replace(what, by);
  if (after === before) throw new RangeError(`${name} has no ${what}`);
  writeFileSync(file, after);
  for (const ending of [".br", ".gz"]) rmSync(file + ending);
}

test("a recording of an instrument is not kept before it is played; then it sounds with the server gone, whatever build comes after", async () => {
  const user = await app.newUser();
  const page = await user.newPage();
  await openSketch(page, app.address);
  await isKept(page);
  const [recording, another] = readdirSync(join(folder, "assets"))
    .filter((name) => name.endsWith(".mp3"))
    .map((name) => `/assets/${name}`);
  const bytesOf = (path: string | undefined) =>
    page.evaluate(async (address) => {
      const answer = await fetch(address ?? "").catch(() => null);
      return answer?.ok === true ? (await answer.arrayBuffer()).byteLength : null;
    }, path);
  const size = statSync(join(folder, recording ?? "")).size;
  expect(await bytesOf(recording)).toBe(size);
  await app.stopServing();
  await page.reload();
  await sketchIsUsable(page);
  expect(await bytesOf(recording)).toBe(size);
  expect(await bytesOf(another)).toBeNull();
  expect(await keptVersions(page)).toContain("recordings");
});
