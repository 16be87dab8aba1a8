import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { hertzOf } from "../../src/pipes/sounding.ts";
import type { ChanterSpan } from "../../src/playback/chanter-spans.ts";
import { timbreOn } from "../../src/playback/chanter-timbre.ts";
import { seconds } from "../../src/units/seconds.ts";
import { ticks } from "../../src/units/ticks.ts";
import { timeOnClock } from "./audio-clock.ts";
import { ChanterVoice } from "./chanter-voice.ts";
import { inputOf, moveTo, type SoundContext, type Strip, stripTo } from "./sound-context.ts";

/** The longest a touched note sounds, in seconds, should nobody let go of it. */
const LONGEST = 4;

/** Quieter than the same notes when they are played, so that a touch does not startle. */
const SOFTER = 0.5;

/** It comes in softly: a time constant in seconds. Fast enough that a gracenote after silence is heard. By ear. */
const COMES_IN = 0.008;

/** How long after letting go the last of it is gone, in seconds: the strip fades with a time constant of 15 ms. */
export const GONE_AFTER = 0.15;

/** The chanter by itself, outside any playing: a touched row, or a group of gracenotes that is tried. */
export class LoneSound {
  readonly #context: SoundContext;
  readonly #strip: Strip;
  readonly #voice: ChanterVoice;
  readonly #timer: ReturnType<typeof setTimeout>;
  #held = true;

  /**
   * @param gain the chanter's and the master's level together, as a factor
   * @param start when it begins, on the audio clock; not in the past
   */
  constructor(context: SoundContext, output: AudioNode, span: ChanterSpan, gain: number, start: number) {
    this.#context = context;
    this.#strip = stripTo(context, output, 0);
    this.#strip.gain.setTargetAtTime(gain * SOFTER, start, COMES_IN);
    this.#voice = new ChanterVoice(context.native, inputOf(this.#strip));
    const { currentTime, sampleRate } = context.native;
    this.#voice.follow([span], 0, timeOnClock(start, sampleRate));
    this.#voice.writeUntil(start + span.stop + 1);
    this.#timer = setTimeout(() => this.letGo(), (start - currentTime + span.stop + 0.2) * 1000);
  }

  /** Fades it out. */
  letGo(): void {
    if (!this.#held) return;
    this.#held = false;
    clearTimeout(this.#timer);
    moveTo(this.#strip, 0, this.#context);
    setTimeout(() => {
      this.#voice.dispose();
      this.#strip.dispose();
    }, GONE_AFTER * 2000);
  }
}

/** One note, for as long as its row is touched. */
export function touchedNote(setup: PipeSetup, note: ChanterNote): ChanterSpan {
  const start = seconds(0);
  const step = {
    at: start,
    hertz: hertzOf(setup, note),
    note,
    timbre: timbreOn(setup, note),
    gracenote: false,
    address: { line: "", bar: 0, at: ticks(0) },
  };
  return { start, stop: seconds(LONGEST), steps: [step] };
}
