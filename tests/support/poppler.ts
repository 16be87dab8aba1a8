import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A page as grey pixels, row by row from the top, 0 black to 255 white. */
export interface GreyPage {
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint8Array;
}

/** One font of a PDF file, as pdffonts tells of it. */
export interface ListedFont {
  readonly name: string;
  readonly embedded: boolean;
  readonly subset: boolean;
  /** Whether letters can be told from the file's codes. */
  readonly unicode: boolean;
}

/** All fonts of a PDF file. */
export function fontsOfPdf(bytes: Uint8Array): readonly ListedFont[] {
  const [, rule = "", ...rows] = withFile(bytes, (file) => execFileSync("pdffonts", [file], { encoding: "utf8" }))
    .trimEnd()
    .split("\n");
  const columns = [...rule.matchAll(/-+/g)].map(({ index, 0: { length } }) => [index, index + length] as const);
  return rows.map((row) => {
    const cells = columns.map(([from, to]) => row.slice(from, to).trim());
    const [name = "", , , embedded, subset, unicode] = cells;
    return { name, embedded: embedded === "yes", subset: subset === "yes", unicode: unicode === "yes" };
  });
}

/** What a PDF file says of itself, by name. */
export function factsOfPdf(bytes: Uint8Array): ReadonlyMap<string, string> {
  const text = withFile(bytes, (file) => execFileSync("pdfinfo", [file], { encoding: "utf8" }));
  return new Map(
    text
      .split("\n")
      .filter((row) => row.includes(":"))
      .map(pair),
  );
}

/** All words of a PDF file, as someone who copies them gets them. */
export function wordsOfPdf(bytes: Uint8Array): string {
  return withFile(bytes, (file) => execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" }));
}

/** One page of a PDF file, the first being 1, at so many dots to the inch. */
export function pageOfPdf(bytes: Uint8Array, page: number, dots: number): GreyPage {
  const words = ["-r", String(dots), "-f", String(page), "-l", String(page), "-gray", "-singlefile"];
  const picture = withFile(bytes, (file) => {
    execFileSync("pdftoppm", [...words, file, file]);
    return readFileSync(`${file}.pgm`);
  });
  // P5, width, height, 255, one space, then the pixels.
  const [head, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(picture.toString("latin1", 0, 64)) ?? [];
  if (head === undefined) throw new RangeError("pdftoppm wrote no grey picture");
  return { width: Number(width), height: Number(height), pixels: new Uint8Array(picture.subarray(head.length)) };
}

function pair(row: string): readonly [string, string] {
  const colon = row.indexOf(":");
  return [row.slice(0, colon), row.slice(colon + 1).trim()];
}

function withFile<Result>(bytes: Uint8Array, use: (file: string) => Result): Result {
  const folder = mkdtempSync(join(tmpdir(), "ninefold-pdf-"));
  try {
    const file = join(folder, "part.pdf");
    writeFileSync(file, bytes);
    return use(file);
  } finally {
    rmSync(folder, { recursive: true });
  }
}
