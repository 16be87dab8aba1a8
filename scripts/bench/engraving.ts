import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { rolldown } from "rolldown";
import { musicxmlOfScore } from "../../src/exchange/musicxml-score.ts";
import { ROOT, run } from "../run.mjs";
import { benchScore } from "./bench-score.ts";
import { median, milliseconds } from "./statistics.ts";
import type { Row } from "./table.ts";

const BARS = 200;
const PARTS = 2;
const RUNS = 5;

/** What a child says of itself, in ms. */
interface Run {
  readonly load: number;
  readonly engrave: number;
  /** Ours only: the same amount of other music right after. */
  readonly warm?: number;
  readonly ink: number;
}

/**
 * 200 bars, none like another, in two parts, each run in a Node process of its own, taking turns with Verovio on the MusicXML of the same score.
 * The two do not do the same: Verovio also reads its MusicXML and writes SVG text; ours starts from the score in memory and ends with the
 * drawing that every painter reads.
 */
export async function engraving(): Promise<Row[]> {
  const cache = join(ROOT, "node_modules/.cache/ninefold");
  mkdirSync(cache, { recursive: true });
  const folder = mkdtempSync(join(cache, "bench-"));
  try {
    const music = join(folder, "bench.musicxml");
    writeFileSync(music, musicxmlOfScore(benchScore(BARS)));
    const child = await bundled(folder);
    const ours: Run[] = [];
    const theirs: Run[] = [];
    for (let index = 0; index < RUNS; index++) {
      ours.push(await inOwnProcess(child, String(BARS)));
      theirs.push(await inOwnProcess(join(ROOT, "scripts/bench/verovio-child.mjs"), music));
    }
    return rowsOf(ours, theirs);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** As the command line does it, lean VexFlow included: TypeScript has to be bundled before Node can run it, and that is not part of the measuring. */
async function bundled(folder: string): Promise<string> {
  const bundle = await rolldown({
    input: join(ROOT, "scripts/bench/engrave-child.ts"),
    platform: "node",
    external: /^node:/,
    resolve: { alias: { "vexflow/core": join(ROOT, "scripts/lean-vexflow.mjs") } },
  });
  await bundle.write({ dir: folder, format: "esm", entryFileNames: "child.mjs", chunkFileNames: "[name]-[hash].mjs" });
  await bundle.close();
  return join(folder, "child.mjs");
}

async function inOwnProcess(script: string, argument: string): Promise<Run> {
  const { code, output } = await run(process.execPath, [script, argument], { quiet: true });
  const last = output.trim().split("\n").at(-1) ?? "";
  if (code !== 0 || !last.startsWith("{")) throw new Error(output);
  return JSON.parse(last);
}

function rowsOf(ours: readonly Run[], theirs: readonly Run[]): Row[] {
  const middle = (runs: readonly Run[], pick: (run: Run) => number): number => median(runs.map(pick));
  const both = ({ load, engrave }: Run): number => load + engrave;
  const bar = (pick: (run: Run) => number): string => `${(middle(ours, pick) / BARS / PARTS).toFixed(2)} ms`;
  const ratio = (pick: (run: Run) => number): string => (middle(ours, pick) / middle(theirs, pick)).toFixed(2);
  return [
    { what: "engraving a bar of a part, cold (without module load)", value: bar(({ engrave }) => engrave) },
    { what: "the same, warm, other music", value: bar(({ warm = Number.NaN }) => warm) },
    {
      what: `${BARS} bars x ${PARTS} parts, own process, module load included (median of ${RUNS})`,
      value: milliseconds(middle(ours, both)),
    },
    { what: "Verovio 6 on the same music: MusicXML read, SVG written", value: milliseconds(middle(theirs, both)) },
    { what: "ratio, module load included on both sides", value: ratio(both), goal: "0.4 or less" },
    { what: "ratio without module load", value: ratio(({ engrave }) => engrave) },
  ];
}
