import type { PlayerId } from "../ensemble/player.ts";

/** How a file tells a player of it which sound to use. */
export interface InstrumentSound {
  /** A name of the format's own list of sounds. */
  readonly sound: string;
  /** Counted from 1, as the format does; MIDI's own byte is one less. */
  readonly program: number;
}

/** Highland pipes. *Source:* MusicXML 4.0, sounds.xml; General MIDI 1, program 110 “Bag pipe”. */
export const PIPES_SOUND: InstrumentSound = { sound: "wind.pipes.highland", program: 110 };

/** Where nothing nearer is known: a piano, General MIDI's first program. */
const USUAL: InstrumentSound = { sound: "keyboard.piano", program: 1 };

/** By player. *Source:* MusicXML 4.0, sounds.xml; General MIDI 1 program list. The nearest there is, where the lists have no name for the instrument. */
const SOUNDS: Readonly<Record<PlayerId, readonly [sound: string, program: number]>> = {
  fiddle: ["strings.fiddle", 111],
  mandolin: ["pluck.mandolin", 26],
  viola: ["strings.viola", 42],
  cello: ["strings.cello", 43],
  flute: ["wind.flutes.flute", 74],
  oboe: ["wind.reed.oboe", 69],
  accordion: ["keyboard.accordion", 22],
  piano: ["keyboard.piano", 1],
  voice: ["voice.vocals", 54],
  "whistle-d": ["wind.flutes.whistle.tin.d", 79],
  "whistle-eb": ["wind.flutes.whistle.tin", 79],
  "whistle-e": ["wind.flutes.whistle.tin", 79],
  "whistle-c": ["wind.flutes.whistle.tin.c", 79],
  "whistle-bb": ["wind.flutes.whistle.tin.bflat", 79],
  "low-whistle-d": ["wind.flutes.whistle.low-irish", 79],
  "low-whistle-eb": ["wind.flutes.whistle.low-irish", 79],
  "low-whistle-e": ["wind.flutes.whistle.low-irish", 79],
  "clarinet-bb": ["wind.reed.clarinet.bflat", 72],
  "soprano-sax": ["wind.reed.saxophone.soprano", 65],
  "alto-sax": ["wind.reed.saxophone.alto", 66],
  "tenor-sax": ["wind.reed.saxophone.tenor", 67],
  "baritone-sax": ["wind.reed.saxophone.baritone", 68],
  "soprano-cornet-eb": ["brass.cornet.soprano", 57],
  "trumpet-bb": ["brass.trumpet.bflat", 57],
  "cornet-bb": ["brass.cornet", 57],
  "flugelhorn-bb": ["brass.flugelhorn", 57],
  "tenor-horn-eb": ["brass.alto-horn", 61],
  "horn-f": ["brass.french-horn", 61],
  "baritone-bb": ["brass.baritone-horn", 58],
  "euphonium-bb": ["brass.euphonium", 58],
  euphonium: ["brass.euphonium", 58],
  "trombone-bb": ["brass.trombone", 58],
  trombone: ["brass.trombone", 58],
  "bass-eb": ["brass.tuba.bass", 59],
  "bass-bb": ["brass.tuba.bass", 59],
  tuba: ["brass.tuba", 59],
  guitar: ["pluck.guitar", 26],
  "bass-guitar": ["pluck.bass.electric", 34],
  "double-bass": ["strings.contrabass", 44],
};

/** Which sound a player of the catalogue has. */
export function soundOfPlayer(player: PlayerId): InstrumentSound {
  const found = Object.hasOwn(SOUNDS, player) ? SOUNDS[player] : undefined;
  return found === undefined ? USUAL : { sound: found[0], program: found[1] };
}
