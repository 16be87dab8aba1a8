import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { savedFormOf } from "../../src/score/saved-form.ts";
import { visit } from "../../tests/support/app-page.ts";
import { openBuiltApp } from "../../tests/support/built-app.ts";
import { ROOT, run } from "../run.mjs";
import { benchScore } from "./bench-score.ts";
import { median, milliseconds } from "./statistics.ts";
import type { Row } from "./table.ts";

/** Fills four pages of A4 with pipe music. */
const BARS = 140;
const RUNS = 5;

/** A part as PDF: from the press to the file, in Chromium, the first time and again; by the command line; and how large it is. */
export async function paper(): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), "ninefold-bench-"));
  try {
    const sketch = join(folder, "bench.ninefold.json");
    writeFileSync(sketch, savedFormOf(benchScore(BARS)));
    const { cold, warm, file } = await inTheBrowser(sketch);
    const pages = [...file.toString("latin1").matchAll(/\/Type \/Page\n/g)].length;
    const command = await byCommand(sketch, folder);
    return [
      { what: `pipe part of ${BARS} bars as PDF, ${pages} pages, from press to file, the first time`, value: milliseconds(cold) },
      { what: `the same again (median of ${RUNS})`, value: milliseconds(warm) },
      { what: "the same by `parts --as pdf`, cold, engraving included, without npm", value: milliseconds(command) },
      { what: "size of the file", value: `${(file.length / 1000).toFixed(1)} kB` },
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function inTheBrowser(sketch: string): Promise<{ readonly cold: number; readonly warm: number; readonly file: Buffer }> {
  const app = await openBuiltApp();
  try {
    const user = await app.newUser({ serviceWorkers: "block", locale: "en-GB" });
    const hand = await visit(user, app.address);
    await hand.openFile(sketch);
    await hand.page.getByRole("button", { name: "Hand over" }).click();
    await hand.page.locator("print-pages svg").nth(1).waitFor();
    const press = async (): Promise<{ readonly took: number; readonly file: Buffer }> => {
      const download = hand.page.waitForEvent("download");
      const began = performance.now();
      await hand.page.getByRole("button", { name: "Part as PDF" }).click();
      const handed = await download;
      return { took: performance.now() - began, file: readFileSync(await handed.path()) };
    };
    const first = await press();
    const times: number[] = [];
    for (let index = 0; index < RUNS; index += 1) times.push((await press()).took);
    return { cold: first.took, warm: median(times), file: first.file };
  } finally {
    await app.close();
  }
}

async function byCommand(sketch: string, folder: string): Promise<number> {
  const words = [join(ROOT, "scripts/ninefold.mjs"), "parts", sketch, "--out", folder, "--players", "pipes", "--as", "pdf"];
  const times: number[] = [];
  for (let index = 0; index <= RUNS; index += 1) {
    const { code, output, seconds } = await run(process.execPath, words, { quiet: true });
    if (code !== 0) throw new Error(output);
    times.push(seconds * 1000);
  }
  // The first run may have bundled the command.
  return median(times.slice(1));
}
