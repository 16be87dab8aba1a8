/* The little of Verovio that tests use; the package has no types of its own. */

declare module "verovio/wasm" {
  /** Starts the compiled program. */
  export default function createVerovioModule(): Promise<unknown>;
}

declare module "verovio/esm" {
  export class VerovioToolkit {
    constructor(module: unknown);
    setOptions(options: Readonly<Record<string, unknown>>): void;
    /** False where it is no music it reads. */
    loadData(text: string): boolean;
    getLog(): string;
    /** A MIDI file, base64. */
    renderToMIDI(): string;
    renderToSVG(page: number): string;
  }
}
