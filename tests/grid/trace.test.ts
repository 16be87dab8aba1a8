import { expect, test } from "vitest";
import { leadsFromBefore, traceOf } from "../../components/grid/bar-trace.ts";
import { gracenoteWidth, inkEnd, inkPaths, placeInBar } from "../../components/grid/ink-paths.ts";
import { CHANTER_NOTES, type ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeBar } from "../../src/score/bar.ts";
import { carriedInto } from "../../src/score/carried-note.ts";
import type { Frame } from "../../src/score/frame.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";

function barOf(text: string): { readonly bar: PipeBar; readonly frame: Frame } {
  const score = pipeSketch(text);
  return { bar: score.lines[0]?.bars[0] as PipeBar, frame: score.frames[0] as Frame };
}

const trace = (text: string, carried: ChanterNote | null = null) => traceOf(barOf(text).bar, carried);

test("fingers move where the note changes; like notes with nothing between go on", () => {
  const { strokes, changes } = trace("d2! e2 e4");
  expect(changes.map(({ at, from, to }) => [at, from, to])).toEqual([[960, "d", "e"]]);
  expect(strokes.map(({ goesOn }) => goesOn)).toEqual([false, false, true]);
});

test("what sounds into a bar goes on into its first like note, and changes into any other", () => {
  expect(trace("d8", "d").changes).toEqual([]);
  expect(trace("d8", "d").strokes[0]?.goesOn).toBe(true);
  expect(trace("d8", "e").changes).toEqual([{ at: 0, from: "e", to: "d", gracenotes: [], placement: "on-beat", room: 3840 }]);
});

test("gracenotes part like notes", () => {
  expect(trace("{g}d8", "d").changes).toEqual([{ at: 0, from: "d", to: "d", gracenotes: ["high-g"], placement: "on-beat", room: 3840 }]);
});

test("a rest is held through at the pitch that sounds, and silent after a cut-off", () => {
  expect(trace("d4! z4").held).toEqual([{ from: 1920, to: 3840, note: "d", ahead: 0 }]);
  expect(trace("d4!. z4").held).toEqual([]);
  expect(trace("z8", "f").held).toEqual([{ from: 0, to: 3840, note: "f", ahead: 0 }]);
  expect(trace("z8").held).toEqual([]);
});

test("uprights stand where the chanter starts and stops", () => {
  expect(trace("z2 d2!. z2 e2!").uprights).toEqual([
    { at: 960, note: "d", kind: "strike-in" },
    { at: 1920, note: "d", kind: "cut-off" },
    { at: 2880, note: "e", kind: "strike-in" },
  ]);
});

test("a gracenote is as wide as 40 ms at the bar's tempo: 96 beats to the minute in a bar of 160 px, 2.6 px", () => {
  const { frame } = barOf("d8");
  expect(gracenoteWidth({ frame, width: 160 }, 1, 3840)).toBe(2.6);
});

test("gracenotes take no more than half of a short note", () => {
  const { frame } = barOf("d8");
  const width = 96;
  const short = placeInBar({ frame, width }, 120);
  expect(gracenoteWidth({ frame, width }, 4, 120) * 4).toBeLessThanOrEqual(short / 2 + 0.4);
});

test("a change of note is one upright line from the one height to the other", () => {
  const { bar, frame } = barOf("d4! e4");
  const height = (note: ChanterNote) => (note === "d" ? 100 : 60);
  const paths = inkPaths(traceOf(bar, null), { frame, width: 160, height, speaks: () => true, ink: 8 });
  expect(paths.threads).toBe("M80 100V60");
  expect(paths.hollow).toBe("");
  expect(paths.gracenotes).toBe("");
});

/** The path of the gracenotes of a sketch's bar, 160 px wide: 2.6 px a gracenote. A note's height is ten times its number on the chanter. */
function gracenotesOf(text: string, index = 0): string {
  const score = pipeSketch(text);
  const bars = score.lines[0]?.bars as readonly PipeBar[];
  const frame = score.frames[index] as Frame;
  const height = (note: ChanterNote) => CHANTER_NOTES.indexOf(note) * 10;
  const drawn = traceOf(bars[index] as PipeBar, carriedInto(bars, index), leadsFromBefore(bars[index + 1]));
  return inkPaths(drawn, { frame, width: 160, height, speaks: () => true, ink: 8 }).gracenotes;
}

test("a doubling begins on its beat, a grip ends there and takes its time from the note before", () => {
  expect(gracenotesOf("e4! {gBd}B4")).toBe("M80 60V90H82.6V20H85.2V50H87.8V20");
  expect(gracenotesOf("e4! {GdG}B4")).toBe("M72.2 60V0H74.8V50H77.4V0H80V20");
});

test("a grip before a bar's first beat is drawn by the bar before, and by that bar alone", () => {
  expect(gracenotesOf("e8! | {GdG}B8", 0)).toBe("M152.2 60V0H154.8V50H157.4V0H160V20");
  expect(gracenotesOf("e8! | {GdG}B8", 1)).toBe("");
  expect(gracenotesOf("e4! z4 | {GdG}B8", 0)).toBe("M152.2 60V0H154.8V50H157.4V0H160V20");
});

test("a grip after silence has nothing to take time from, and begins on the beat", () => {
  expect(gracenotesOf("{GdG}B8!")).toBe("M0 20V0H2.6V50H5.2V0H7.8V20");
  expect(gracenotesOf("e8!. | {GdG}B8!", 0)).toBe("");
  expect(gracenotesOf("e8!. | {GdG}B8!", 1)).toBe("M0 20V0H2.6V50H5.2V0H7.8V20");
});

test("what is held ends where the grip after it begins", () => {
  const { bar, frame } = barOf("e4! {GdG}B4");
  const { strokes } = traceOf(bar, null);
  expect(strokes.map((stroke) => inkEnd({ frame, width: 160 }, stroke))).toEqual([72.2, 160]);
  expect(strokes.map(({ onBeat, ahead }) => [onBeat, ahead])).toEqual([
    [0, 3],
    [0, 0],
  ]);
});
