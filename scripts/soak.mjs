// @ts-check
import "./node-version.mjs";
import { buildIfChanged } from "./build.mjs";
import { installMissingPackages } from "./packages.mjs";
import { runTool } from "./run.mjs";

/*
 * npm run soak: the same tests with many more random cases (tests/support/cases.ts reads NINEFOLD_SOAK). Takes minutes.
 * npm run soak -- tests/editing runs one folder's.
 */

try {
  await installMissingPackages();
  const built = await buildIfChanged();
  if (built && built.code !== 0) throw new Error(`${built.output}\nThe app could not be built.`);
  const projects = ["--project", "node", "--project", "browser", "--project", "walks"];
  const { code } = await runTool("vitest/vitest.mjs", ["run", ...projects, ...process.argv.slice(2)], {
    environment: { NINEFOLD_SOAK: "1", NODE_ENV: "test" },
  });
  process.exitCode = code;
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
