// @ts-check
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { ROOT, runTool } from "./run.mjs";
import { STAMP_FILE, sourcesStamp } from "./sources-stamp.mjs";

/** The folder of the built app. */
export const BUILT = join(ROOT, "dist");

/**
 * Builds the app unless `dist` was made from exactly these sources.
 * @returns {Promise<import("./run.mjs").Ended | null>} `null` where there was nothing to do
 */
export async function buildIfChanged() {
  const stamp = join(BUILT, STAMP_FILE);
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === sourcesStamp(ROOT)) return null;
  return runTool("vite/bin/vite.js", ["build", "--logLevel", "warn"], { quiet: true, environment: { NODE_ENV: "production" } });
}
