// @ts-check
import "./node-version.mjs";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { buildIfChanged } from "./build.mjs";
import { CHECKS, runChecks } from "./check.mjs";
import { findChromium } from "./find-chromium.mjs";
import { hasPoppler } from "./find-poppler.mjs";
import { installMissingPackages } from "./packages.mjs";
import { run, runTool } from "./run.mjs";

/*
 * npm test: everything, from a fresh clone. Each step runs even where one before it failed, so that one run tells all.
 * NINEFOLD_TALLY names a file for the counts, for a caller that wants them (.ci/run).
 */

/**
 * @typedef {object} Step
 * @property {string} name
 * @property {boolean} ok
 * @property {number} passed tests, not steps
 * @property {number} failed
 * @property {number} skipped
 * @property {number} seconds
 */

try {
  process.exitCode = (await testAll()) ? 0 : 1;
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}

/** @returns {Promise<boolean>} whether everything passed */
async function testAll() {
  await installMissingPackages();
  const chromium = await chromiumOrInstalled();
  await popplerIfPossible();

  heading("Types and lint");
  const steps = (await runChecks(CHECKS)).map((check) => ({ ...check, passed: 0, failed: check.ok ? 0 : 1, skipped: 0 }));
  steps.push(await tests("node", chromium));
  const build = await built();
  steps.push(build);
  steps.push(await tests("browser", chromium));
  // Never through an older build: a walk that was not taken has failed.
  steps.push(build.ok ? await tests("walks", chromium) : { ...build, name: "tests, walks", seconds: 0 });
  return summary(steps);
}

/** @returns {Promise<string>} an executable */
async function chromiumOrInstalled() {
  const found = findChromium();
  if (found) return found;
  if (process.env.CHROMIUM) throw new Error(`There is no program at $CHROMIUM (${process.env.CHROMIUM}).`);
  const output = await installedByApt("chromium", "Chromium");
  const installed = findChromium();
  if (installed) return installed;
  if (output !== null) console.error(output);
  throw new Error("The tests need Chromium: install the package chromium, or set CHROMIUM to the path of Chromium or Chrome.");
}

/** What reads PDF files from outside. Where it cannot be had, those tests are skipped and say so. */
async function popplerIfPossible() {
  if (hasPoppler()) return;
  await installedByApt("poppler-utils", "poppler-utils");
  if (!hasPoppler()) console.log("The package poppler-utils is not there; what it would read in PDF files is not tested.");
}

/**
 * Installs a package where this is possible: on Debian and its kin, as root.
 * @param {string} name
 * @param {string} shown
 * @returns {Promise<string | null>} what the installer said; null where there is none
 */
async function installedByApt(name, shown) {
  if (process.getuid?.() !== 0 || (await run("apt-get", ["--version"], { quiet: true })).code !== 0) return null;
  console.log(`Installing ${shown} …`);
  await run("apt-get", ["update", "-qq"], { quiet: true });
  const environment = { DEBIAN_FRONTEND: "noninteractive" };
  return (await run("apt-get", ["install", "-y", "-qq", "--no-install-recommends", name], { quiet: true, environment })).output;
}

/**
 * @param {"node" | "browser" | "walks"} project
 * @param {string} chromium
 * @returns {Promise<Step>}
 */
async function tests(project, chromium) {
  heading({ node: "Tests in Node", browser: "Tests in Chromium", walks: "Walks through the built app" }[project]);
  const folder = mkdtempSync(join(tmpdir(), "ninefold-"));
  const report = join(folder, "report.json");
  const { code, seconds } = await runTool(
    "vitest/vitest.mjs",
    ["run", "--project", project, "--reporter=default", "--reporter=json", `--outputFile.json=${report}`],
    { environment: { CHROMIUM: chromium, NODE_ENV: "test" } },
  );
  const counts = existsSync(report) ? countsOf(JSON.parse(readFileSync(report, "utf8"))) : { passed: 0, failed: 0, skipped: 0 };
  rmSync(folder, { recursive: true });
  // A file that does not load, or an error outside any test, has no test to count: it counts as one.
  if (code !== 0 && counts.failed === 0) counts.failed = 1;
  if (code === 0 && counts.passed === 0) {
    console.error("No test ran.");
    counts.failed = 1;
  }
  return { name: `tests, ${project}`, ok: counts.failed === 0, ...counts, seconds };
}

/**
 * @param {{ numPassedTests: number, numFailedTests: number, numPendingTests: number, numTodoTests: number }} report
 */
function countsOf(report) {
  return { passed: report.numPassedTests, failed: report.numFailedTests, skipped: report.numPendingTests + report.numTodoTests };
}

/** @returns {Promise<Step>} */
async function built() {
  heading("Build");
  const result = await buildIfChanged();
  const ok = result === null || result.code === 0;
  if (result) console.log(ok ? "ok" : result.output);
  else console.log("unchanged");
  return { name: "build", ok, passed: 0, failed: ok ? 0 : 1, skipped: 0, seconds: result?.seconds ?? 0 };
}

/**
 * @param {readonly Step[]} steps
 * @returns {boolean}
 */
function summary(steps) {
  heading("Summary");
  for (const { name, ok, passed, failed, skipped, seconds } of steps) {
    const counts = name.startsWith("tests") ? `${passed} passed, ${failed} failed${skipped ? `, ${skipped} skipped` : ""}` : "";
    console.log(`${ok ? "ok    " : "FAILED"} ${name.padEnd(16)} ${seconds.toFixed(1).padStart(6)} s   ${counts}`);
  }
  const total = (/** @type {"passed" | "failed" | "skipped"} */ key) => steps.reduce((sum, step) => sum + step[key], 0);
  const tally = { passed: total("passed"), failed: total("failed"), skipped: total("skipped") };
  const seconds = steps.reduce((sum, step) => sum + step.seconds, 0);
  console.log(
    `\n${tally.passed} passed, ${tally.failed} failed${tally.skipped ? `, ${tally.skipped} skipped` : ""} in ${seconds.toFixed(0)} s`,
  );
  if (process.env.NINEFOLD_TALLY) writeFileSync(process.env.NINEFOLD_TALLY, JSON.stringify(tally));
  return tally.failed === 0;
}

/** @param {string} text */
function heading(text) {
  console.log(`\n── ${text}`);
}
