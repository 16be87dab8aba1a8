// @ts-check
import { spawn } from "node:child_process";
import { join } from "node:path";

/** The project's folder, wherever a script was called from. */
export const ROOT = join(import.meta.dirname, "..");

/**
 * @typedef {object} Ended
 * @property {number} code exit status; 1 where a signal ended it
 * @property {string} output both streams, in the order they came
 * @property {number} seconds
 */

/**
 * Runs a program in the project's folder.
 * @param {string} program
 * @param {readonly string[]} argumentList
 * @param {{ quiet?: boolean, environment?: Record<string, string> }} [options] quiet: nothing on the screen, only in `output`
 * @returns {Promise<Ended>} never rejects; a program that cannot be started has ended with 1
 */
export function run(program, argumentList, { quiet = false, environment = {} } = {}) {
  const began = performance.now();
  return new Promise((resolve) => {
    const child = spawn(program, argumentList, {
      cwd: ROOT,
      env: { ...process.env, ...environment },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let output = "";
    for (const [from, to] of /** @type {const} */ ([
      [child.stdout, process.stdout],
      [child.stderr, process.stderr],
    ])) {
      from.on("data", (chunk) => {
        output += chunk;
        if (!quiet) to.write(chunk);
      });
    }
    child.on("error", (error) => resolve({ code: 1, output: error.message, seconds: secondsSince(began) }));
    child.on("close", (code) => resolve({ code: code ?? 1, output, seconds: secondsSince(began) }));
  });
}

/**
 * Runs a tool that came with the packages, on this very Node.
 * @param {string} file its script under node_modules
 * @param {readonly string[]} argumentList
 * @param {Parameters<typeof run>[2]} [options]
 */
export function runTool(file, argumentList, options) {
  return run(process.execPath, [join(ROOT, "node_modules", file), ...argumentList], options);
}

/** @param {number} began */
function secondsSince(began) {
  return (performance.now() - began) / 1000;
}
