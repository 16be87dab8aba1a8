/** One row of the list that `ninefold --help` prints. */
export interface CommandEntry {
  /** The word that calls it, and the name of its file in `commands/`. */
  readonly name: string;
  readonly summary: string;
}

/** Every command there is, in the order of the list. Plain data: the commands themselves are loaded only when they are run. */
export const COMMANDS: readonly CommandEntry[] = [
  { name: "pitches", summary: "what a set of pipes sounds against a band: notes, drones, keys in reach" },
  { name: "check", summary: "what a piper would look at twice: rests the chanter cannot play, like notes, notes that do not speak" },
  { name: "parts", summary: "what each player reads, as files: PDF, SVG, MusicXML" },
  { name: "song", summary: "what a song file holds: MusicXML, MIDI, ABC; its lines, the likely tune, what was left out" },
  { name: "rank", summary: "which chanter and key suit a song: how much of the tune is kept, how far the band moves, what it reads" },
];
