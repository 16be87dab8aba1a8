import { readFile } from "node:fs/promises";
import { LaterVersionError, scoreFromSavedForm } from "../score/saved-form.ts";
import type { Score } from "../score/score.ts";
import { ReadError } from "../units/read-error.ts";
import { troubleWith } from "./file-trouble.ts";

/**
 * Reads a sketch from a file.
 * @param path absolute
 * @param shown the path as the user typed it
 * @throws ReadError when there is no such file, or it is no sketch; its place begins with the path.
 */
export async function readSketch(path: string, shown: string): Promise<Score> {
  const text = await readFile(path, "utf8").catch((error: unknown) => {
    throw new ReadError({ where: shown, expected: "a saved sketch", found: troubleWith(error) });
  });
  try {
    return scoreFromSavedForm(text);
  } catch (error) {
    if (!(error instanceof ReadError)) throw error;
    if (error instanceof LaterVersionError) {
      // Its own sentence says more than place, expectation and finding would.
      error.message = `${shown}: ${error.message}`;
      throw error;
    }
    const { expected, found } = error;
    throw new ReadError({ where: error.where === "file" ? shown : `${shown}, ${error.where}`, expected, found });
  }
}
