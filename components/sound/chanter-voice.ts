import type { ChanterSpan } from "../../src/playback/chanter-spans.ts";
import { CHANTER_SPECTRA, CHANTER_TONES, type ChanterTone } from "../../src/playback/chanter-timbre.ts";
import { type GateTimes, gateLine } from "../../src/playback/gate.ts";
import type { PitchStep } from "../../src/playback/pitch-steps.ts";
import { amplitudeOf } from "../../src/units/decibels.ts";
import { seconds } from "../../src/units/seconds.ts";
import type { TimeOf } from "./audio-clock.ts";
import { GateWriter } from "./gate-writer.ts";
import { oscillatorOf } from "./waves.ts";

/** How fast one note's sound goes over into the next one's: a time constant in seconds. By ear; much longer sounds like a glide. */
const MORPH = 0.002;

/** How a chanter speaks at a strike-in and stops at a cut-off. By ear. */
const GATE: GateTimes = { opens: seconds(0.012), closes: seconds(0.03) };

/**
 * A chanter: one sound that never stops between strike-in and cut-off. Four oscillators that start together and share one frequency stay in
 * phase for ever, so fading from one to another neither dips nor cancels; a note is a frequency and four gains.
 *
 * ```
 * frequency ─┬─▶ dull ───▶ gain ─┐
 *            ├─▶ normal ─▶ gain ─┤
 *            ├─▶ bright ─▶ gain ─┼─▶ gate ─▶ output
 *            └─▶ thin ───▶ gain ─┘
 * ```
 */
export class ChanterVoice {
  readonly #frequency: ConstantSourceNode;
  readonly #oscillators: readonly OscillatorNode[];
  readonly #gains: readonly (readonly [ChanterTone, GainNode])[];
  readonly #gate: GainNode;
  readonly #gateWriter: GateWriter;
  #steps: readonly (readonly [step: PitchStep, first: boolean])[] = [];
  #written = 0;
  #time: TimeOf = (second) => second;

  /** @param turns how far into its wave it begins, where it joins a piece that was rendered before */
  constructor(context: BaseAudioContext, output: AudioNode, turns = 0) {
    this.#gate = new GainNode(context, { gain: 0 });
    this.#gate.connect(output);
    this.#gateWriter = new GateWriter(this.#gate.gain);
    this.#frequency = new ConstantSourceNode(context, { offset: 0 });
    const tones = CHANTER_TONES.map((tone) => {
      const oscillator = oscillatorOf(context, CHANTER_SPECTRA[tone], turns);
      oscillator.frequency.value = 0;
      this.#frequency.connect(oscillator.frequency);
      const gain = new GainNode(context, { gain: 0 });
      oscillator.connect(gain).connect(this.#gate);
      return { tone, oscillator, gain };
    });
    this.#oscillators = tones.map(({ oscillator }) => oscillator);
    this.#gains = tones.map(({ tone, gain }) => [tone, gain] as const);
    const start = context.currentTime;
    this.#frequency.start(start);
    for (const oscillator of this.#oscillators) oscillator.start(start);
  }

  /** From a second of the schedule on, these spans, whatever was planned. A sound that goes on is not struck again. */
  follow(spans: readonly ChanterSpan[], from: number, time: TimeOf): void {
    this.writeUntil(time(from));
    this.#time = time;
    const points = gateLine(spans, GATE).map(({ at, value }) => ({ at: seconds(time(at)), value }));
    this.#gateWriter.follow(points, time(from));
    for (const param of this.#params()) param.cancelScheduledValues(time(from));
    const steps = spans.flatMap(({ steps: own }) => own.map((step, index) => [step, index === 0] as const));
    const ahead = steps.findIndex(([step]) => step.at >= from);
    this.#steps = ahead === -1 ? [] : steps.slice(ahead);
    this.#written = 0;
    // Where it is silent its oscillators turn on unheard, at the last pitch they had.
    const before = steps.findLast(([step]) => step.at < from);
    if (before !== undefined) this.#goTo(before[0], time(from), false);
  }

  /** Writes everything that begins before a time of the audio clock. */
  writeUntil(until: number): void {
    this.#gateWriter.writeUntil(until);
    for (; this.#written < this.#steps.length; this.#written += 1) {
      const [step, first] = this.#steps[this.#written] as readonly [PitchStep, boolean];
      const at = this.#time(step.at);
      if (at > until) return;
      this.#goTo(step, at, first);
    }
  }

  /** Ends the voice for good; fade it out before. */
  dispose(): void {
    this.#frequency.stop();
    for (const oscillator of this.#oscillators) oscillator.stop();
    this.#gate.disconnect();
  }

  #goTo({ hertz, timbre: { mix, level } }: PitchStep, at: number, struck: boolean): void {
    this.#frequency.offset.setValueAtTime(hertz, at);
    for (const [tone, { gain }] of this.#gains) {
      const share = mix[tone] * amplitudeOf(level);
      if (struck) gain.setValueAtTime(share, at);
      else gain.setTargetAtTime(share, at, MORPH);
    }
  }

  *#params(): Generator<AudioParam> {
    yield this.#frequency.offset;
    for (const [, { gain }] of this.#gains) yield gain;
  }
}
