import type { PlainNote } from "../../pipes/chanter-note.ts";
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
    /** Of a crossing: the notes that can sound, the nearest to the note before first. */
    readonly notes?: readonly PlainNote[];
    /** What can be done, most usual first, as the app offers it. */
    readonly cures: readonly string[];
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
    const findings = check(score).map(({ kind, address, message, notes, cures }) => ({
      kind,
      bar: barNumber(score, address.bar),
      message,
      ...(notes === undefined ? {} : { notes }),
      cures: cures.map(({ label }) => label),
    }));
    return flags.has("json") ? JSON.stringify({ findings } satisfies CheckReport) : inWords({ findings });
  },
};

/** Crossings come last, each once with all its bars: every tune has them, and they must not hide the rest. */
function inWords({ findings }: CheckReport): string {
  const others = findings
    .filter(({ kind }) => kind !== "crossing")
    .flatMap(({ bar, message, cures }) => [`Bar ${bar}: ${message}`, ...(cures.length === 0 ? [] : [`  ${cures.join(" · ")}`])]);
  const crossings = new Map<string, Set<number>>();
  for (const { kind, bar, message } of findings) {
    if (kind === "crossing") crossings.set(message, (crossings.get(message) ?? new Set()).add(bar));
  }
  return [
    ...(others.length === 0 ? ["Nothing to look at."] : others),
    ...(crossings.size === 0 ? [] : ["", "Finger changes on which another note can sound:"]),
    ...[...crossings].map(([message, bars]) => `${bars.size === 1 ? "Bar" : "Bars"} ${[...bars].join(", ")}: ${message}`),
  ].join("\n");
}
