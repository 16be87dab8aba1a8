import type { LineId } from "../score/line-id.ts";
import type { Score } from "../score/score.ts";
import { amplitudeOf, type Decibels, decibels } from "../units/decibels.ts";

/** How loud one voice is. */
export interface Level {
  readonly decibels: Decibels;
  readonly muted: boolean;
}

/** One thing whose level can be set. `line` is a line's chanter or instrument, `drones` all drones of a pipe line together. */
export type Voice =
  | { readonly kind: "line"; readonly line: LineId }
  | { readonly kind: "drones"; readonly line: LineId }
  | { readonly kind: "click" }
  | { readonly kind: "master" };

/** The levels of everything that sounds. Plain data of the session; it is not part of the score. Lines not named have their usual level. */
export interface Blend {
  readonly lines: Readonly<Record<LineId, Level>>;
  readonly drones: Readonly<Record<LineId, Level>>;
  readonly click: Level;
  readonly master: Level;
  /** Those that are heard alone, by `voiceKey`; none: everybody is heard. */
  readonly alone: readonly VoiceKey[];
  /** Where each line's voice stands between the loudspeakers, -1 left to 1 right; drones by their own key. */
  readonly places: Readonly<Record<VoiceKey, number>>;
  /** Drones of each line that are silent in the blend, by their place among those that are on, from 0. The setup is left as it is. */
  readonly silentDrones: Readonly<Record<LineId, readonly number[]>>;
  /** How loud the room answers; null for none. */
  readonly room: Decibels | null;
}

/** A voice as a word, to keep something by. */
export type VoiceKey = string;

/** The word for a voice; two voices never share one. */
export function voiceKey(voice: Voice): VoiceKey {
  return "line" in voice ? `${voice.kind} ${voice.line}` : voice.kind;
}

/** The bottom of the scale: silent. */
export const LEAST_LEVEL: Decibels = decibels(-48);

/** The top of the scale. */
export const MOST_LEVEL: Decibels = decibels(6);

/** A small room with the doors shut. By ear. */
export const GENTLE_ROOM: Decibels = decibels(-20);

/** A blend before anybody has touched it: quiet, the click off, in a small room. */
export const USUAL_BLEND: Blend = {
  lines: {},
  drones: {},
  click: { decibels: decibels(-12), muted: true },
  master: { decibels: decibels(-18), muted: false },
  alone: [],
  places: {},
  silentDrones: {},
  room: GENTLE_ROOM,
};

const USUAL_CHANTER: Level = { decibels: decibels(-6), muted: false };
const USUAL_DRONES: Level = { decibels: decibels(-14), muted: false };
const USUAL_PLAYER: Level = { decibels: decibels(-8), muted: false };

/** A voice and what it is called beside its slider. */
export interface NamedVoice {
  readonly voice: Voice;
  readonly name: string;
}

/** Everything whose level can be set, in score order: each set of pipes as chanter and drones, the other players, the click, and all together. */
export function voicesOf(score: Score): readonly NamedVoice[] {
  const onlyPipes = score.lines.filter(({ kind }) => kind === "pipes").length === 1;
  const voices = score.lines.flatMap(({ id, kind, name }): NamedVoice[] => {
    if (kind === "concert") return [{ voice: { kind: "line", line: id }, name }];
    return [
      { voice: { kind: "line", line: id }, name: onlyPipes ? "Chanter" : `${name}, chanter` },
      { voice: { kind: "drones", line: id }, name: onlyPipes ? "Drones" : `${name}, drones` },
    ];
  });
  return [...voices, { voice: { kind: "click" }, name: "Click" }, { voice: { kind: "master" }, name: "All together" }];
}

/** The level of a voice; its usual one where nothing was set. */
export function levelOf(blend: Blend, voice: Voice, score: Score): Level {
  switch (voice.kind) {
    case "line":
      return blend.lines[voice.line] ?? (isPipes(score, voice.line) ? USUAL_CHANTER : USUAL_PLAYER);
    case "drones":
      return blend.drones[voice.line] ?? USUAL_DRONES;
    case "click":
      return blend.click;
    case "master":
      return blend.master;
  }
}

/** The blend with one voice's level changed; held to the scale's ends. */
export function withLevel(blend: Blend, voice: Voice, asked: Level): Blend {
  const level = { ...asked, decibels: decibels(Math.min(MOST_LEVEL, Math.max(LEAST_LEVEL, asked.decibels))) };
  switch (voice.kind) {
    case "line":
      return { ...blend, lines: { ...blend.lines, [voice.line]: level } };
    case "drones":
      return { ...blend, drones: { ...blend.drones, [voice.line]: level } };
    case "click":
      return { ...blend, click: level };
    case "master":
      return { ...blend, master: level };
  }
}

/** Where a voice stands between the loudspeakers, -1 left to 1 right: the pipes in the middle, the others to both sides in turn, unless it was moved. */
export function placeOf(blend: Blend, voice: Voice, score: Score): number {
  const moved = blend.places[voiceKey(voice)];
  if (moved !== undefined) return moved;
  if (voice.kind !== "line" || isPipes(score, voice.line)) return 0;
  const turn = score.lines.filter(({ kind }) => kind === "concert").findIndex(({ id }) => id === voice.line);
  return USUAL_PLACES[Math.max(0, turn) % USUAL_PLACES.length] as number;
}

/** By ear. */
const USUAL_PLACES: readonly number[] = [-0.35, 0.35, -0.6, 0.6, -0.15, 0.15];

/** The blend with one voice somewhere else between the loudspeakers; held to the ends. */
export function withPlace(blend: Blend, voice: Voice, place: number): Blend {
  return { ...blend, places: { ...blend.places, [voiceKey(voice)]: Math.min(1, Math.max(-1, place)) } };
}

/** Whether a voice is one of those heard alone. */
export function isAlone(blend: Blend, voice: Voice): boolean {
  return blend.alone.includes(voiceKey(voice));
}

/** The blend with a voice heard alone, beside others that are, or no longer. */
export function withAlone(blend: Blend, voice: Voice, on: boolean): Blend {
  const others = blend.alone.filter((key) => key !== voiceKey(voice));
  return { ...blend, alone: on ? [...others, voiceKey(voice)] : others };
}

/** The blend with one drone of a line silent or not. */
export function withDroneSilent(blend: Blend, line: LineId, drone: number, silent: boolean): Blend {
  const others = (blend.silentDrones[line] ?? []).filter((one) => one !== drone);
  return { ...blend, silentDrones: { ...blend.silentDrones, [line]: silent ? [...others, drone] : others } };
}

/** What is heard of a voice, as a factor on the amplitude: its level, or nothing while others are heard alone. The whole is always heard. */
export function heardGain(blend: Blend, voice: Voice, score: Score): number {
  const isLeftOut = voice.kind !== "master" && blend.alone.length > 0 && !isAlone(blend, voice);
  return isLeftOut ? 0 : gainOf(levelOf(blend, voice, score));
}

/** Whether nothing of it is heard. */
export function isSilent(level: Level): boolean {
  return level.muted || level.decibels <= LEAST_LEVEL;
}

/** The factor on the amplitude; 0 when silent. */
export function gainOf(level: Level): number {
  return isSilent(level) ? 0 : amplitudeOf(level.decibels);
}

function isPipes(score: Score, line: LineId): boolean {
  return score.lines.some(({ id, kind }) => id === line && kind === "pipes");
}
