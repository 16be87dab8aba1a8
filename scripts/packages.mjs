// @ts-check
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { ROOT, run } from "./run.mjs";

/**
 * Installs the packages of the lock file if they are missing or not those.
 * @throws {Error} with one line to show, where npm could not
 */
export async function installMissingPackages() {
  if (packagesAreThoseOfTheLock(ROOT)) return;
  console.log("Installing packages …");
  // NODE_ENV=production would leave out what builds and tests.
  const argumentList = ["ci", "--include=dev", "--no-audit", "--no-fund"];
  const npm = process.env.npm_execpath;
  const { code } = npm?.endsWith(".js")
    ? await run(process.execPath, [npm, ...argumentList])
    : await run(process.platform === "win32" ? "npm.cmd" : "npm", argumentList);
  if (code !== 0) throw new Error("The packages could not be installed; npm says why above.");
}

/**
 * npm keeps its own account of what it installed in node_modules/.package-lock.json and writes it last, so a half-finished
 * installation has none. Packages that belong to another system only may be missing.
 * @param {string} root the project's folder
 */
export function packagesAreThoseOfTheLock(root) {
  const account = join(root, "node_modules/.package-lock.json");
  if (!existsSync(account)) return false;
  const wanted = packagesIn(join(root, "package-lock.json"));
  const installed = packagesIn(account);
  for (const [path, { version, optional }] of wanted) {
    const there = installed.get(path);
    if (there ? there.version !== version : !optional) return false;
  }
  return true;
}

/**
 * @param {string} file a lock file of npm, version 3
 * @returns {Map<string, { version?: string, optional?: boolean }>} by path; without the project itself
 */
function packagesIn(file) {
  const { packages } = JSON.parse(readFileSync(file, "utf8"));
  return new Map(Object.entries(packages).filter(([path]) => path !== ""));
}
