import fc from "fast-check";
import { expect, test } from "vitest";
import { hertzOf } from "../../src/pipes/sounding.ts";
import { type Schedule, scheduleOf } from "../../src/playback/schedule.ts";
import { momentAtSecond } from "../../src/playback/timeline.ts";
import type { Frame } from "../../src/score/frame.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import { frameTicks } from "../../src/score/meter.ts";
import { eventAt } from "../../src/score/placed-events.ts";
import { playedOrder } from "../../src/score/played-order.ts";
import type { Score } from "../../src/score/score.ts";
import { anyScore } from "../support/random-scores.ts";

const seeded = { seed: 56_011, numRuns: 300 } as const;

/** A hundredth of the shortest thing written, a 32nd at 180 to the minute: far above rounding, far below anything heard. */
const NOTHING = 4e-4;

const anyPlaying = fc.record({
  score: anyScore({ repeats: true }),
  tempoPercent: fc.integer({ min: 40, max: 150 }),
  countIn: fc.boolean(),
});

function holds(law: (schedule: Schedule, score: Score, tempoPercent: number) => void): void {
  fc.assert(
    fc.property(anyPlaying, ({ score, tempoPercent, countIn }) => {
      law(scheduleOf(score, { tempoPercent, countIn }), score, tempoPercent);
    }),
    seeded,
  );
}

test("the music lasts as long as its bars, repeats taken, at that percentage of their tempo", () => {
  holds(({ timeline }, { frames }, tempoPercent) => {
    const length = playedOrder(frames)
      .map((bar) => frames[bar] as Frame)
      .reduce((sum, frame) => sum + ((frameTicks(frame) / frame.tempo.beat) * 60) / frame.tempo.perMinute / (tempoPercent / 100), 0);
    expect(timeline.end - timeline.start).toBeCloseTo(length, 9);
  });
});

test("a chanter's steps go forward in time, begin where the span begins and end before it ends", () => {
  holds(({ chanters }) => {
    for (const { start, stop, steps } of chanters.flatMap(({ spans }) => spans)) {
      expect(steps[0]?.at).toBe(start);
      const times = [...steps.map(({ at }) => at), stop];
      for (const [index, time] of times.entries()) if (index > 0) expect(time - (times[index - 1] as number)).toBeGreaterThan(NOTHING);
    }
  });
});

test("spans of one chanter do not overlap", () => {
  holds(({ chanters }) => {
    for (const { spans } of chanters) {
      for (const [index, span] of spans.entries())
        if (index > 0) expect(span.start).toBeGreaterThanOrEqual(spans[index - 1]?.stop as number);
    }
  });
});

test("while the bag is up the chanter is silent only after a cut-off: a span ends at a cut-off note or with the line's last note", () => {
  holds(({ chanters, timeline }, score) => {
    for (const { line, spans } of chanters) {
      for (const span of spans.slice(0, -1)) {
        const moment = momentAtSecond(timeline, span.stop - NOTHING / 4);
        const bar = pipeLineOf(score, line)?.bars[moment?.bar ?? -1];
        const sounding = bar && moment ? eventAt(bar, moment.at)?.event : null;
        expect(sounding).toMatchObject({ kind: "note", cutOff: true });
      }
    }
  });
});

test("every step sounds what the setup says of its note", () => {
  holds(({ chanters }, score) => {
    for (const { line, spans } of chanters) {
      const setup = pipeLineOf(score, line)?.setup;
      for (const step of spans.flatMap(({ steps }) => steps)) expect(step.hertz).toBe(setup && hertzOf(setup, step.note));
    }
  });
});

test("drones sound wherever their chanter does, and begin before it by a beat or more", () => {
  holds(({ chanters, drones }) => {
    for (const { line, spans } of chanters) {
      const [first, last] = [spans[0], spans.at(-1)];
      const own = drones.filter((drone) => drone.line === line);
      expect(own.length > 0).toBe(first !== undefined);
      for (const { start, stop } of own) {
        expect((first?.start ?? 0) - start).toBeGreaterThan(0.1);
        expect(stop).toBe(last?.stop);
      }
    }
  });
});

test("nothing sounds before zero or after the end, and every player's sounds begin in order", () => {
  holds(({ chanters, drones, players, clicks, end }) => {
    const everything = [...chanters.flatMap(({ spans }) => spans), ...drones, ...players.flatMap(({ sounds }) => sounds)];
    for (const { start, stop } of everything) {
      expect(start).toBeGreaterThanOrEqual(0);
      expect(stop).toBeGreaterThan(start);
      expect(stop).toBeLessThanOrEqual(end);
    }
    for (const { sounds } of players) {
      for (const [index, { start }] of sounds.entries())
        if (index > 0) expect(start).toBeGreaterThanOrEqual(sounds[index - 1]?.start as number);
    }
    for (const [index, { at }] of clicks.entries()) expect(at).toBeGreaterThanOrEqual(index === 0 ? 0 : (clicks[index - 1]?.at as number));
  });
});

test("the same score gives the same schedule", () => {
  holds((schedule, score, tempoPercent) => {
    const countIn = schedule.clicks.some((click) => click.countIn);
    expect(scheduleOf(score, { tempoPercent, countIn })).toEqual(schedule);
  });
});
