import type { Song, SongBar, SongMeter } from "../../song/song.ts";
import { songTicks } from "../../song/song-ticks.ts";
import { wholeBar } from "./numbered-bars.ts";
import { barAt } from "./song-from-draft.ts";

/**
 * A song with equal bars of a meter laid over it from its start, whatever bars it had. Repeats stay where they begin or end with a bar;
 * the last bar is filled up.
 */
export function barredAs(song: Song, meter: SongMeter): Song {
  const length = wholeBar(meter);
  const last = song.bars.at(-1) as SongBar;
  const count = Math.max(1, Math.ceil((last.onset + last.length) / length));
  const from = new Set(song.bars.flatMap(({ repeatFrom, onset }) => (repeatFrom ? [onset as number] : [])));
  const times = new Map(song.bars.map((bar) => [bar.onset + bar.length, bar.repeatTimes]));
  const bars = Array.from(
    { length: count },
    (_, index): SongBar => ({
      number: index + 1,
      onset: songTicks(index * length),
      length: songTicks(length),
      meter,
      pickup: false,
      repeatFrom: from.has(index * length),
      repeatTimes: times.get((index + 1) * length) ?? 0,
      endings: [],
    }),
  );
  const lines = song.lines.map((line) => ({ ...line, notes: line.notes.map((note) => ({ ...note, bar: barAt(bars, note.onset) })) }));
  return { ...song, bars, lines };
}
