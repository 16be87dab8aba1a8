import type { DroneSound } from "../../src/playback/drone-sounds.ts";
import { DRONE_SPECTRA } from "../../src/playback/drone-timbre.ts";
import { type GateTimes, gateLine } from "../../src/playback/gate.ts";
import { seconds } from "../../src/units/seconds.ts";
import type { TimeOf } from "./audio-clock.ts";
import { GateWriter } from "./gate-writer.ts";
import { oscillatorOf } from "./waves.ts";

/** Drones swell as the bag comes up and are cut off at once. By ear. */
const GATE: GateTimes = { opens: seconds(0.25), closes: seconds(0.06) };

/** How fast it falls silent when told to: a time constant in seconds. By ear. */
const FOLLOWS = 0.015;

/** One drone: one oscillator that never stops between the first strike-in and the last cut-off. */
export class DroneVoice {
  readonly name: DroneSound["name"];
  readonly #oscillator: OscillatorNode;
  readonly #gate: GainNode;
  readonly #gateWriter: GateWriter;
  readonly #level: GainNode;
  readonly #context: BaseAudioContext;
  #tuned = false;

  /** @param turns how far into its wave it begins, where it joins a piece that was rendered before */
  constructor(context: BaseAudioContext, output: AudioNode, name: DroneSound["name"], turns = 0) {
    this.name = name;
    this.#gate = new GainNode(context, { gain: 0 });
    this.#context = context;
    this.#level = new GainNode(context);
    this.#gate.connect(this.#level).connect(output);
    this.#gateWriter = new GateWriter(this.#gate.gain);
    this.#oscillator = oscillatorOf(context, DRONE_SPECTRA[name], turns);
    this.#oscillator.connect(this.#gate);
    this.#oscillator.start(context.currentTime);
  }

  /** From a second of the schedule on, this drone, or silence. */
  follow(sound: DroneSound | null, from: number, time: TimeOf): void {
    const points = sound === null ? [] : gateLine([sound], GATE).map(({ at, value }) => ({ at: seconds(time(at)), value }));
    this.#gateWriter.follow(points, time(from));
    if (sound === null) return;
    const { frequency } = this.#oscillator;
    // The first pitch is there from the beginning; a setup that changes while it sounds retunes it.
    if (this.#tuned) {
      frequency.cancelScheduledValues(time(from));
      frequency.setValueAtTime(sound.hertz, time(from));
    } else frequency.value = sound.hertz;
    this.#tuned = true;
  }

  /** Silent or heard from now on, without a click; it sounds on unheard. */
  setSilent(silent: boolean): void {
    this.#level.gain.setTargetAtTime(silent ? 0 : 1, this.#context.currentTime, FOLLOWS);
  }

  writeUntil(until: number): void {
    this.#gateWriter.writeUntil(until);
  }

  dispose(): void {
    this.#oscillator.stop();
    this.#gate.disconnect();
    this.#level.disconnect();
  }
}
