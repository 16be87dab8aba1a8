import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { UNCHECKED } from "../../components/app/findings-list.ts";
import { FindingsWatch, type Found } from "../../components/app/findings-watch.ts";
import { Session } from "../../components/session/session.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

/** D to E, on which other notes can sound, and a rest the chanter cannot make. */
const SCORE = pipeSketch("d2! e2 d2 e2 | z4 f4");

function watching() {
  const told: Found[] = [];
  const session = new Session(SCORE);
  const watch = new FindingsWatch((found) => told.push(found));
  session.subscribe(() => watch.changed());
  watch.take(session);
  return { told, session, watch };
}

test("a sketch just opened is looked through after a while, and finger changes are told apart from what has a number", () => {
  const { told } = watching();
  expect(told).toEqual([]);
  vi.runAllTimers();
  expect(told).toHaveLength(1);
  expect(told[0]?.findings.map(({ kind }) => kind)).toEqual(["rest"]);
  expect(new Set(told[0]?.crossings.map(({ kind }) => kind))).toEqual(new Set(["crossing"]));
});

test("an edit after which there is the same to look at tells nothing; one that cures a finding tells of an empty list", () => {
  const { told, session } = watching();
  vi.runAllTimers();
  session.apply([{ kind: "title", title: "Seconds" }], "the title");
  vi.runAllTimers();
  expect(told).toHaveLength(1);
  session.apply([{ kind: "hold", at: { line: "pipes", bar: 1, at: ticks(0) } }], "hold");
  vi.runAllTimers();
  expect(told).toHaveLength(2);
  expect(told[1]?.findings).toEqual([]);
  expect(told[1]?.findings).not.toBe(UNCHECKED);
});

test("another sketch begins with nothing looked through, and a watch that was stopped tells no more", () => {
  const { told, session, watch } = watching();
  vi.runAllTimers();
  watch.take(new Session(pipeSketch("d4!")));
  expect(told.at(-1)?.findings).toBe(UNCHECKED);
  watch.stop();
  session.apply([{ kind: "title", title: "Seconds" }], "the title");
  watch.stop();
  vi.runAllTimers();
  expect(told).toHaveLength(2);
});
