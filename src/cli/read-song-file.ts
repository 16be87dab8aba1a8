import { readFile } from "node:fs/promises";
import { type SongWishes, songFromBytes } from "../exchange/reading/read-song.ts";
import type { Song } from "../song/song.ts";
import { ReadError } from "../units/read-error.ts";
import { troubleWith } from "./file-trouble.ts";

/**
 * Reads a song from a file.
 * @param path absolute
 * @param shown the path as the user typed it
 * @throws ReadError when there is no such file, or it cannot be read; its place begins with the path.
 */
export async function readSongFile(path: string, shown: string, wishes: SongWishes): Promise<Song> {
  const bytes = await readFile(path).catch((error: unknown) => {
    throw new ReadError({ where: shown, expected: "a song: MusicXML, MIDI or ABC", found: troubleWith(error) });
  });
  return songFromBytes(bytes, shown, wishes);
}
