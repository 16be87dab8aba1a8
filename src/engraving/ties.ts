import { hundredths } from "./boxes.ts";
import type { Mark } from "./drawing.ts";

/** A tie is thickest in its middle. */
const THICKNESS = 1.5;

/** A tie bowed upwards (-1) or downwards (1) between two points of one height. */
export function tieMark(x1: number, x2: number, y: number, bow: -1 | 1): Mark {
  const length = x2 - x1;
  const height = Math.min(8, Math.max(3.2, 2.2 + length * 0.09)) * bow;
  const inset = Math.min(length * 0.3, 12);
  const curve = (from: number, to: number, control: number) => `C${[from, control, to, control].map(hundredths).join(" ")} `;
  const thick = THICKNESS * bow;
  const outer = curve(x1 + inset, x2 - inset, y + height + thick / 2);
  const inner = curve(x2 - inset, x1 + inset, y + height - thick / 2);
  const [start, end, level] = [x1, x2, y].map(hundredths);
  return { kind: "path", d: `M${start} ${level}${outer}${end} ${level}${inner}${start} ${level}Z` };
}
