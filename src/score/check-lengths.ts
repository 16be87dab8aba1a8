import { ticks } from "../units/ticks.ts";
import type { ConcertEvent, PipeEvent } from "./bar.ts";
import { noteValueFindings } from "./check-note-values.ts";
import type { BeatUnit, Frame } from "./frame.ts";
import type { LocalFinding } from "./local-finding.ts";
import { frameTicks, unitTicks } from "./meter.ts";
import { type BarOfEvents, lengthOf } from "./placed-events.ts";
import { isWritable } from "./written-values.ts";

const NO_CURES: LocalFinding["cures"] = () => [];
const UNIT_NAMES: Readonly<Record<BeatUnit, string>> = { 2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth" };

/**
 * What is wrong with the lengths in a bar of any line: with their sum, and with each.
 *
 * @param isTiedInto whether the bar's first note is held from the bar before
 */
export function lengthFindings(bar: BarOfEvents<PipeEvent | ConcertEvent>, frame: Frame, isTiedInto: boolean): readonly LocalFinding[] {
  return [...sumFinding(bar, frame), ...noteValueFindings(bar, isTiedInto)];
}

function sumFinding(bar: BarOfEvents<PipeEvent | ConcertEvent>, frame: Frame): readonly LocalFinding[] {
  const asked = frameTicks(frame);
  const has = lengthOf(bar);
  if (has === asked) return [];
  const unit = unitTicks(frame.meter);
  const names = `${UNIT_NAMES[frame.meter.unit]}s`;
  const amount = (length: number): string => String(Math.round((length / unit) * 100) / 100);
  if (has < asked) {
    return [
      {
        kind: "bar-length",
        at: has,
        message: `This bar has ${amount(has)} ${names} where its meter asks for ${amount(asked)}. Fill it with a rest.`,
        cures: isWritable(asked - has, null)
          ? (place) => [{ label: "Fill it", edits: [{ kind: "clear", from: place(0, has), ticks: ticks(asked - has) }] }]
          : NO_CURES,
      },
    ];
  }
  return [
    {
      kind: "bar-length",
      at: asked,
      message: `This bar has ${amount(has)} ${names} where its meter asks for ${amount(asked)}. Cut what runs over.`,
      cures: (place) => [{ label: "Cut it", edits: [{ kind: "clear", from: place(0, asked), ticks: ticks(has - asked) }] }],
    },
  ];
}
