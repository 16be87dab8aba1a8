import type { Finding } from "./finding.ts";
import type { LineId } from "./line-id.ts";

/** A finding with its place in the whole list, from 1. */
export interface NumberedFinding {
  readonly number: number;
  readonly finding: Finding;
}

const byBar = new WeakMap<readonly Finding[], ReadonlyMap<string, readonly NumberedFinding[]>>();

const NONE: readonly NumberedFinding[] = [];

/** The findings of a list in one bar of a line, in order. Sorted by bars once for a list, since every bar in view asks. */
export function findingsInBar(findings: readonly Finding[], line: LineId, bar: number): readonly NumberedFinding[] {
  const known = byBar.get(findings) ?? sorted(findings);
  byBar.set(findings, known);
  return known.get(keyOf(line, bar)) ?? NONE;
}

function sorted(findings: readonly Finding[]): ReadonlyMap<string, readonly NumberedFinding[]> {
  const bars = new Map<string, NumberedFinding[]>();
  for (const [index, finding] of findings.entries()) {
    const key = keyOf(finding.address.line, finding.address.bar);
    const own = bars.get(key) ?? [];
    own.push({ number: index + 1, finding });
    bars.set(key, own);
  }
  return bars;
}

function keyOf(line: LineId, bar: number): string {
  return `${bar} ${line}`;
}
