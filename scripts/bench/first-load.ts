import { existsSync, statSync } from "node:fs";
import { join } from "node:path";
import { openBuiltApp, openSketch } from "../../tests/support/built-app.ts";
import { bytesAsSent } from "../../tests/support/bytes-as-sent.ts";
import { BUILT } from "../build.mjs";
import type { Row } from "./table.ts";

/** What a first visit fetches until the grid and the parts can be worked with: as sent (brotli), and in gzip for servers that have no more. */
export async function firstLoad(): Promise<Row[]> {
  const app = await openBuiltApp();
  try {
    const user = await app.newUser({ serviceWorkers: "block" });
    const page = await user.newPage();
    const files = await bytesAsSent(page, () => openSketch(page, app.address));
    const sent = files.reduce((sum, { bytes }) => sum + bytes, 0);
    const gzip = files.reduce((sum, { path }) => sum + gzipBytes(path), 0);
    return [
      { what: `first load, ${files.length} files, fonts and headers included, as sent`, value: kilobytes(sent), goal: "250 kB" },
      { what: "the same files in gzip, without headers", value: kilobytes(gzip) },
    ];
  } finally {
    await app.close();
  }
}

function gzipBytes(path: string): number {
  const file = join(BUILT, path === "/" ? "index.html" : path);
  return statSync(existsSync(`${file}.gz`) ? `${file}.gz` : file).size;
}

function kilobytes(bytes: number): string {
  return `${(bytes / 1000).toFixed(1)} kB`;
}
