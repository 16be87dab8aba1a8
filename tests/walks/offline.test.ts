import { afterAll, beforeAll, expect, test } from "vitest";
import { type BuiltApp, openBuiltApp, openSketch, sketchIsUsable } from "../support/built-app.ts";

let app: BuiltApp;
beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app.close());

test("after one visit the app opens with the server gone, lazy parts included", async () => {
  const user = await app.newUser();
  const page = await user.newPage();
  await openSketch(page, app.address);
  await page.waitForFunction(async () => (await navigator.serviceWorker.ready).active?.state === "activated");
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
  await user.close();
});
