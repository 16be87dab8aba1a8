import { defaultSetup } from "../pipes/default-setups.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { transpositionOf } from "../pipes/sounding.ts";
import type { Key } from "../pitch/key.ts";
import { readableKey, transposedKey } from "../pitch/key-signature.ts";
import { bpm } from "../units/bpm.ts";
import { type Hertz, hertz } from "../units/hertz.ts";
import { TICKS_PER_QUARTER, ticks } from "../units/ticks.ts";
import type { PipeBar } from "./bar.ts";
import type { Frame, Meter, Tempo } from "./frame.ts";
import { frameTicks, isCompound, unitTicks } from "./meter.ts";
import type { Credits, PipeLine, Score } from "./score.ts";

/** What may be said about a score before it has a note; what is left out gets the value in brackets. */
export interface NewScoreOptions {
  /** (empty) */
  readonly title?: string;
  readonly credits?: Partial<Credits>;
  /** How many bars (8). */
  readonly bars?: number;
  /** (4/4) */
  readonly meter?: Meter;
  /** (96 of the meter's beats to the minute) */
  readonly tempo?: Tempo;
  /** The band's key (where written D major sounds on this setup). */
  readonly key?: Key;
  /** (440 Hz, ISO 16) */
  readonly bandA?: Hertz;
  /** (a B flat chanter) */
  readonly setup?: PipeSetup;
}

/** Nobody is named. */
export const NO_CREDITS: Credits = { composer: "", arranger: "", ensemble: "", tuneType: "" };

/** The concert key that the pipes read as D major, respelled where it would need more than six accidentals. */
export function keyOfWrittenD(setup: PipeSetup): Key {
  const { diatonic, chromatic } = transpositionOf(setup);
  return readableKey(transposedKey({ tonic: "D", mode: "major" }, diatonic, chromatic));
}

/** A score without notes: one set of pipes, revision 0. */
export function newScore(options: NewScoreOptions = {}): Score {
  const setup = options.setup ?? defaultSetup("Bb");
  const meter = options.meter ?? { beats: 4, unit: 4 };
  const frame: Frame = {
    meter,
    short: null,
    key: options.key ?? keyOfWrittenD(setup),
    tempo: options.tempo ?? defaultTempo(meter),
    section: null,
    tune: null,
    chords: [],
    repeatStart: false,
    repeatEnd: false,
    ending: null,
  };
  const frames = Array.from({ length: Math.max(1, options.bars ?? 8) }, () => frame);
  const pipes: PipeLine = { kind: "pipes", id: "pipes", name: "Pipes", setup, bars: frames.map(emptyPipeBar) };
  return {
    title: options.title ?? "",
    credits: { ...NO_CREDITS, ...options.credits },
    revision: 0,
    bandA: options.bandA ?? hertz(440),
    frames,
    lines: [pipes],
  };
}

/** A bar without a note, as long as its frame. */
export function emptyPipeBar(frame: Frame): PipeBar {
  return { kind: "pipes", events: [{ kind: "rest", ticks: frameTicks(frame), tuplet: null }] };
}

function defaultTempo(meter: Meter): Tempo {
  const unit = unitTicks(meter);
  const beat = isCompound(meter) ? ticks(unit * 3) : meter.unit > 4 ? TICKS_PER_QUARTER : unit;
  return { beat, perMinute: bpm(96) };
}
