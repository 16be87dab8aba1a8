import { expect, test } from "vitest";
import { Session } from "../../components/session/session.ts";
import type { Edit } from "../../src/score/edit.ts";
import { newScore } from "../../src/score/new-score.ts";
import { ticks } from "../../src/units/ticks.ts";

function placing(bar: number): Edit {
  return {
    kind: "place",
    at: { line: "pipes", bar, at: ticks(0) },
    ticks: ticks(960),
    tuplet: null,
    content: { kind: "pipes", note: "e" },
  };
}

test("undo gives back the very score before, redo the very score after", () => {
  const start = newScore();
  const session = new Session(start);
  session.apply([placing(0)], "place E");
  const after = session.score;
  expect(session.undo()).toBe(true);
  expect(session.score).toBe(start);
  expect(session.redo()).toBe(true);
  expect(session.score).toBe(after);
});

test("a revision never names two states, even after an undo", () => {
  const session = new Session(newScore());
  session.apply([placing(0)], "place E");
  const first = session.score.revision;
  session.undo();
  session.apply([placing(1)], "place E");
  expect(session.score.revision).toBe(first + 1);
});

test("a refused edit changes nothing and tells nobody", () => {
  const session = new Session(newScore());
  const before = session.score;
  const heard: string[] = [];
  session.subscribe((change) => heard.push(change));
  const outcome = session.apply([placing(0), placing(99)], "place E");
  expect(outcome.ok).toBe(false);
  expect(session.score).toBe(before);
  expect(heard).toEqual([]);
});

test("listeners hear of a step once, with the edits that made it", () => {
  const session = new Session(newScore());
  const heard: unknown[] = [];
  session.subscribeToScore((_score, change) => heard.push(change));
  session.apply([placing(0)], "place E");
  session.undo();
  expect(heard).toEqual([{ kind: "edited", edits: [placing(0)] }, { kind: "replaced" }]);
});

test("500 steps can be taken back one by one", () => {
  const start = newScore();
  const session = new Session(start);
  for (let step = 0; step < 500; step += 1) session.apply([{ kind: "title", title: `Step ${step}` }], "the title");
  let taken = 0;
  while (session.undo()) taken += 1;
  expect(taken).toBe(500);
  expect(session.score).toBe(start);
});
