import type { Key } from "../../pitch/key.ts";
import { pitchClassAtFifths } from "../../pitch/key-signature.ts";
import { spelledInKey } from "../../pitch/spelled-in-key.ts";
import type { Song, SongKey, SongMeter, SongSyllable } from "../../song/song.ts";
import { SONG_TICKS_PER_QUARTER, songTicks } from "../../song/song-ticks.ts";
import { bpm } from "../../units/bpm.ts";
import { ReadError } from "../../units/read-error.ts";
import { decodedText } from "./decoded-text.ts";
import type { DraftedNote } from "./drafted-note.ts";
import { LeftOutLedger } from "./left-out-ledger.ts";
import { type MidiEvent, type MidiTracks, midiTracks } from "./midi-events.ts";
import { midiSyllables } from "./midi-syllables.ts";
import { type DraftedBar, numberedBars, wholeBar } from "./numbered-bars.ts";
import { type Quantiser, quantiser } from "./quantise.ts";
import { MOST_BARS, MOST_NOTES, MOST_QUARTERS } from "./reading-limits.ts";
import { barAt, type DraftedLine, songFromDraft } from "./song-from-draft.ts";

/** The channel of drums, from 0. */
const DRUMS = 9;

/** Gaps up to this many quarters before the next note are how it was played, not a rest. */
const LONGEST_GAP = 0.26;

/** A note as the file has it, in its ticks. */
export interface PlayedNote {
  readonly track: number;
  readonly channel: number;
  readonly key: number;
  readonly from: number;
  readonly to: number;
}

/**
 * Reads a Standard MIDI File. Each channel of each track becomes a line; times are put on a grid, and the song says how far they moved.
 * @throws ReadError with the byte in the file
 */
export function readMidi(bytes: Uint8Array): Song {
  const file = midiTracks(bytes);
  if (file.format === 2) throw new ReadError({ where: "byte 8", expected: "format 0 or 1: one song", found: "format 2: several patterns" });
  const ledger = new LeftOutLedger();
  const played = file.tracks.flatMap(({ events, end }, track) => playedNotes(events, track, end));
  const end = played.reduce((latest, { to }) => Math.max(latest, to), 0) / file.ticksPerQuarter;
  if (played.length > MOST_NOTES)
    throw new ReadError({ where: "file", expected: `at most ${MOST_NOTES} notes`, found: `${played.length}` });
  if (end > MOST_QUARTERS)
    throw new ReadError({ where: "file", expected: `at most ${MOST_QUARTERS} quarters`, found: `${Math.round(end)}` });
  const grid = quantiser(
    played.flatMap(({ from, channel }) => (channel === DRUMS ? [] : [from])),
    file.ticksPerQuarter,
  );
  const exactly = (tick: number) => songTicks(Math.round((tick / file.ticksPerQuarter) * SONG_TICKS_PER_QUARTER));
  const all = file.tracks.flatMap(({ events }) => events).sort((a, b) => a.tick - b.tick);
  const bars = numberedBars(barsOf(all, exactly, Math.ceil(end * SONG_TICKS_PER_QUARTER)));
  const keys = all.flatMap((event): SongKey[] =>
    event.kind === "key"
      ? [{ onset: exactly(event.tick), fifths: event.fifths, mode: event.minor ? "minor" : "major", modeStated: true }]
      : [],
  );
  const placed = played.filter(({ channel }) => channel !== DRUMS);
  for (const { channel, from } of played) if (channel === DRUMS) ledger.add("percussion", null, barAt(bars, exactly(from)));
  for (const event of all) if (event.kind === "bend" && event.value !== 0) ledger.add("bends", null, barAt(bars, exactly(event.tick)));
  return songFromDraft({
    format: "midi",
    title: titleOf(file),
    composer: "",
    bars,
    tempos: all.flatMap((event) =>
      event.kind === "tempo" && event.microseconds > 0
        ? [{ onset: exactly(event.tick), quarters: bpm(60_000_000 / event.microseconds) }]
        : [],
    ),
    keys,
    chords: [],
    lines: linesOf(file, placed, grid, keys, ledger),
    ledger,
    quantising: grid.report,
  });
}

/** Notes from their beginnings and ends; the first to begin is the first to end, and what is never ended ends with its track. */
function playedNotes(events: readonly MidiEvent[], track: number, end: number): readonly PlayedNote[] {
  const sounding = new Map<number, number[]>();
  const notes: PlayedNote[] = [];
  for (const event of events) {
    if (event.kind !== "note-on" && event.kind !== "note-off") continue;
    const { channel, key, tick } = event;
    const begun = sounding.get(channel * 128 + key) ?? [];
    sounding.set(channel * 128 + key, begun);
    if (event.kind === "note-on") {
      begun.push(tick);
      continue;
    }
    const from = begun.shift();
    if (from !== undefined) notes.push({ track, channel, key, from, to: tick });
  }
  for (const [id, begun] of sounding) {
    for (const from of begun) notes.push({ track, channel: Math.floor(id / 128), key: id % 128, from, to: Math.max(end, from + 1) });
  }
  return notes.sort((a, b) => a.from - b.from || a.key - b.key);
}

/** Bars of the meters in force, from the start to the last note; 4/4 until the file says another, as the specification has it. */
function barsOf(events: readonly MidiEvent[], exactly: (tick: number) => number, end: number): readonly DraftedBar[] {
  const changes = events.flatMap((event) =>
    event.kind === "meter" ? [{ at: exactly(event.tick), meter: { beats: event.beats, unit: event.unit } satisfies SongMeter }] : [],
  );
  const bars: DraftedBar[] = [];
  let meter: SongMeter = { beats: 4, unit: 4 };
  let at = 0;
  while (at < end || bars.length === 0) {
    while (changes[0] && changes[0].at <= at) meter = changes.shift()?.meter ?? meter;
    // A change within a bar cuts it short.
    const next = Math.min(at + wholeBar(meter), changes[0]?.at ?? Number.POSITIVE_INFINITY);
    bars.push({ content: next - at, meter, repeatFrom: false, repeatTimes: 0, endings: [], number: null });
    at = next;
    if (bars.length > MOST_BARS) throw new ReadError({ where: "file", expected: `at most ${MOST_BARS} bars`, found: "more" });
  }
  return bars;
}

/** The name of the first track in a file of several, or of the only one. */
function titleOf({ tracks }: MidiTracks): string {
  return trackText(tracks[0]?.events ?? [], 3);
}

function trackText(events: readonly MidiEvent[], type: number): string {
  const text = events.find((event) => event.kind === "text" && event.type === type);
  return text?.kind === "text" ? decodedText(text.bytes.filter((byte) => byte !== 0)).trim() : "";
}

function linesOf(
  file: MidiTracks,
  played: readonly PlayedNote[],
  grid: Quantiser,
  keys: readonly SongKey[],
  ledger: LeftOutLedger,
): readonly DraftedLine[] {
  const groups = new Map<string, PlayedNote[]>();
  for (const note of played) {
    const id = `${note.track}/${note.channel}`;
    const group = groups.get(id);
    if (group) group.push(note);
    else groups.set(id, [note]);
  }
  const channels = new Map<number, number>();
  for (const id of groups.keys()) channels.set(Number.parseInt(id, 10), (channels.get(Number.parseInt(id, 10)) ?? 0) + 1);
  const sung = midiSyllables(file.tracks, groups, ledger);
  return [...groups].map(([id, notes]) => {
    const { track, channel } = notes[0] as PlayedNote;
    const events = file.tracks[track]?.events ?? [];
    const own = trackText(events, 3) || trackText(events, 4);
    const several = (channels.get(track) ?? 0) > 1;
    const name = own === "" || several ? `${own || `Track ${track + 1}`}, channel ${channel + 1}` : own;
    return { id, name, notes: draftedNotes(notes, grid, keys, sung.get(id) ?? new Map()) };
  });
}

function draftedNotes(
  notes: readonly PlayedNote[],
  grid: Quantiser,
  keys: readonly SongKey[],
  sung: ReadonlyMap<number, readonly SongSyllable[]>,
): readonly DraftedNote[] {
  const onsets = [...new Set(notes.map(({ from }) => grid.snapped(from)))].sort((a, b) => a - b);
  const nextOnset = new Map(onsets.map((onset, index) => [onset, onsets[index + 1] ?? Number.POSITIVE_INFINITY]));
  const met = new Set<number>();
  return notes.map(({ from, to, key }) => {
    const onset = grid.snapped(from);
    const syllables = met.has(from) ? [] : (sung.get(from) ?? []);
    met.add(from);
    return {
      onset,
      duration: durationOf(onset, grid.snappedEnd(to), nextOnset.get(onset) ?? Number.POSITIVE_INFINITY),
      semitone: key,
      pitch: spelled(key, keys, onset),
      tiedFrom: false,
      tiedTo: false,
      syllables,
    };
  });
}

/**
 * To its end where a program wrote it; else to its end on the grid, or to the next note where that lies close behind, since notes are
 * played a little short. Never nothing.
 */
function durationOf(onset: number, end: ReturnType<Quantiser["snappedEnd"]>, next: number): number {
  if (end.exact && end.at > onset) return end.at - onset;
  const gap = (next - end.at) / SONG_TICKS_PER_QUARTER;
  if (gap >= 0 && gap <= LONGEST_GAP) return next - onset;
  return end.at > onset ? end.at - onset : Math.min(SONG_TICKS_PER_QUARTER / 8, next - onset);
}

function spelled(semitone: number, keys: readonly SongKey[], onset: number): DraftedNote["pitch"] {
  const fifths = keys.findLast((one) => one.onset <= onset)?.fifths ?? 0;
  const key: Key = { tonic: pitchClassAtFifths(fifths), mode: "major" };
  // At the very ends of the range a key's spelling may lie in an octave that has no number.
  return semitone < 2 || semitone > 125 ? spelledInKey(semitone, { tonic: "C", mode: "major" }) : spelledInKey(semitone, key);
}
