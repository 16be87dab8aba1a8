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
}

/** The bottom of the scale: silent. */
export const LEAST_LEVEL: Decibels = decibels(-48);

/** The top of the scale. */
export const MOST_LEVEL: Decibels = decibels(6);

/** A blend before anybody has touched it: quiet, the click off. */
export const USUAL_BLEND: Blend = {
  lines: {},
  drones: {},
  click: { decibels: decibels(-12), muted: true },
  master: { decibels: decibels(-18), muted: false },
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
