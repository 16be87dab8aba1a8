import { LEAST_LEVEL } from "../../src/playback/blend.ts";

/** So many samples are looked at for one reading: 21 ms at 48 kHz, more than a frame of the screen, so that no peak is missed for long. */
const WINDOW = 1024;

/** Reads how strong a sound is where it goes by. It changes nothing. */
export class LevelMeter {
  readonly #analyser: AnalyserNode;
  readonly #samples = new Float32Array(WINDOW);

  constructor(context: BaseAudioContext, source: AudioNode) {
    this.#analyser = new AnalyserNode(context, { fftSize: WINDOW });
    source.connect(this.#analyser);
  }

  /** The peak of the last moment, decibels under full scale; `LEAST_LEVEL` for silence. */
  get peak(): number {
    this.#analyser.getFloatTimeDomainData(this.#samples);
    let peak = 0;
    for (const sample of this.#samples) peak = Math.max(peak, Math.abs(sample));
    return Math.max(LEAST_LEVEL, 20 * Math.log10(Math.max(peak, 1e-6)));
  }

  dispose(): void {
    this.#analyser.disconnect();
  }
}
