import { barStarts } from "../score/bar-starts.ts";
import type { Frame } from "../score/frame.ts";
import { frameTicks, meterTicks } from "../score/meter.ts";
import { lengthOf } from "../score/placed-events.ts";
import type { Score } from "../score/score.ts";
import { isWritable } from "../score/written-values.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import type { Ticks } from "../units/ticks.ts";
import { restOf } from "./events-made.ts";
import { timedEvents } from "./line-time.ts";
import { type AnyBar, withLineBars } from "./with-bars.ts";

/**
 * Makes the first bar a pickup, or a whole bar again. What is played leans on the second bar: a longer bar gets a rest in front, a shorter one
 * loses the rest in front, or, where there is none, the rest at its end. It is refused when notes would go.
 */
export function changePickup(score: Score, length: Ticks | null): Outcome<Score> {
  const frame = score.frames[0] as Frame;
  const whole = meterTicks(frame.meter);
  if (length !== null && (length >= whole || !isWritable(length, null)))
    return refused("A pickup is shorter than its bar, and at least a 32nd.");
  if (frame.short === length) return done(score);
  if (score.frames.length === 1 && length !== null) return refused("A pickup needs a bar after it.");
  const from = frameTicks(frame);
  const to = length ?? whole;
  const cut = from - to;
  const silent = (start: number, end: number): boolean =>
    score.lines.every((line) =>
      timedEvents(score, line, 0).every((one) => one.event.kind === "rest" || one.to <= start || one.from >= end),
    );
  const front = cut <= 0 || silent(0, cut);
  if (!front && !silent(to, from)) return refused("Bar 1 has notes all through. Insert a bar before it and make that the pickup.");
  const shift = front ? -cut : 0;
  const lines = score.lines.map((line) => {
    const [bar] = line.bars as readonly AnyBar[];
    return bar === undefined || bar.kind === "doubling" ? line : withLineBars(line, [shifted(bar, shift, to), ...line.bars.slice(1)]);
  });
  const chords = frame.chords.map((chord) => ({ ...chord, at: Math.max(0, chord.at + shift) as Ticks })).filter((chord) => chord.at < to);
  const first: Frame = { ...frame, short: length, chords: chords.filter((chord, index) => chord.at !== chords[index + 1]?.at) };
  const changed = { ...score, frames: [first, ...score.frames.slice(1)], lines };
  const unwritable = lines.some((line) => timedEvents(changed, line, 0).some((one) => !isWritable(one.event.ticks, one.event.tuplet)));
  if (unwritable || barStarts(changed.frames)[1] !== to)
    return refused("A pickup of that length would leave something shorter than a 32nd.");
  return done(changed);
}

/** The bar with its events moved by some ticks, rests in front and behind cut or added so that it lasts as long as it should. */
function shifted(bar: Exclude<AnyBar, { kind: "doubling" }>, shift: number, length: number): AnyBar {
  let front = shift;
  const events: (typeof bar.events)[number][] = [];
  if (front > 0) events.push(restOf(front));
  for (const event of bar.events) {
    const taken = Math.min(event.ticks, Math.max(0, -front));
    front += taken;
    if (event.ticks > taken) events.push({ ...event, ticks: (event.ticks - taken) as Ticks });
  }
  let over = lengthOf({ events }) - length;
  while (over > 0) {
    const last = events.pop();
    if (last === undefined) break;
    if (last.ticks > over) events.push({ ...last, ticks: (last.ticks - over) as Ticks });
    over -= last.ticks;
  }
  return { kind: bar.kind, events } as AnyBar;
}
