import type { Key, Mode } from "../pitch/key.ts";
import { MODES, pitchClassAtFifths, scalePitchClasses } from "../pitch/key-signature.ts";
import type { Song, SongMode, SongNote } from "../song/song.ts";
import { songTonic } from "../song/song-key-name.ts";
import { keyWithFewestAccidentals } from "./rank-key.ts";

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

/**
 * The major key that a tune of an unnamed key is likely in: the one whose scale holds most of its time; among equals the one it ends on,
 * then the first up from C.
 */
export function likelyKey(notes: readonly SongNote[]): Key {
  const last = (notes.at(-1)?.semitone ?? 0) % 12;
  const keys = Array.from({ length: 12 }, (_, tonic) => keyWithFewestAccidentals(tonic, "major"));
  const weights = keys.map((key, tonic) => {
    const scale = scalePitchClasses(key);
    const held = notes.reduce((sum, { semitone, duration }) => sum + (scale.includes(semitone % 12) ? duration : 0), 0);
    return { key, held, ends: tonic === last ? 1 : 0 };
  });
  return weights.reduce((best, one) => (one.held > best.held || (one.held === best.held && one.ends > best.ends) ? one : best)).key;
}
