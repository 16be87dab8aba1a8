import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { type MidiNote, midiNotes } from "./midi-notes.ts";

/* Another reader of MusicXML, to see whether it understands what we write. */

let loaded: Promise<VerovioToolkit> | null = null;

async function toolkit(): Promise<VerovioToolkit> {
  loaded ??= createVerovioModule().then((module: unknown) => new VerovioToolkit(module));
  return loaded;
}

/** What a MusicXML text sounds to Verovio, transposing parts at sounding pitch, repeats played, part by part; gracenotes among them. */
export async function soundOfMusicxml(musicxml: string): Promise<readonly (readonly MidiNote[])[]> {
  const reader = await toolkit();
  reader.setOptions({ breaks: "none" });
  if (!reader.loadData(musicxml)) throw new RangeError(`Verovio does not read it: ${reader.getLog()}`);
  const notes = midiNotes(Buffer.from(reader.renderToMIDI(), "base64"));
  // The first track holds the tempo map alone.
  const tracks = Math.max(0, ...notes.map(({ track }) => track));
  return Array.from({ length: tracks }, (_, index) => notes.filter(({ track }) => track === index + 1));
}
