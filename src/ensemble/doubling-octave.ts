import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { semitoneOf } from "../pitch/semitone.ts";
import type { Player, PlayerId } from "./player.ts";

/** Brass and saxophones double the pipes an octave below unless asked: beside a Highland chanter a unison is the very top of them (common practice). */
const AN_OCTAVE_BELOW: ReadonlySet<PlayerId> = new Set([
  "soprano-sax",
  "alto-sax",
  "tenor-sax",
  "baritone-sax",
  "trumpet-bb",
  "cornet-bb",
  "flugelhorn-bb",
  "tenor-horn-eb",
  "horn-f",
]);

/**
 * In which octave a player doubles the pipes to begin with: 0 with them, -1 an octave below. The nearest octave that keeps
 * all nine notes inside the player's range; where none does, the one that leaves the fewest semitones outside.
 * @param lowest what the pipes' low G sounds
 * @param highest what their high A sounds
 */
export function doublingOctave(player: Player, lowest: ConcertPitch, highest: ConcertPitch): number {
  const first = AN_OCTAVE_BELOW.has(player.id) ? -1 : 0;
  const candidates = [first, first - 1, first + 1, first - 2, first - 3];
  const outside = (octaves: number): number => {
    const above = semitoneOf(highest) + 12 * octaves - semitoneOf(player.range.highest);
    const below = semitoneOf(player.range.lowest) - (semitoneOf(lowest) + 12 * octaves);
    return Math.max(0, above) + Math.max(0, below);
  };
  return candidates.reduce((best, octaves) => (outside(octaves) < outside(best) ? octaves : best));
}
