import { afterAll, beforeAll, expect, test } from "vitest";
import { visit } from "../support/app-page.ts";
import { type BuiltApp, openBuiltApp } from "../support/built-app.ts";
import { cases, PATIENCE } from "../support/cases.ts";

let app: BuiltApp;
beforeAll(async () => {
  app = await openBuiltApp();
});
afterAll(() => app.close());

const LETTERS = ["B", "C", "D", "E", "F"] as const;
const KILLS = cases(10, 100);

test(`no edit that was acknowledged as kept is lost when the page's process is killed, ${KILLS} times in a row`, {
  timeout: 2 * PATIENCE,
}, async () => {
  const user = await app.newUser();
  let hand = await visit(user, app.address);
  for (let kill = 0; kill < KILLS; kill += 1) {
    const before = await hand.revision();
    await hand.goTo(kill % 4, 0);
    // Another number of edits every time, so that the kill meets the log at another length, and now and then an undo.
    const edits = 2 + (kill % 3);
    for (let edit = 0; edit < edits; edit += 1) await hand.press(LETTERS[(kill + edit) % LETTERS.length] as string);
    if (kill % 3 === 2) await hand.press("Control+z");
    await hand.acknowledged();
    await hand.goTo(kill % 4, 0);
    const kept = { revision: await hand.revision(), first: await hand.spoken(kill % 4, 0), second: await hand.spoken(kill % 4, 480) };
    expect(kept.revision, "something was edited").not.toBe(before);
    await hand.crash();

    hand = await visit(user, app.address);
    await hand.goTo(kill % 4, 0);
    const found = { revision: await hand.revision(), first: await hand.spoken(kill % 4, 0), second: await hand.spoken(kill % 4, 480) };
    expect(found, `kill ${kill + 1}`).toEqual(kept);
    expect(await hand.title(), "the sketch itself, not a copy").toBe("Paper Lantern Weather");
  }
  await user.close();
});
