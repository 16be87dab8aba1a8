// @ts-check
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join, relative } from "node:path";

/** Everything that the built app is made from. */
const SOURCES = [
  "index.html",
  "vite.config.ts",
  "package-lock.json",
  "tsconfig.base.json",
  "tsconfig.json",
  "src",
  "components",
  "examples",
  "public",
  "scripts/build-plugins.mjs",
  "scripts/lean-vexflow.mjs",
  "scripts/security-headers.mjs",
];

/** Where a build notes what it was made from; a dot file, so it is never served. */
export const STAMP_FILE = ".made-from";

/**
 * One hash over the names and contents of all sources. Contents rather than times: a fresh clone, a switched branch and a touched
 * file all give the right answer, and it takes some 30 ms.
 * @param {string} root the project's folder
 */
export function sourcesStamp(root) {
  const hash = createHash("sha256");
  for (const source of SOURCES) {
    for (const file of filesUnder(join(root, source))) {
      hash.update(relative(root, file)).update("\0").update(readFileSync(file)).update("\0");
    }
  }
  return hash.digest("hex");
}

/**
 * @param {string} path a file or a folder; may be missing
 * @returns {string[]} sorted, so that the order on disk does not matter
 */
function filesUnder(path) {
  if (!existsSync(path)) return [];
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path)
    .sort()
    .flatMap((name) => filesUnder(join(path, name)));
}
