import { createRequire } from "node:module";
import { dirname, join } from "node:path";

const require = createRequire(import.meta.url);

/** @param {string} path a file inside an installed package; found through the package's own folder, since `exports` may hide it */
export function packaged(path) {
  const [scope, name, ...rest] = path.split("/");
  return join(dirname(require.resolve(`${scope}/${name}/package.json`)), ...rest);
}

/**
 * Whole numbers in a row.
 * @param {number} first
 * @param {number} last included
 */
export function range(first, last) {
  return Array.from({ length: last - first + 1 }, (_, index) => first + index);
}

/**
 * What the font reader takes: bytes in a buffer of their own.
 * @param {Uint8Array} bytes
 * @returns {ArrayBuffer}
 */
export function bytesOf(bytes) {
  return /** @type {ArrayBuffer} */ (bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
}
