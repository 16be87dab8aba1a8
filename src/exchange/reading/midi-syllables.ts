import type { SongSyllable } from "../../song/song.ts";
import { decodedText } from "./decoded-text.ts";
import type { LeftOutLedger } from "./left-out-ledger.ts";
import type { MidiTrack } from "./midi-events.ts";

/** Syllables of one line by the tick of the note they are sung on. */
export type SungAt = ReadonlyMap<number, readonly SongSyllable[]>;

const TEXT = 1;
const LYRIC = 5;

/**
 * The words of a file: lyric events, or, where there are none, the text events that sing-along files use (`\` and `/` begin lines, `@`
 * begins what is no word). They go to the line on whose notes most of them fall; what falls on none of them is told to the ledger.
 * @param groups notes of each line, by the line's id
 */
export function midiSyllables(
  tracks: readonly MidiTrack[],
  groups: ReadonlyMap<string, readonly { readonly from: number }[]>,
  ledger: LeftOutLedger,
): ReadonlyMap<string, SungAt> {
  const pieces = piecesOf(tracks, LYRIC);
  const texts = pieces.length > 0 ? pieces : piecesOf(tracks, TEXT);
  // One or two texts are remarks, not a song's words.
  if (texts.length < 3) return new Map();
  const onsets = [...groups].map(([id, notes]) => ({ id, ticks: new Set(notes.map(({ from }) => from)) }));
  const hits = onsets.map(({ ticks }) => texts.filter(({ tick }) => ticks.has(tick)).length);
  const most = Math.max(...hits, 0);
  const best = onsets[hits.indexOf(most)];
  if (!best || most < texts.length / 2) {
    for (const { text } of texts) ledger.add("words", null, null, text);
    return new Map();
  }
  const sung = new Map<number, readonly SongSyllable[]>();
  for (const [index, { tick, text }] of texts.entries()) {
    if (!best.ticks.has(tick) || sung.has(tick)) {
      ledger.add("words", best.id, null, text);
      continue;
    }
    const next = texts[index + 1]?.text ?? " ";
    const goesOn = /-$/.test(text) || (!/\s$/.test(text) && !/^[\s\\/]/.test(next));
    sung.set(tick, [
      {
        verse: 1,
        text: text
          .replace(/^[\\/]/, "")
          .replace(/-$/, "")
          .trim(),
        goesOn,
      },
    ]);
  }
  return new Map([[best.id, sung]]);
}

function piecesOf(tracks: readonly MidiTrack[], type: number): readonly { readonly tick: number; readonly text: string }[] {
  return tracks
    .flatMap(({ events }) => events)
    .flatMap((event) => {
      if (event.kind !== "text" || event.type !== type) return [];
      const text = decodedText(event.bytes.filter((byte) => byte !== 0));
      return text.startsWith("@") || text.replace(/^[\\/]/, "").trim() === "" ? [] : [{ tick: event.tick, text }];
    })
    .sort((a, b) => a.tick - b.tick);
}
