import { afterAll, beforeAll, expect, test } from "vitest";
import { type BuiltApp, openBuiltApp, openSketch } from "../support/built-app.ts";

let app: BuiltApp;
beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app.close());

test("a visit breaks the page's policy nowhere, logs no error and asks no other origin", async () => {
  const user = await app.newUser();
  const page = await user.newPage();
  const elsewhere: string[] = [];
  const complaints: string[] = [];
  user.on("request", (request) => {
    const { protocol, host } = new URL(request.url());
    if (protocol.startsWith("http") && host !== new URL(app.address).host) elsewhere.push(request.url());
  });
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  await page.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", (event) => {
      console.error(`policy: ${event.effectiveDirective} refused ${event.blockedURI} ${event.sample}`);
    });
  });
  await openSketch(page, app.address);
  await page.waitForLoadState("networkidle");
  expect(complaints).toEqual([]);
  expect(elsewhere).toEqual([]);
  await user.close();
});

test("the page carries its policy itself, and the policy refuses a script from a string and one from elsewhere", async () => {
  const user = await app.newUser();
  const page = await user.newPage();
  await page.goto(app.address);
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content");
  expect(policy).toContain("require-trusted-types-for 'script'");
  const refused = await page.evaluate(async () => {
    const outcomes: string[] = [];
    for (const attempt of [
      () => document.body.insertAdjacentHTML("beforeend", "<b>x</b>"),
      () => navigator.serviceWorker.register("/elsewhere.js"),
      () => new Worker("/elsewhere.js"),
    ]) {
      try {
        await attempt();
        outcomes.push("went through");
      } catch (error) {
        outcomes.push((error as Error).name);
      }
    }
    return outcomes;
  });
  expect(refused).toEqual(["TypeError", "TypeError", "TypeError"]);
  await user.close();
});
