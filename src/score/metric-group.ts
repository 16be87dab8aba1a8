import { type Ticks, ticks } from "../units/ticks.ts";
import type { Meter } from "./frame.ts";
import { countGroups, isCompound, meterTicks, unitTicks } from "./meter.ts";

/**
 * How a stretch of a bar falls apart into smaller ones, and what a single note value may cover in it.
 * `twos`: two halves, as the bar of 4/4, its half and its quarters. `threes`: three of something, as the bar of 3/4.
 * `beat`: a dotted beat, three of its unit, as in 6/8. `dotted-beats`: two or more of those. `uneven`: unequal pieces, as the bar of 7/8.
 */
export interface MetricGroup {
  readonly kind: "twos" | "threes" | "beat" | "dotted-beats" | "uneven" | "least";
  readonly length: Ticks;
  /** In order; their lengths fill the group. Empty only for the least. */
  readonly parts: readonly MetricGroup[];
}

/** The shortest straight note value, a 32nd. */
export const LEAST_TICKS = 120 as Ticks;

const known = new Map<string, MetricGroup>();

/** The groups of a whole bar of the meter. */
export function metricGroupOf(meter: Meter): MetricGroup {
  const name = `${meter.beats}/${meter.unit}`;
  const kept = known.get(name);
  if (kept !== undefined) return kept;
  const made = makeGroup(meter);
  // A score has a handful of meters; a hostile caller with thousands shall not fill the memory.
  if (known.size < 200) known.set(name, made);
  return made;
}

function makeGroup(meter: Meter): MetricGroup {
  const unit = unitTicks(meter);
  if (isCompound(meter)) {
    return row(
      Array.from({ length: meter.beats / 3 }, () => ({
        kind: "beat",
        length: ticks(unit * 3),
        parts: [halved(unit), halved(unit), halved(unit)],
      })),
      "dotted-beats",
    );
  }
  if (meter.beats === 3) return { kind: "threes", length: meterTicks(meter), parts: [halved(unit), halved(unit), halved(unit)] };
  if (isPowerOfTwo(meter.beats)) return halved(meterTicks(meter));
  return row(
    countGroups(meter.beats).map((count) => makeGroup({ beats: count, unit: meter.unit })),
    "uneven",
  );
}

/** Parts side by side; one alone needs no group around it, and four stand two by two. */
function row(parts: readonly MetricGroup[], kind: "dotted-beats" | "uneven"): MetricGroup {
  const [only] = parts;
  if (parts.length === 1 && only !== undefined) return only;
  const length = ticks(parts.reduce((sum, part) => sum + part.length, 0));
  if (kind === "dotted-beats" && parts.length === 4) {
    return { kind, length, parts: [row(parts.slice(0, 2), kind), row(parts.slice(2), kind)] };
  }
  return { kind, length, parts };
}

/** A length halved again and again down to the least. */
function halved(length: Ticks): MetricGroup {
  if (length <= LEAST_TICKS || length % 2 !== 0) return { kind: "least", length, parts: [] };
  const half = halved(ticks(length / 2));
  return { kind: "twos", length, parts: [half, half] };
}

function isPowerOfTwo(count: number): boolean {
  return Number.isInteger(Math.log2(count));
}
