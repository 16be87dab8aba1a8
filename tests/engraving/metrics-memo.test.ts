import { afterEach, expect, test } from "vitest";
import type { BarContext } from "../../src/engraving/bar-context.ts";
import { engraveBar } from "../../src/engraving/engrave-bar.ts";
import { forgetMetrics, rememberMetrics } from "../../src/engraving/metrics-memo.ts";
import { barContextOf } from "../../src/engraving/part-facts.ts";
import { eventsOf } from "../../src/score/doubling.ts";
import { lanternScore } from "../support/lantern-score.ts";

afterEach(rememberMetrics);

test("every bar's drawing is the same whether VexFlow's metrics are remembered or looked up anew", () => {
  const score = lanternScore("B", "alto-sax", "cello");
  const bars = score.lines.flatMap((line) =>
    [...score.frames.keys()].map((bar) => {
      const context: BarContext = barContextOf(score, line, bar, {
        spacing: "page",
        width: 240,
        firstInSystem: false,
        lastInSystem: false,
      });
      // A list of its own, so that no drawing comes out of the cache.
      return () => engraveBar([...eventsOf(score, line, bar)], context);
    }),
  );
  const remembered = bars.map((draw) => draw());
  forgetMetrics();
  const lookedUp = bars.map((draw) => draw());
  expect(lookedUp).toEqual(remembered);
});
