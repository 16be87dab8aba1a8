import { shortNumber } from "./short-number.ts";

/** How many numbers each command of our outlines takes. */
const COUNTS: Readonly<Record<string, number>> = { m: 2, l: 2, q: 4, c: 6, z: 0 };

/**
 * The `d` of an SVG path as path operators of PDF, in the same coordinates. Commands M L Q C Z, capital or small; PDF has no quadratic
 * curves, so those become cubic.
 * @throws RangeError for another command: then it is no outline of ours.
 */
export function pdfPathOf(d: string): string {
  let operators = "";
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const [, letter = "", rest = ""] of d.matchAll(/([a-z])([^a-z]*)/gi)) {
    const command = letter.toLowerCase();
    const count = COUNTS[command];
    if (count === undefined) throw new RangeError(`no outline has the path command ${letter}`);
    if (command === "z") {
      operators += "h\n";
      [x, y] = [startX, startY];
      continue;
    }
    const numbers = (rest.match(/-?(?:\d+\.?\d*|\.\d+)/g) ?? []).map(Number);
    for (let from = 0; from + count <= numbers.length; from += count) {
      const [dx, dy] = letter === command ? [x, y] : [0, 0];
      const points = numbers.slice(from, from + count).map((value, index) => value + (index % 2 === 0 ? dx : dy));
      const [endX, endY] = points.slice(-2) as [number, number];
      operators += operatorOf(from === 0 ? command : command === "m" ? "l" : command, x, y, points);
      [x, y] = [endX, endY];
      if (command === "m" && from === 0) [startX, startY] = [endX, endY];
    }
  }
  return operators;
}

function operatorOf(command: string, x: number, y: number, points: readonly number[]): string {
  if (command !== "q") return `${points.map((value) => shortNumber(value, 2)).join(" ")} ${command}\n`;
  const [midX, midY, endX, endY] = points as [number, number, number, number];
  const third = (from: number, middle: number): number => from + (2 / 3) * (middle - from);
  return operatorOf("c", x, y, [third(x, midX), third(y, midY), third(endX, midX), third(endY, midY), endX, endY]);
}

/** Four curves that look like a circle: how far their handles reach, as a share of the radius; off by less than 0.03 % of it. */
const HANDLE = 0.5523;

/** A circle as path operators. */
export function pdfCircle(x: number, y: number, radius: number): string {
  const reach = HANDLE * radius;
  const at = (...values: readonly number[]): string => values.map((value) => shortNumber(value, 2)).join(" ");
  return [
    `${at(x + radius, y)} m`,
    `${at(x + radius, y + reach, x + reach, y + radius, x, y + radius)} c`,
    `${at(x - reach, y + radius, x - radius, y + reach, x - radius, y)} c`,
    `${at(x - radius, y - reach, x - reach, y - radius, x, y - radius)} c`,
    `${at(x + reach, y - radius, x + radius, y - reach, x + radius, y)} c`,
    "h\n",
  ].join("\n");
}
