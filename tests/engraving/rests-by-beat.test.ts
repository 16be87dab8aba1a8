import { expect, test } from "vitest";
import { spokenEvent } from "../../src/engraving/part-words.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";

test("a half bar's rest after the first beat of 4/4 shows the middle of the bar: two quarter rests, where a note is one half", () => {
  const spoken = ["d2! z4 e2", "d2! f4 e2"].map((music) => {
    const score = pipeSketch(music);
    const [line] = score.lines;
    const bar = line?.bars[0];
    if (line === undefined || bar?.kind !== "pipes") throw new RangeError("no bar of pipes");
    const second = placedEvents(bar)[1];
    if (second === undefined) throw new RangeError("no second event");
    return spokenEvent(score, line, 0, second.at, second.event);
  });
  expect(spoken).toEqual(["Bar 1, beat 2. Rest, quarter note and quarter note.", "Bar 1, beat 2. F, half note."]);
});
