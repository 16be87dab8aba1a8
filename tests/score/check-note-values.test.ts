import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import type { PipeBar, PipeEvent } from "../../src/score/bar.ts";
import { check } from "../../src/score/check.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { asText, pipeSketch } from "../support/pipe-sketch.ts";
import { scoreFrom } from "../support/random-music.ts";

const found = (score: Score) => check(score).filter(({ kind }) => kind === "note-value");

/** A score with one boundary between two events of its pipes moved by so many ticks, if both are long enough. */
function shifted(score: Score, pick: number, by: number): Score {
  const line = score.lines[0];
  if (line?.kind !== "pipes") throw new RangeError("the first line is the pipes'");
  const bars = line.bars.map((bar, index): PipeBar => {
    const place = pick % Math.max(1, bar.events.length - 1);
    const [one, next] = [bar.events[place], bar.events[place + 1]];
    if (index !== pick % line.bars.length || one === undefined || next === undefined || next.ticks <= by) return bar;
    const moved = (event: PipeEvent, ticksMore: number): PipeEvent => ({ ...event, ticks: ticks(event.ticks + ticksMore) });
    return { ...bar, events: bar.events.with(place, moved(one, by)).with(place + 1, moved(next, -by)) };
  });
  return { ...score, lines: [{ ...line, bars }, ...score.lines.slice(1)] };
}

describe("a length that no note value shows", () => {
  it("is cured with its neighbour, which begins where it ends", () => {
    const score = pipeSketch("d4! f77/480 e1843/480");
    expect(found(score).map(({ cures }) => cures.map(({ label }) => label))).toEqual([["Make it longer"], ["Begin it later"]]);
    for (const { cures } of found(score)) {
      const outcome = applyEdits(score, cures[0]?.edits ?? []);
      expect(outcome.ok && asText(outcome.value)).toBe("d4! f120/480 e1800/480");
    }
  });

  it("of a note held from the bar before is left to the hand: how long that is does not show in the bar", () => {
    expect(found(pipeSketch("d8!- | d77/480 e3763/480")).map(({ cures }) => cures.length)).toEqual([0, 0]);
  });

  it(
    "is gone after any cure on offer, wherever in a score the boundary of two events lies off the grid",
    () => {
      let cured = 0;
      fc.assert(
        fc.property(
          fc.array(fc.nat(), { minLength: 60, maxLength: 300 }),
          fc.nat(),
          fc.integer({ min: 1, max: 200 }),
          (numbers, pick, by) => {
            const score = shifted(scoreFrom(numbers), pick, by);
            for (const { address, cures, message } of found(score)) {
              for (const { label, edits } of cures) {
                const outcome = applyEdits(score, edits);
                // A word whose note goes keeps the cure from being taken, and that is said.
                if (!outcome.ok && outcome.reason.includes("would lose its note")) continue;
                expect(outcome, `${asText(score)} ${message} ${label}`).toMatchObject({ ok: true });
                if (!outcome.ok) continue;
                cured += 1;
                const left = found(outcome.value).filter((one) => one.address.bar === address.bar && one.address.at === address.at);
                expect(left, `${asText(score)} ${message} ${label}`).toEqual([]);
              }
            }
          },
        ),
        { seed: 20261125, numRuns: cases(200, 10_000), endOnFailure: true },
      );
      expect(cured).toBeGreaterThan(100);
    },
    PATIENCE,
  );
});
