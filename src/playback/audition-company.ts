import { chordPitchClasses } from "../pitch/chord.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { spelledInKey } from "../pitch/spelled-in-key.ts";
import type { Address } from "../score/address.ts";
import type { ConcertEvent, OwnBar } from "../score/bar.ts";
import { chordSpans } from "../score/chords-in-force.ts";
import { concertEventsOf } from "../score/doubling.ts";
import type { Frame } from "../score/frame.ts";
import { concertLines } from "../score/line-of.ts";
import { frameTicks } from "../score/meter.ts";
import { eventAt } from "../score/placed-events.ts";
import type { ConcertLine, Score } from "../score/score.ts";
import type { Ticks } from "../units/ticks.ts";
import { type Blend, levelOf } from "./blend.ts";
import type { BandTone, Company } from "./judged-note.ts";
import { timbreOf } from "./player-timbre.ts";

/** What sounds beside the chanter while versions are compared. */
export type AuditionCompany = "drones" | "chord" | "band";

/** Whoever plays the chord symbol as it is written; no line of the sketch has this name. */
const CHORD_LINE = "the chord";

/** Where chords are voiced, MIDI: a bass below, the other tones close together around middle C. */
const BASS_FROM = 40;
const TONES_FROM = 55;

/** The score as it is heard in company: the pipes, and nobody, or a piano that strikes the chords as they are written, or the whole band. */
export function inCompany(score: Score, company: AuditionCompany): Score {
  if (company === "band") return score;
  const pipes = score.lines.filter(({ kind }) => kind === "pipes");
  if (company === "drones") return { ...score, lines: pipes };
  const bars = score.frames.map((frame, bar): OwnBar => ({ kind: "own", events: chordEvents(score, frame, bar) }));
  const piano: ConcertLine = { kind: "concert", id: CHORD_LINE, name: "Chord", player: "piano", bars };
  return { ...score, lines: [...pipes, piano] };
}

/** What sounds beside a pipe note at its first moment, for judging it by. */
export function companyAt(score: Score, at: Address, blend: Blend): Company {
  const band = concertLines(score).flatMap((line): readonly BandTone[] => {
    const events = concertEventsOf(score, line, at.bar);
    const sounding = eventAt<ConcertEvent>({ events }, at.at)?.event;
    if (sounding?.kind !== "note") return [];
    const { spectrum } = timbreOf(line.player);
    const level = levelOf(blend, { kind: "line", line: line.id }, score).decibels;
    return sounding.pitches.map((pitch) => ({ pitch, spectrum, level }));
  });
  const level = (kind: "line" | "drones") => levelOf(blend, { kind, line: at.line }, score).decibels;
  return { band, bandA: score.bandA, levels: { chanter: level("line"), drones: level("drones") } };
}

function chordEvents({ frames }: Score, frame: Frame, bar: number): readonly ConcertEvent[] {
  const events: ConcertEvent[] = [];
  let reached = 0;
  const restUntil = (at: number) => {
    if (at > reached) events.push({ kind: "rest", ticks: (at - reached) as Ticks, tuplet: null });
    reached = Math.max(reached, at);
  };
  for (const { from, to, symbol } of chordSpans(frames, bar)) {
    restUntil(from);
    const pitches = voiced(symbol, frame);
    const ticks = (to - from) as Ticks;
    events.push(
      pitches.length === 0
        ? { kind: "rest", ticks, tuplet: null }
        : { kind: "note", pitches, ticks, tuplet: null, tied: false, syllables: [] },
    );
    reached = to;
  }
  restUntil(frameTicks(frame));
  return events;
}

function voiced(symbol: string, { key }: Frame): readonly ConcertPitch[] {
  const [root, ...others] = chordPitchClasses(symbol) ?? [];
  if (root === undefined) return [];
  const over = (from: number, pitchClass: number) => from + ((((pitchClass - from) % 12) + 12) % 12);
  const keys = [over(BASS_FROM, root), ...[root, ...others].map((one) => over(TONES_FROM, one)).sort((one, other) => one - other)];
  return [...new Set(keys)].map((semitone) => spelledInKey(semitone, key));
}
