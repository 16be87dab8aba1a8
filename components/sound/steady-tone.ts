import { USUAL_SPECTRUM } from "../../src/playback/chanter-timbre.ts";
import { DRONE_SPECTRA } from "../../src/playback/drone-timbre.ts";
import { PLAYER_TIMBRES } from "../../src/playback/player-timbre.ts";
import type { TuningTone } from "../../src/playback/tuning-tones.ts";
import { oscillatorOf } from "./waves.ts";

/** How softly it comes and goes: a time constant in seconds. By ear. */
const FADES = 0.03;

/** After so many of them nothing is left. */
const GONE = 9;

const SPECTRA = { chanter: USUAL_SPECTRUM, drone: DRONE_SPECTRA.tenor, band: PLAYER_TIMBRES.bowed.spectrum };

/** One steady tone, until it is let go. */
export class SteadyTone {
  readonly #context: BaseAudioContext;
  readonly #oscillator: OscillatorNode;
  readonly #gain: GainNode;

  /** @param level as a factor */
  constructor(context: BaseAudioContext, output: AudioNode, { hertz, voice }: TuningTone, level: number) {
    this.#context = context;
    this.#oscillator = oscillatorOf(context, SPECTRA[voice]);
    this.#oscillator.frequency.value = hertz;
    this.#gain = new GainNode(context, { gain: 0 });
    this.#oscillator.connect(this.#gain).connect(output);
    this.#oscillator.start();
    this.#gain.gain.setTargetAtTime(level, context.currentTime, FADES);
  }

  letGo(): void {
    const { currentTime } = this.#context;
    this.#gain.gain.cancelScheduledValues(currentTime);
    this.#gain.gain.setTargetAtTime(0, currentTime, FADES);
    this.#oscillator.onended = () => this.#gain.disconnect();
    this.#oscillator.stop(currentTime + FADES * GONE);
  }
}
