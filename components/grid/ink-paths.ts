import { type ChanterNote, isCrossFingered } from "../../src/pipes/chanter-note.ts";
import { GRACENOTE_SECONDS } from "../../src/pipes/gracenote-seconds.ts";
import type { Frame } from "../../src/score/frame.ts";
import { frameTicks } from "../../src/score/meter.ts";
import type { BarTrace, Change, Stroke } from "./bar-trace.ts";

/** A gracenote is never drawn narrower, or two of its lines would become one. */
const LEAST_GRACENOTE = 2;
const MOST_GRACENOTE = 4;

/** Corner radius of a stroke. */
const CORNER = 1.5;

/** How thick the outline of a hollow note is, px. */
const OUTLINE = 1.75;

/** Where things of one bar stand. */
export interface BarScale {
  readonly frame: Frame;
  /** Px. */
  readonly width: number;
  /** Px from the grid's top at which a note sounds. */
  readonly height: (note: ChanterNote) => number;
  /** Whether the setup plays it. */
  readonly speaks: (note: ChanterNote) => boolean;
  /** How thick a held note is, px. */
  readonly ink: number;
}

/** Path data of a bar's trace, in px from the bar's left edge and the grid's top. An empty text where there is nothing of the kind. */
export interface InkPaths {
  /** Held notes, as areas. */
  readonly held: string;
  /** Cross-fingered notes, as outlines. */
  readonly hollow: string;
  /** Notes outside the setup, as outlines. */
  readonly outside: string;
  /** The stroke through each of those. */
  readonly through: string;
  /** Fingers moving, as lines. */
  readonly threads: string;
  readonly gracenotes: string;
  /** The pitch that goes on through a rest sign, as lines. */
  readonly rests: string;
}

/** Px from a bar's left edge to a moment of it. */
export function placeInBar({ frame, width }: Pick<BarScale, "frame" | "width">, at: number): number {
  return tenth((Math.min(at, frameTicks(frame)) / frameTicks(frame)) * width);
}

/** How wide one of a note's gracenotes is: its true time at the bar's tempo; less where the note has no room for them. */
export function gracenoteWidth({ frame, width }: Pick<BarScale, "frame" | "width">, count: number, ticks: number): number {
  if (count === 0) return 0;
  const pxPerTick = width / frameTicks(frame);
  const ticksPerSecond = (frame.tempo.beat * frame.tempo.perMinute) / 60;
  const own = Math.min(MOST_GRACENOTE, Math.max(LEAST_GRACENOTE, GRACENOTE_SECONDS * ticksPerSecond * pxPerTick));
  return tenth(Math.min(own, (ticks * pxPerTick) / 2 / count));
}

/** Where a note's ink begins: at its moment, or after its gracenotes. */
export function inkStart(scale: BarScale, at: number, ticks: number, gracenotes: number): number {
  return tenth(placeInBar(scale, at) + gracenotes * gracenoteWidth(scale, gracenotes, ticks));
}

/** Where what is held ends: at the next moment, or before the gracenotes that take its end. */
export function inkEnd(scale: Pick<BarScale, "frame" | "width">, { from, to, ahead }: Pick<Stroke, "from" | "to" | "ahead">): number {
  return tenth(placeInBar(scale, to) - ahead * gracenoteWidth(scale, ahead, to - from));
}

/** Draws a bar's trace. */
export function inkPaths(trace: BarTrace, scale: BarScale): InkPaths {
  const of = (wanted: (note: ChanterNote) => boolean, line: number): string =>
    trace.strokes
      .filter(({ note }) => wanted(note))
      .map((stroke) => strokeArea(stroke, scale, line))
      .join("");
  const outside = (note: ChanterNote): boolean => !scale.speaks(note);
  return {
    held: of((note) => !outside(note) && !isCrossFingered(note), CORNER * 2),
    hollow: of((note) => !outside(note) && isCrossFingered(note), OUTLINE),
    outside: of(outside, OUTLINE),
    through: trace.strokes
      .filter((stroke) => outside(stroke.note))
      .map((stroke) => strokeThrough(stroke, scale))
      .join(""),
    threads: trace.changes
      .filter((change) => change.gracenotes.length === 0)
      .map((change) => thread(change, scale))
      .join(""),
    gracenotes: trace.changes
      .filter((change) => change.gracenotes.length > 0)
      .map((change) => gracenoteLine(change, scale))
      .join(""),
    rests: trace.held.map((rest) => `M${placeInBar(scale, rest.from)} ${scale.height(rest.note)}H${inkEnd(scale, rest)}`).join(""),
  };
}

/** A held note as a closed area, drawn smaller by half the line around it, which also rounds its corners. */
function strokeArea(stroke: Stroke, scale: BarScale, line: number): string {
  const y = scale.height(stroke.note);
  const left = stroke.goesOn
    ? placeInBar(scale, stroke.from)
    : inkStart(scale, stroke.from, stroke.to - stroke.from, stroke.onBeat) + CORNER;
  const end = inkEnd(scale, stroke);
  const right = Math.max(left + 1, end - (end >= scale.width ? 0 : CORNER));
  return areaPath(left, right, y, scale.ink - line);
}

/** A rectangle around a height. */
export function areaPath(left: number, right: number, y: number, thickness: number): string {
  return `M${tenth(left)} ${tenth(y - thickness / 2)}H${tenth(right)}v${thickness}H${tenth(left)}z`;
}

function strokeThrough(stroke: Stroke, scale: BarScale): string {
  const y = scale.height(stroke.note);
  const left = placeInBar(scale, stroke.from);
  const right = placeInBar(scale, stroke.to);
  return `M${tenth(left - 3)} ${tenth(y + scale.ink)}L${tenth(right + 3)} ${tenth(y - scale.ink)}`;
}

function thread(change: Change, scale: BarScale): string {
  if (change.from === null) return "";
  return `M${placeInBar(scale, change.at)} ${scale.height(change.from)}V${scale.height(change.to)}`;
}

/** Up and down through the gracenotes, each for its own time, to the note: from its beat on, or up to its beat. */
export function gracenoteLine({ at, from, to, gracenotes, placement, room }: Change, scale: BarScale): string {
  const each = gracenoteWidth(scale, gracenotes.length, room);
  const beat = placeInBar(scale, at);
  let x = placement === "before-beat" ? tenth(beat - each * gracenotes.length) : beat;
  let path = `M${x} ${scale.height(from ?? to)}`;
  for (const gracenote of gracenotes) {
    x = tenth(x + each);
    path += `V${scale.height(gracenote)}H${x}`;
  }
  return `${path}V${scale.height(to)}`;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
