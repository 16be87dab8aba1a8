// @ts-check
import "./node-version.mjs";
import { fileURLToPath } from "node:url";
import { installMissingPackages } from "./packages.mjs";
import { runTool } from "./run.mjs";

/* npm run check: types, lint and layers, in seconds. */

/** What must hold before any test is worth running. */
export const CHECKS = [
  { name: "types, src", tool: "typescript/bin/tsc", argumentList: ["-p", "src/tsconfig.json"] },
  { name: "types, all", tool: "typescript/bin/tsc", argumentList: ["-p", "tsconfig.json"] },
  { name: "lint", tool: "@biomejs/biome/bin/biome", argumentList: ["check", "--error-on-warnings", "--colors=off"] },
];

const LAYERS = { name: "layers", tool: "vitest/vitest.mjs", argumentList: ["run", "--project", "node", "tests/house/layers.test.ts"] };

/**
 * Runs checks side by side and prints one line for each, with what it said where it failed.
 * @param {readonly typeof LAYERS[]} checks
 * @returns {Promise<{ name: string, ok: boolean, seconds: number }[]>}
 */
export async function runChecks(checks) {
  return Promise.all(
    checks.map(async ({ name, tool, argumentList }) => {
      const { code, output, seconds } = await runTool(tool, argumentList, { quiet: true });
      const ok = code === 0;
      console.log(`${ok ? "ok    " : "FAILED"} ${name} (${seconds.toFixed(1)} s)${ok ? "" : `\n${output.trimEnd()}`}`);
      return { name, ok, seconds };
    }),
  );
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  try {
    await installMissingPackages();
    const results = await runChecks([...CHECKS, LAYERS]);
    process.exitCode = results.every(({ ok }) => ok) ? 0 : 1;
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  }
}
