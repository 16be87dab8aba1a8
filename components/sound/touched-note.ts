import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { hertzOf } from "../../src/pipes/sounding.ts";
import { seconds } from "../../src/units/seconds.ts";
import { ticks } from "../../src/units/ticks.ts";
import { timeOnClock } from "./audio-clock.ts";
import { ChanterVoice } from "./chanter-voice.ts";
import { inputOf, moveTo, type SoundContext, type Strip, stripTo } from "./sound-context.ts";

/** The longest a touched note sounds, in seconds, should nobody let go of it. */
const LONGEST = 4;

/** Quieter than the same note when it is played, so that a touch does not startle. */
const SOFTER = 0.5;

/** Begins this much after the touch, in seconds, since what is past cannot be written. */
const SOON = 0.01;

/** One chanter note that sounds while its row is touched. */
export class TouchedNote {
  readonly #context: SoundContext;
  readonly #strip: Strip;
  readonly #voice: ChanterVoice;
  readonly #timer: ReturnType<typeof setTimeout>;
  #held = true;

  /** @param gain the chanter's and the master's level together, as a factor */
  constructor(context: SoundContext, output: AudioNode, setup: PipeSetup, note: ChanterNote, gain: number) {
    this.#context = context;
    this.#strip = stripTo(context, output, gain * SOFTER);
    this.#voice = new ChanterVoice(context.native, inputOf(this.#strip));
    const start = seconds(0);
    const address = { line: "", bar: 0, at: ticks(0) };
    const step = { at: start, hertz: hertzOf(setup, note), note, gracenote: false, address };
    const { currentTime, sampleRate } = context.native;
    this.#voice.follow([{ start, stop: seconds(LONGEST), steps: [step] }], 0, timeOnClock(currentTime + SOON, sampleRate));
    this.#voice.writeUntil(currentTime + LONGEST + 1);
    this.#timer = setTimeout(() => this.letGo(), (LONGEST + 0.2) * 1000);
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
    }, 200);
  }
}
