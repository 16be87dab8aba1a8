import type { BarDrawing } from "../../src/engraving/drawing.ts";
import { engravedBar } from "../../src/engraving/engrave-part.ts";
import { headDrawing } from "../../src/engraving/head-drawing.ts";
import type { Line } from "../../src/score/score.ts";
import { lanternScore } from "./lantern-score.ts";

/** A few bars that show most of what can stand in one, for the golden drawing: a pipe bar on the desk, and a transposed one on a page with its head. */
export function shapeBars(): Readonly<Record<string, BarDrawing>> {
  const score = lanternScore("B", "trumpet-bb", "cello");
  const [pipes, trumpet] = score.lines as [Line, Line];
  return {
    pipes: engravedBar(score, pipes, 1, { spacing: "desk", width: 240, firstInSystem: false, lastInSystem: false }),
    trumpetHead: headDrawing(score, trumpet, 1, { meter: true, number: true }),
    trumpet: engravedBar(score, trumpet, 1, { spacing: "page", width: 220, firstInSystem: true, lastInSystem: false }),
  };
}

/** The drawings as text, one group a line, so that a difference can be read. */
export function shapeText(drawings: Readonly<Record<string, BarDrawing>>): string {
  const bars = Object.entries(drawings).map(([name, { width, groups }]) => {
    const lines = groups.map((group) => `    ${JSON.stringify({ role: group.role, at: group.at, marks: group.marks })}`);
    return `  ${JSON.stringify(name)}: { "width": ${width}, "groups": [\n${lines.join(",\n")}\n  ]}`;
  });
  return `{\n${bars.join(",\n")}\n}\n`;
}
