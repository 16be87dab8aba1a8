import type { LineId } from "../score/line-id.ts";
import { pipeLines } from "../score/line-of.ts";
import type { Score } from "../score/score.ts";
import { decibels } from "../units/decibels.ts";
import { shownNumber } from "../units/shown.ts";
import { type Blend, type Level, type Voice, voiceKey, voicesOf, withPlace } from "./blend.ts";

/** One sound file that can be made of a sketch. */
export interface Recording {
  /** `Mix`, `Chanter`, `Play-along, without the pipes`: stands in lists and in the file's name. */
  readonly name: string;
  /** What is heard in it, in one sentence. */
  readonly says: string;
  readonly kind: "mix" | "stem" | "play-along" | "rehearsal";
  readonly channels: 1 | 2;
  readonly blend: Blend;
  /** Whether the limiter stands at its end: stems add up to the mix only without. */
  readonly limited: boolean;
  /** Whether the bar before the music is counted aloud; it is there in every file, so that all begin together. */
  readonly counted: boolean;
}

/** Nothing of a stem's own is turned down: the desk they go to has faders. */
const AS_IT_COMES: Level = { decibels: decibels(0), muted: false };
/** Three drones or a full chord are several voices' worth, and nothing may clip where no limiter stands. All stems alike, so that they keep their balance. */
const STEM_LEVEL: Level = { decibels: decibels(-18), muted: false };
const SILENT: Level = { decibels: decibels(0), muted: true };

/** A finished file is louder than headphones start; the limiter stands at its end. */
const FILE_LEVEL: Level = { decibels: decibels(-6), muted: false };

/**
 * Everything that can be recorded of a sketch with a blend: the mix, the band without the pipes, the pipes left and the band right, and each voice by
 * itself. All of them begin together, a bar before the music, so that they lie under one another on any desk; where somebody plays along it is counted.
 */
export function recordingsOf(score: Score, blend: Blend): readonly Recording[] {
  const finished: Blend = { ...blend, master: FILE_LEVEL, alone: [] };
  const hasBand = score.lines.some(({ kind }) => kind === "concert");
  const hasPipes = pipeLines(score).length > 0;
  return [
    {
      name: "Mix",
      says: "Everybody, as the blend is set.",
      kind: "mix",
      channels: 2,
      blend: { ...finished, alone: blend.alone },
      limited: true,
      counted: false,
    },
    ...(hasBand && hasPipes
      ? [
          {
            name: "Play-along, without the pipes",
            says: "The band alone, at the pitch to which the pipes are measured.",
            kind: "play-along",
            channels: 2,
            blend: withoutPipes(score, finished),
            limited: true,
            counted: true,
          } as const,
          {
            name: "Rehearsal, pipes left, band right",
            says: "Turn one side down to play it yourself.",
            kind: "rehearsal",
            channels: 2,
            blend: apart(score, finished),
            limited: true,
            counted: true,
          } as const,
        ]
      : []),
    ...voicesOf(score)
      .filter(({ voice }) => voice.kind !== "master")
      .map(
        ({ voice, name }): Recording => ({
          name,
          says: voice.kind === "click" ? "The count and every beat." : "By itself, in no room; all stems 18 dB down, so that none clips.",
          kind: "stem",
          channels: 1,
          blend: stemOf(blend, voice),
          limited: false,
          counted: voice.kind === "click",
        }),
      ),
  ];
}

/** `Mix, 104 to the minute, low A 493.9 Hz, band A 440 Hz, revision 3`: what a file's name says beside the title. */
export function recordingFacts(score: Score, { name }: Pick<Recording, "name">): string {
  const tempo = score.frames[0]?.tempo;
  const pitches = pipeLines(score).map(({ setup }) => `low A ${shownNumber(setup.lowA, 1)} Hz`);
  return [
    name,
    ...(tempo === undefined ? [] : [`${shownNumber(tempo.perMinute, 1)} to the minute`]),
    ...new Set(pitches),
    `band A ${shownNumber(score.bandA, 1)} Hz`,
    `revision ${score.revision}`,
  ].join(", ");
}

function stemOf(blend: Blend, voice: Voice): Blend {
  const click = voice.kind === "click" ? AS_IT_COMES : SILENT;
  const level = "line" in voice ? { [voice.line]: AS_IT_COMES } : {};
  return {
    ...blend,
    lines: { ...blend.lines, ...(voice.kind === "line" ? level : {}) },
    drones: { ...blend.drones, ...(voice.kind === "drones" ? level : {}) },
    click,
    master: STEM_LEVEL,
    alone: [voiceKey(voice)],
    room: null,
  };
}

function withoutPipes(score: Score, blend: Blend): Blend {
  const silent = Object.fromEntries(pipeLines(score).map(({ id }): [LineId, Level] => [id, SILENT]));
  return { ...blend, lines: { ...blend.lines, ...silent }, drones: { ...blend.drones, ...silent } };
}

function apart(score: Score, blend: Blend): Blend {
  let placed: Blend = { ...blend, room: null };
  for (const { id, kind } of score.lines) {
    const side = kind === "pipes" ? -1 : 1;
    placed = withPlace(placed, { kind: "line", line: id }, side);
    if (kind === "pipes") placed = withPlace(placed, { kind: "drones", line: id }, side);
  }
  return placed;
}
