import axe from "axe-core";
import { afterEach, expect, test } from "vitest";
import "../../components/shared/tokens.css";
import "../../components/setup/bar-panel.ts";
import type { BarPanel } from "../../components/setup/bar-panel.ts";
import type { Edit } from "../../src/score/edit.ts";
import { newScore } from "../../src/score/new-score.ts";
import type { Score } from "../../src/score/score.ts";

afterEach(() => document.body.replaceChildren());

const TUNE = { title: "Crane Lullaby", tuneType: "Slow air", composer: "Mairi Quern" };

function medley(): Score {
  const score = newScore({ bars: 4 });
  return { ...score, frames: score.frames.map((frame, bar) => (bar === 2 ? { ...frame, tune: TUNE } : frame)) };
}

async function open(score: Score, bar: number) {
  const panel = document.createElement("bar-panel") as BarPanel;
  panel.score = score;
  panel.chosen = { first: bar, last: bar };
  const asked: Edit[] = [];
  document.body.addEventListener("edits-asked", (event) => asked.push(...(event as CustomEvent<{ edits: readonly Edit[] }>).detail.edits), {
    once: true,
  });
  const main = document.createElement("main");
  main.append(panel);
  document.body.append(main);
  await panel.updateComplete;
  const root = panel.shadowRoot as ShadowRoot;
  const set = async (name: string, value: string) => {
    (root.querySelector(`[name="${name}"]`) as HTMLInputElement).value = value;
  };
  const send = async () => {
    (root.querySelector("form") as HTMLFormElement).requestSubmit();
    await panel.updateComplete;
  };
  return { root, asked, set, send };
}

test("a title lets a tune of a medley begin at the bar, with its type and composer", async () => {
  const { asked, set, send } = await open(newScore({ bars: 4 }), 2);
  await set("tune", TUNE.title);
  await set("tune-type", TUNE.tuneType);
  await set("tune-composer", TUNE.composer);
  await send();
  expect(asked).toEqual([{ kind: "tune", bar: 2, tune: TUNE }]);
});

test("a tune that begins at the bar is shown, and an emptied title lets the tune before go on", async () => {
  const { root, asked, set, send } = await open(medley(), 2);
  expect((root.querySelector("details") as HTMLDetailsElement).open).toBe(true);
  for (const name of ["tune", "tune-type", "tune-composer"]) await set(name, "");
  await send();
  expect(asked).toEqual([{ kind: "tune", bar: 2, tune: null }]);
});

test("a type without a title is refused in words, and nothing is asked for", async () => {
  const { root, asked, set, send } = await open(newScore({ bars: 4 }), 1);
  await set("tune-type", "Reel");
  await send();
  expect(root.textContent).toContain("A tune needs a title.");
  expect(asked).toEqual([]);
});

test("axe objects to nothing in it", async () => {
  await open(medley(), 2);
  const { violations } = await axe.run(document.body);
  expect(violations.map(({ id }) => id)).toEqual([]);
});
