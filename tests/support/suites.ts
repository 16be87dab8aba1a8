import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { ROOT } from "./command-line.ts";

/* Files that nobody here wrote, beside the project. Tests that need them skip where they are absent. */

const SUITES = join(ROOT, "../shared/suites");

/** Whether the files are there. */
export const HAS_SUITES = existsSync(SUITES);

/** A file of a suite. */
export interface SuiteFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** The files of one suite (`abc`, `midi`, `musicxml`, `songs`) whose names match, in order of names; none where it is absent. */
export function suiteFiles(suite: string, names = /./): readonly SuiteFile[] {
  const folder = join(SUITES, suite);
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => names.test(name))
    .sort()
    .map((name) => ({ name, bytes: readFileSync(join(folder, name)) }));
}
