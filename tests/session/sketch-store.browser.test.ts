import { afterEach, expect, test } from "vitest";
import { Autosave, type SaveState } from "../../components/session/autosave.ts";
import { SketchStore } from "../../components/session/sketch-store.ts";
import { applyEdit } from "../../src/editing/apply-edit.ts";
import type { Edit } from "../../src/score/edit.ts";
import { newScore } from "../../src/score/new-score.ts";
import { savedFormOf } from "../../src/score/saved-form.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";

let opened: { store: SketchStore; name: string }[] = [];

async function freshStore(): Promise<SketchStore> {
  const name = `test ${crypto.randomUUID()}`;
  const store = await SketchStore.open(name);
  opened.push({ store, name });
  return store;
}

afterEach(async () => {
  for (const { store, name } of opened) {
    store.close();
    await new Promise((resolve) => {
      indexedDB.deleteDatabase(name).onsuccess = resolve;
    });
  }
  opened = [];
});

function placing(bar: number): Edit {
  return {
    kind: "place",
    at: { line: "pipes", bar, at: ticks(0) },
    ticks: ticks(960),
    tuplet: null,
    content: { kind: "pipes", note: "e" },
  };
}

function applied(score: Score, edit: Edit): Score {
  const outcome = applyEdit(score, edit);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

test("a sketch read back is the checkpoint with every logged step done again", async () => {
  const store = await freshStore();
  const start = newScore({ title: "Slow Thaw" });
  await store.checkpoint("one", 0, start, 1000);
  const first = applied(start, placing(0));
  await store.log("one", 1, [placing(0)], first.revision);
  const second = applied(first, placing(1));
  await store.log("one", 2, [placing(1)], second.revision);

  const found = await store.read("one");
  expect(found?.step).toBe(2);
  expect(found?.lost).toBe(0);
  expect(savedFormOf(found?.score as Score)).toBe(savedFormOf(second));
});

test("a checkpoint clears the log behind it and keeps the steps after it", async () => {
  const store = await freshStore();
  const start = newScore();
  const first = applied(start, placing(0));
  const second = applied(first, placing(1));
  await store.checkpoint("one", 0, start, 1000);
  await store.log("one", 1, [placing(0)], first.revision);
  await store.log("one", 2, [placing(1)], second.revision);
  await store.checkpoint("one", 1, first, 2000);

  const found = await store.read("one");
  expect(found?.step).toBe(2);
  expect(savedFormOf(found?.score as Score)).toBe(savedFormOf(second));
});

test("a removed sketch is gone from the list, and what remove gives back puts it there again with its log", async () => {
  const store = await freshStore();
  const start = newScore({ title: "Slow Thaw" });
  await store.checkpoint("one", 0, start, 1000);
  const first = applied(start, placing(0));
  await store.log("one", 1, [placing(0)], first.revision);

  const putBack = await store.remove("one");
  expect(await store.list()).toEqual([]);
  expect(await store.read("one")).toBeNull();

  await putBack();
  expect(await store.list()).toEqual([{ id: "one", title: "Slow Thaw", changed: 1000, bars: start.frames.length }]);
  expect(savedFormOf((await store.read("one"))?.score as Score)).toBe(savedFormOf(first));
});

test("logged steps that can no longer be done are counted, and the sketch up to them is read", async () => {
  const store = await freshStore();
  const start = newScore();
  const first = applied(start, placing(0));
  await store.checkpoint("one", 0, start, 1000);
  await store.log("one", 1, [placing(0)], first.revision);
  await store.log("one", 2, [placing(99)], first.revision + 1);
  await store.log("one", 3, [placing(1)], first.revision + 2);

  const found = await store.read("one");
  expect(found?.lost).toBe(2);
  expect(savedFormOf(found?.score as Score)).toBe(savedFormOf(first));
});

test("autosave says saved only after the device holds every step, and reading then finds them all", async () => {
  const store = await freshStore();
  const states: SaveState["kind"][] = [];
  let score = newScore();
  const autosave = new Autosave(store, "one", score, 0, (state) => states.push(state.kind));
  autosave.replaced(score);
  for (let bar = 0; bar < 8; bar += 1) {
    score = applied(score, placing(bar));
    autosave.edited(score, [placing(bar)]);
    expect(states.at(-1)).toBe("saving");
  }
  await autosave.flush();
  expect(states.at(-1)).toBe("saved");
  expect(savedFormOf((await store.read("one"))?.score as Score)).toBe(savedFormOf(score));
});

test("a write that fails is told, and the next step writes the whole sketch again", async () => {
  const store = await freshStore();
  const states: SaveState[] = [];
  let score = newScore();
  await store.checkpoint("one", 0, score, 1000);
  const failing = Object.assign(Object.create(store), {
    log: () => Promise.reject(new DOMException("no room", "QuotaExceededError")),
    checkpoint: (...given: Parameters<SketchStore["checkpoint"]>) => store.checkpoint(...given),
  }) as SketchStore;
  const autosave = new Autosave(failing, "one", score, 0, (state) => states.push(state));
  score = applied(score, placing(0));
  autosave.edited(score, [placing(0)]);
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(states.at(-1)).toEqual({ kind: "failed", reason: "This device is full, so the last edit is only on screen. Save to a file." });

  score = applied(score, placing(1));
  autosave.edited(score, [placing(1)]);
  await autosave.flush();
  expect(states.at(-1)).toEqual({ kind: "saved" });
  expect(savedFormOf((await store.read("one"))?.score as Score)).toBe(savedFormOf(score));
});
