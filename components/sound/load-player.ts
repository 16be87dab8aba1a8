import type { Blend } from "../../src/playback/blend.ts";
import type { Score } from "../../src/score/score.ts";
import type { Player, PlayerNews } from "./player.ts";

/**
 * Fetches everything that makes sound and builds a player. Call it inside an act of the user; it is not needed, and not loaded, before.
 * @throws what the browser says when the files cannot be fetched
 */
export async function loadPlayer(score: Score, blend: Blend, news: PlayerNews): Promise<Player> {
  // Tone writes its name to the console unless it is told not to before it is loaded.
  (globalThis as { TONE_SILENCE_LOGGING?: boolean }).TONE_SILENCE_LOGGING = true;
  const { Player } = await import("./player.ts");
  return new Player(score, blend, news);
}
