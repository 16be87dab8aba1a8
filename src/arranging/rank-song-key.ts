import type { Key, Mode } from "../pitch/key.ts";
import { MODES, pitchClassAtFifths } from "../pitch/key-signature.ts";
import type { Song, SongMode } from "../song/song.ts";
import { songTonic } from "../song/song-key-name.ts";

/** The key a song begins in, at concert pitch; null where its file says nothing. A mode the pipes have no name for becomes the major of its signature. */
export function songKey({ keys }: Song): Key | null {
  const first = keys[0];
  if (!first) return null;
  if (isPipeMode(first.mode)) return { tonic: songTonic(first), mode: first.mode };
  return { tonic: pitchClassAtFifths(first.fifths), mode: "major" };
}

function isPipeMode(mode: SongMode): mode is Mode {
  return (MODES as readonly string[]).includes(mode);
}
