import { mkdir, rename, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { ReadError } from "../units/read-error.ts";
import { troubleWith } from "./file-trouble.ts";

/** A file to be written: its name in the folder, and what goes into it. */
export interface FileToWrite {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/**
 * Writes files into a folder, which is made where it is missing. All are written beside their places first and then moved there, so that
 * no file is ever half there, and a fault on the way leaves what was there before.
 * @param folder absolute
 * @param shown the folder as the user typed it
 * @returns the absolute path of each file, in the order given.
 * @throws ReadError when the folder cannot be written.
 */
export async function writeFiles(folder: string, shown: string, files: readonly FileToWrite[]): Promise<readonly string[]> {
  const moves = files.map(({ name, content }) => ({
    content,
    temporary: join(folder, `.${process.pid}-${name}`),
    place: join(folder, name),
  }));
  try {
    await mkdir(folder, { recursive: true });
    for (const { place } of moves) await refuseFolder(place);
    for (const { temporary, content } of moves) await writeFile(temporary, content);
    for (const { temporary, place } of moves) await rename(temporary, place);
    return moves.map(({ place }) => place);
  } catch (error) {
    if (error instanceof ReadError) throw error;
    throw new ReadError({ where: shown, expected: "a folder to write into", found: troubleWith(error) });
  } finally {
    await Promise.all(moves.map(({ temporary }) => rm(temporary, { force: true }).catch(() => undefined)));
  }
}

/** A folder where a file is to go would stop the last step half-way. */
async function refuseFolder(place: string): Promise<void> {
  const found = await stat(place).catch(() => null);
  if (found?.isDirectory()) throw new ReadError({ where: place, expected: "a file to write", found: "a folder" });
}
