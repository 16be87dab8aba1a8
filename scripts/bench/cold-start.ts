import { rmSync } from "node:fs";
import { join } from "node:path";
import { ROOT, run } from "../run.mjs";
import { median, milliseconds } from "./statistics.ts";
import type { Row } from "./table.ts";

const RUNS = 7;
const COMMAND = ["run", "-s", "ninefold", "--", "pitches", "--chanter", "B", "--json"];

/** How long a small command takes from nothing, npm included; and the first time after a change, when it is bundled anew. */
export async function coldStart(): Promise<Row[]> {
  rmSync(join(ROOT, "node_modules/.cache/ninefold"), { recursive: true, force: true });
  const first = await timedCommand();
  const times: number[] = [];
  for (let index = 0; index < RUNS; index++) times.push(await timedCommand());
  return [
    { what: `command line, \`pitches\`, cold, npm included (median of ${RUNS})`, value: milliseconds(median(times)), goal: "600 ms" },
    { what: "the same, first time after a change of the sources", value: milliseconds(first) },
  ];
}

async function timedCommand(): Promise<number> {
  const { code, output, seconds } = await run("npm", COMMAND, { quiet: true });
  if (code !== 0) throw new Error(output);
  return seconds * 1000;
}
