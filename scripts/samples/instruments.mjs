/*
 * What is taken from the sound bank. `program` is General MIDI's number, from 0; `keys` are sounding MIDI keys, 60 is middle C. A note is played
 * from the sampled key nearest to it, so keys lie at most seven semitones apart within an instrument's reach.
 * `held`: goes on as long as it is blown or bowed, so a loop is looked for. Otherwise it dies away by itself.
 * `cut` is how long a note is kept, seconds, where no loop ends it before.
 */

/** @typedef {{ program: number, keys: number[] }} Zone */
/** @typedef {{ id: string, held: boolean, cut: number, zones: Zone[], pitch?: "fundamental" }} Instrument */

/** @type {readonly Instrument[]} */
export const INSTRUMENTS = [
  { id: "piano", held: false, cut: 3.5, zones: [{ program: 0, keys: [28, 36, 43, 50, 57, 64, 71, 78, 85, 93] }], pitch: "fundamental" },
  { id: "nylon-guitar", held: false, cut: 3, zones: [{ program: 24, keys: [40, 47, 54, 61, 68, 75] }] },
  { id: "steel-guitar", held: false, cut: 3, zones: [{ program: 25, keys: [40, 47, 54, 61, 68, 75, 81] }] },
  { id: "banjo", held: false, cut: 2, zones: [{ program: 105, keys: [50, 56, 62, 68, 74, 80] }] },
  { id: "harp", held: false, cut: 3, zones: [{ program: 46, keys: [36, 43, 50, 57, 64, 71, 78, 85] }] },
  { id: "electric-bass", held: false, cut: 2.5, zones: [{ program: 33, keys: [28, 34, 40, 46, 52, 58, 64] }] },
  { id: "double-bass", held: false, cut: 2.5, zones: [{ program: 32, keys: [28, 34, 40, 46, 52, 58] }] },
  { id: "fiddle", held: true, cut: 2.2, zones: [{ program: 40, keys: [50, 55, 60, 65, 70, 75, 80, 86, 92] }] },
  { id: "cello", held: true, cut: 2.4, zones: [{ program: 42, keys: [36, 42, 48, 54, 60, 66, 72, 78] }] },
  { id: "flute", held: true, cut: 2.2, zones: [{ program: 73, keys: [60, 65, 70, 75, 80, 86, 92] }] },
  { id: "whistle", held: true, cut: 2, zones: [{ program: 78, keys: [62, 68, 74, 80, 86, 92, 98] }] },
  { id: "oboe", held: true, cut: 2, zones: [{ program: 68, keys: [58, 64, 70, 76, 82, 88] }] },
  { id: "clarinet", held: true, cut: 2, zones: [{ program: 71, keys: [50, 56, 62, 68, 74, 80, 86, 91] }] },
  {
    id: "saxophone",
    held: true,
    cut: 2,
    zones: [
      { program: 67, keys: [36, 42] },
      { program: 66, keys: [48] },
      { program: 65, keys: [54, 59, 64, 69, 74, 80] },
    ],
  },
  { id: "trumpet", held: true, cut: 2, zones: [{ program: 56, keys: [52, 57, 62, 67, 72, 77, 82] }] },
  {
    id: "trombone",
    held: true,
    cut: 2,
    zones: [{ program: 57, keys: [40, 45, 50, 55, 60, 65, 70] }],
  },
  { id: "tuba", held: true, cut: 3, zones: [{ program: 58, keys: [28, 34, 40, 46, 52, 58, 63] }] },
  { id: "horn", held: true, cut: 3, zones: [{ program: 60, keys: [41, 47, 53, 59, 65, 71, 77] }] },
  { id: "accordion", held: true, cut: 3, zones: [{ program: 21, keys: [53, 59, 65, 71, 77, 83, 89, 94] }] },
  { id: "voice", held: true, cut: 2.4, zones: [{ program: 53, keys: [48, 53, 59, 65, 71, 77, 83] }] },
];

/** Percussion of General MIDI's drum channel: key, name, seconds kept. */
export const DRUMS = [
  { key: 36, name: "bass-drum", cut: 0.6 },
  { key: 37, name: "side-stick", cut: 0.4 },
  { key: 38, name: "snare", cut: 0.6 },
  { key: 42, name: "closed-hat", cut: 0.3 },
  { key: 46, name: "open-hat", cut: 0.9 },
  { key: 45, name: "low-tom", cut: 0.9 },
  { key: 48, name: "high-tom", cut: 0.8 },
  { key: 49, name: "crash", cut: 2.2 },
  { key: 51, name: "ride", cut: 1.4 },
];
