import { barNumber } from "../../score/bar-number.ts";
import { check } from "../../score/check.ts";
import type { FindingKind } from "../../score/finding.ts";
import type { Command } from "../command.ts";
import { readSketch } from "../read-sketch.ts";

/** What `ninefold check --json` prints. */
export interface CheckReport {
  /** In order of time. */
  readonly findings: readonly {
    readonly kind: FindingKind;
    /** The number a reader is shown: a pickup is 0. */
    readonly bar: number;
    readonly message: string;
  }[];
}

/** `ninefold check`: what a piper would look at twice. */
export const command: Command = {
  name: "check",
  positionals: ["SKETCH"],
  options: {},
  async run({ positionals, flags }, { resolvePath }) {
    const [sketch] = positionals as readonly [string];
    const score = await readSketch(resolvePath(sketch), sketch);
    const findings = check(score).map(({ kind, address, message }) => ({ kind, bar: barNumber(score, address.bar), message }));
    return flags.has("json") ? JSON.stringify({ findings } satisfies CheckReport) : inWords({ findings });
  },
};

function inWords({ findings }: CheckReport): string {
  if (findings.length === 0) return "Nothing to look at.";
  return findings.map(({ bar, message }) => `Bar ${bar}: ${message}`).join("\n");
}
