import { listed } from "../units/listed.ts";
import type { FingerChange } from "./finger-change.ts";
import { HOLE_NAMES } from "./fingerings.ts";

/** The fingers of a change for the ear and the eye: `upper ring and lower little lift, lower index closes`. Empty when none moves. */
export function fingersInWords({ lifts, closes }: Pick<FingerChange, "lifts" | "closes">): string {
  return [movingInWords(lifts, "lift"), movingInWords(closes, "close")].filter((words) => words !== "").join(", ");
}

function movingInWords(fingers: readonly number[], verb: string): string {
  if (fingers.length === 0) return "";
  const names = fingers.map((finger) => HOLE_NAMES[finger] as string);
  return `${listed(names)} ${fingers.length === 1 ? `${verb}s` : verb}`;
}
