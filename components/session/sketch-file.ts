import { plainFileName } from "../../src/exchange/file-names.ts";
import { savedFormOf, scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Score } from "../../src/score/score.ts";

/** What sketch files end with. */
export const SKETCH_EXTENSION = ".ninefold.json";

/** A larger file is no sketch: 1,000 bars of eight lines stay under 10 MB. */
const LARGEST_FILE = 32 * 1024 * 1024;

/** The file name for a title: it reads well on every system, and `rest` stands after it as it is. */
export function fileNameOf(title: string, rest: string): string {
  return `${plainFileName(title)}${rest}`;
}

/** Hands a file to the browser's own saving. */
export function handOutFile(name: string, content: BlobPart, type: string): void {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // The browser has taken hold of the blob once the click has been handled; a minute leaves room for slow dialogs.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Saves a sketch to a file of the user's. */
export function saveSketchFile(score: Score): void {
  handOutFile(fileNameOf(score.title, SKETCH_EXTENSION), savedFormOf(score), "application/json");
}

/**
 * Reads a sketch from a file.
 * @throws ReadError when it is no sketch, or a newer one; the message says where, what was expected and what was found.
 */
export async function readSketchFile(file: File): Promise<Score> {
  if (file.size > LARGEST_FILE)
    throw new RangeError(`${file.name} has ${Math.round(file.size / 1024 / 1024)} MB; a sketch has 32 at most.`);
  return scoreFromSavedForm(await file.text());
}
