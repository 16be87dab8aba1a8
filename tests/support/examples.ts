import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { ROOT } from "./command-line.ts";

const FOLDER = join(ROOT, "examples");

/** The sketches that ship with the app: file name and saved form. */
export const EXAMPLE_SKETCHES: readonly { readonly file: string; readonly text: string }[] = readdirSync(FOLDER)
  .filter((file) => file.endsWith(".json"))
  .toSorted()
  .map((file) => ({ file, text: readFileSync(join(FOLDER, file), "utf8") }));
