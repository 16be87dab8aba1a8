/* A recording of what goes to the loudspeakers, sample for sample, however busy the page is. */

/** What was heard since it began. */
export interface SoundRecorder {
  /** Everything so far, one channel. */
  readonly heard: () => Float32Array<ArrayBuffer>;
  readonly sampleRate: number;
  readonly end: () => void;
}

const PROCESSOR = `registerProcessor("recorder", class extends AudioWorkletProcessor {
  process([[channel]]) {
    this.port.postMessage(channel ?? new Float32Array(128));
    return true;
  }
});`;

/** Records what leaves a node. It runs on the audio thread, so that nothing is missed while the page does something else. */
export async function recorderAt(node: AudioNode): Promise<SoundRecorder> {
  const { context } = node;
  const address = URL.createObjectURL(new Blob([PROCESSOR], { type: "text/javascript" }));
  await context.audioWorklet.addModule(address);
  URL.revokeObjectURL(address);
  const pieces: Float32Array[] = [];
  const recorder = new AudioWorkletNode(context, "recorder", { numberOfInputs: 1, numberOfOutputs: 0, channelCount: 1 });
  recorder.port.onmessage = ({ data }: MessageEvent<Float32Array>) => pieces.push(data);
  node.connect(recorder);
  return {
    heard: () => {
      const whole = new Float32Array(pieces.reduce((sum, { length }) => sum + length, 0));
      let at = 0;
      for (const piece of pieces) {
        whole.set(piece, at);
        at += piece.length;
      }
      return whole;
    },
    sampleRate: context.sampleRate,
    end: () => node.disconnect(recorder),
  };
}
