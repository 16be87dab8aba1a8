import type { Click } from "../../src/playback/clicks.ts";
import type { TimeOf } from "./audio-clock.ts";

/** Two pitches that no chanter is tuned to, in hertz, how loud they begin, and how fast they die away: a time constant in seconds. By ear. */
const DOWNBEAT = { hertz: 1760, peak: 0.7 };
const BEAT = { hertz: 1320, peak: 0.4 };
const DIES_AWAY = 0.012;

/** The click, on a path of its own for the count-in, which is heard whether or not the click plays on. */
export class ClickVoice {
  readonly #oscillators: readonly OscillatorNode[];
  /** By downbeat or not, then by count-in or not. */
  readonly #gains: Readonly<Record<"downbeat" | "beat", Readonly<Record<"count" | "click", GainNode>>>>;
  #clicks: readonly Click[] = [];
  #written = 0;
  #time: TimeOf = (second) => second;

  constructor(context: BaseAudioContext, output: AudioNode, countIn: AudioNode) {
    const pitch = (frequency: number) => new OscillatorNode(context, { frequency });
    const path = (oscillator: OscillatorNode, to: AudioNode) => {
      const gain = new GainNode(context, { gain: 0 });
      oscillator.connect(gain).connect(to);
      return gain;
    };
    const [downbeat, beat] = [pitch(DOWNBEAT.hertz), pitch(BEAT.hertz)];
    this.#oscillators = [downbeat, beat];
    this.#gains = {
      downbeat: { count: path(downbeat, countIn), click: path(downbeat, output) },
      beat: { count: path(beat, countIn), click: path(beat, output) },
    };
    for (const oscillator of this.#oscillators) oscillator.start(context.currentTime);
  }

  /** From a second of the schedule on, these clicks. */
  follow(clicks: readonly Click[], from: number, time: TimeOf): void {
    this.writeUntil(time(from));
    for (const { gain } of this.#everyGain()) gain.cancelScheduledValues(time(from));
    this.#time = time;
    this.#clicks = clicks.filter(({ at }) => at >= from);
    this.#written = 0;
  }

  /** Writes every click that begins before a time of the audio clock. */
  writeUntil(until: number): void {
    for (; this.#written < this.#clicks.length; this.#written += 1) {
      const { at, downbeat, countIn } = this.#clicks[this.#written] as Click;
      const time = this.#time(at);
      if (time > until) return;
      const { gain } = this.#gains[downbeat ? "downbeat" : "beat"][countIn ? "count" : "click"];
      gain.setValueAtTime(downbeat ? DOWNBEAT.peak : BEAT.peak, time);
      gain.setTargetAtTime(0, time, DIES_AWAY);
    }
  }

  /** Ends the voice for good; fade it out before. */
  dispose(): void {
    for (const oscillator of this.#oscillators) oscillator.stop();
    for (const gain of this.#everyGain()) gain.disconnect();
  }

  #everyGain(): readonly GainNode[] {
    return Object.values(this.#gains).flatMap((paths) => Object.values(paths));
  }
}
