import type { Frame } from "../score/frame.ts";
import { element, elementWith, type XmlElement } from "./xml.ts";

/** The bar line before a bar, where it is more than a plain one: a repeat or an ending begins. */
export function leftBarline(frames: readonly Frame[], bar: number): XmlElement | null {
  const frame = frames[bar];
  if (frame === undefined) return null;
  const ending = beginsEnding(frames, bar) ? elementWith("ending", { number: String(frame.ending), type: "start" }) : null;
  if (!frame.repeatStart && ending === null) return null;
  return elementWith(
    "barline",
    { location: "left" },
    frame.repeatStart ? element("bar-style", "heavy-light") : null,
    ending,
    frame.repeatStart ? elementWith("repeat", { direction: "forward" }) : null,
  );
}

/** The bar line after a bar, where it is more than a plain one: a repeat or an ending closes, a section or the piece ends. */
export function rightBarline(frames: readonly Frame[], bar: number): XmlElement | null {
  const frame = frames[bar];
  if (frame === undefined) return null;
  const ending = endsEnding(frames, bar)
    ? elementWith("ending", { number: String(frame.ending), type: frame.repeatEnd || frame.ending === 1 ? "stop" : "discontinue" })
    : null;
  const style = rightStyle(frames, bar);
  if (style === null && ending === null) return null;
  return elementWith(
    "barline",
    { location: "right" },
    style === null ? null : element("bar-style", style),
    ending,
    frame.repeatEnd ? elementWith("repeat", { direction: "backward" }) : null,
  );
}

function rightStyle(frames: readonly Frame[], bar: number): string | null {
  const next = frames[bar + 1];
  if (frames[bar]?.repeatEnd || next === undefined) return "light-heavy";
  return next.section !== null && !next.repeatStart ? "light-light" : null;
}

/** Bars side by side with one number form an ending, but a repeat closes it. */
function beginsEnding(frames: readonly Frame[], bar: number): boolean {
  const [before, here] = [frames[bar - 1], frames[bar]];
  return here !== undefined && here.ending !== null && (before?.ending !== here.ending || before.repeatEnd);
}

function endsEnding(frames: readonly Frame[], bar: number): boolean {
  const frame = frames[bar];
  return (
    frame !== undefined &&
    frame.ending !== null &&
    (bar + 1 >= frames.length || frame.repeatEnd || frames[bar + 1]?.ending !== frame.ending)
  );
}
