import type { Click } from "../../src/playback/clicks.ts";
import type { TimeOf } from "./audio-clock.ts";

/** Two pitches that no chanter is tuned to, in hertz, and how fast they die away: a time constant in seconds. By ear. */
const DOWNBEAT = 1760;
const BEAT = 1320;
const DIES_AWAY = 0.012;
const PEAK = { downbeat: 0.7, beat: 0.4 };

/** The click, on a path of its own for the count-in, which is heard whether or not the click plays on. */
export class ClickVoice {
  readonly #context: BaseAudioContext;
  readonly #output: AudioNode;
  readonly #countIn: AudioNode;
  #clicks: readonly Click[] = [];
  #written = 0;
  #time: TimeOf = (second) => second;
  readonly #live = new Set<{ readonly at: number; readonly gain: GainNode }>();

  constructor(context: BaseAudioContext, output: AudioNode, countIn: AudioNode) {
    this.#context = context;
    this.#output = output;
    this.#countIn = countIn;
  }

  follow(clicks: readonly Click[], from: number, time: TimeOf): void {
    const now = time(from);
    this.writeUntil(now);
    this.#time = time;
    for (const { at, gain } of this.#live) if (at >= now) gain.disconnect();
    this.#clicks = clicks.filter(({ at }) => at >= from);
    this.#written = 0;
  }

  writeUntil(until: number): void {
    for (; this.#written < this.#clicks.length; this.#written += 1) {
      const click = this.#clicks[this.#written] as Click;
      const at = this.#time(click.at);
      if (at > until) return;
      this.#begin(click, at);
    }
  }

  dispose(): void {
    for (const { gain } of this.#live) gain.disconnect();
    this.#live.clear();
  }

  #begin({ downbeat, countIn }: Click, at: number): void {
    const oscillator = new OscillatorNode(this.#context, { frequency: downbeat ? DOWNBEAT : BEAT });
    const gain = new GainNode(this.#context, { gain: 0 });
    oscillator.connect(gain).connect(countIn ? this.#countIn : this.#output);
    gain.gain.setValueAtTime(downbeat ? PEAK.downbeat : PEAK.beat, at);
    gain.gain.setTargetAtTime(0, at, DIES_AWAY);
    const live = { at, gain };
    this.#live.add(live);
    oscillator.onended = () => {
      this.#live.delete(live);
      gain.disconnect();
    };
    oscillator.start(at);
    oscillator.stop(at + 10 * DIES_AWAY);
  }
}
