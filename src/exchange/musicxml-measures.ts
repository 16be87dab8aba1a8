import { inverted } from "../pitch/transpose.ts";
import { barNumber, hasPickup } from "../score/bar-number.ts";
import type { Frame } from "../score/frame.ts";
import { isPipeNote } from "../score/like-events.ts";
import { concertLines } from "../score/line-of.ts";
import { frameTicks } from "../score/meter.ts";
import type { Ticks } from "../units/ticks.ts";
import { attributesElement } from "./musicxml-attributes.ts";
import { leftBarline, rightBarline } from "./musicxml-barlines.ts";
import { beamedTogether, beamSteps } from "./musicxml-beams.ts";
import { referenceWords, sectionDirection, tempoDirection, tuneDirection, wordsDirection } from "./musicxml-directions.ts";
import { gracenoteElements } from "./musicxml-gracenotes.ts";
import { harmonyElement } from "./musicxml-harmony.ts";
import { lyricsOf, NO_OPEN_WORDS, type OpenWords } from "./musicxml-lyrics.ts";
import { type ChanterDressing, type NoteDressing, noteElements } from "./musicxml-notes.ts";
import { type Part, partClef, partTransposition } from "./musicxml-part.ts";
import { type Sign, signsOf } from "./musicxml-signs.ts";
import { stemDirection } from "./musicxml-stems.ts";
import { element, elementWith, type XmlElement } from "./xml.ts";

/** A sign with all that stands around it. */
interface DressedSign {
  readonly sign: Sign;
  readonly dressing: NoteDressing;
  readonly chanter: ChanterDressing | null;
}

/** Every bar of a part, first to last. */
export function measureElements(part: Part): readonly XmlElement[] {
  let words = NO_OPEN_WORDS;
  return part.score.frames.map((frame, bar) => {
    const { signs, open } = dressedSigns(part, bar, words);
    words = open;
    const pickup = bar === 0 && hasPickup(part.score);
    return elementWith(
      "measure",
      { number: String(barNumber(part.score, bar)), ...(pickup ? { implicit: "yes" } : {}) },
      leftBarline(part.score.frames, bar),
      attributesElement(part, bar),
      ...directionsAtStart(part, bar),
      ...musicOf(part, frame, signs),
      rightBarline(part.score.frames, bar),
    );
  });
}

/** What is new from this bar on: the tune, the section, the tempo (which a new tune says again), the pitch to tune to. */
function directionsAtStart({ score, line }: Part, bar: number): readonly (XmlElement | null)[] {
  const [before, here] = [score.frames[bar - 1], score.frames[bar] as Frame];
  const sameTempo = before?.tempo.beat === here.tempo.beat && before.tempo.perMinute === here.tempo.perMinute;
  return [
    here.tune === null ? null : tuneDirection(here.tune),
    here.section === null ? null : sectionDirection(here.section),
    sameTempo && here.tune === null ? null : tempoDirection(here.tempo),
    bar > 0 ? null : wordsDirection(referenceWords(score, line.kind === "pipes" ? line : null), "above"),
  ];
}

/** Notes in order with the chords over them and the words where the chanter starts and stops. Time that no note value shows is skipped, not lost. */
function musicOf(part: Part, frame: Frame, signs: readonly DressedSign[]): readonly XmlElement[] {
  const music: XmlElement[] = [];
  let reached = 0;
  const skipTo = (moment: number) => {
    if (moment > reached) music.push(element("forward", element("duration", moment - reached)));
    reached = Math.max(reached, moment);
  };
  for (const [index, { sign, dressing, chanter }] of signs.entries()) {
    skipTo(sign.at);
    music.push(...chordsDuring(part, frame, sign));
    if (sign.strikeIn) music.push(wordsDirection("strike-in", "above"));
    music.push(...gracenoteElements(sign.gracenotes, { tempo: frame.tempo, after: sign.value.ticks, before: noteBefore(signs, index) }));
    music.push(...noteElements(sign, dressing, chanter));
    reached = sign.at + sign.value.ticks;
    if (sign.cutOff) music.push(wordsDirection("cut-off", "above"));
  }
  skipTo(frameTicks(frame));
  return music;
}

/** How long the note before a place in the bar lasts; null where there is none in this bar. */
function noteBefore(signs: readonly DressedSign[], index: number): Ticks | null {
  const before = signs[index - 1]?.sign;
  return before === undefined || before.heads.length === 0 ? null : before.value.ticks;
}

/**
 * The chords that begin while a sign lasts. Pipers' pages show none, and at written pitch they would mislead whoever reads over the piper's
 * shoulder: only where no other part could carry them do they stand in the pipes', unprinted, so that the file loses nothing.
 */
function chordsDuring(part: Part, frame: Frame, { at, value }: Sign): readonly XmlElement[] {
  const isPipes = part.line.kind === "pipes";
  if (isPipes && concertLines(part.score).length > 0) return [];
  const reading = { interval: inverted(partTransposition(part, frame)), printed: !isPipes };
  return frame.chords
    .filter((chord) => chord.at >= at && chord.at < at + value.ticks)
    .map((chord) => harmonyElement(chord, chord.at - at, reading));
}

/** The signs of a bar with their stems, beams, accidentals and words. */
function dressedSigns(part: Part, bar: number, words: OpenWords): { readonly signs: readonly DressedSign[]; readonly open: OpenWords } {
  const frame = part.score.frames[bar] as Frame;
  const signs = signsOf(part, bar);
  const groups = beamedTogether(signs, frame);
  let open = words;
  const dressed = signs.map((sign, index): DressedSign => {
    const group = groups.find((indexes) => indexes.includes(index)) ?? null;
    const together = group === null ? [sign] : group.map((place) => signs[place] as Sign);
    const lyrics = sign.syllables.length > 0 ? lyricsOf(sign.syllables, open) : null;
    open = lyrics?.open ?? open;
    return {
      sign,
      dressing: {
        stem: stemOf(part, sign, together),
        beams: group === null ? [] : (beamSteps(together)[group.indexOf(index)] ?? []),
        bracket: !isBeamedTuplet(signs, index, group),
        lyrics: lyrics?.elements ?? [],
      },
      chanter: chanterOf(part, sign),
    };
  });
  return { signs: dressed, open };
}

/** Pipers' melody stems go down, so that gracenotes have the room above. A whole note has none. */
function stemOf(part: Part, sign: Sign, together: readonly Sign[]): "up" | "down" | null {
  if (sign.heads.length === 0 || sign.value.base === 1) return null;
  if (part.line.kind === "pipes") return "down";
  const { clef, octaves } = partClef(part);
  return stemDirection(together, clef, octaves);
}

/** Whether the tuplet that opens at a sign lies under one beam, so that its figure needs no bracket. */
function isBeamedTuplet(signs: readonly Sign[], index: number, group: readonly number[] | null): boolean {
  const last = signs.findIndex((sign, place) => place >= index && sign.closesTuplet);
  return group !== null && group[0] === index && group.at(-1) === last;
}

function chanterOf({ score, line }: Part, { source }: Sign): ChanterDressing | null {
  if (line.kind !== "pipes" || source.kind !== "note" || !isPipeNote(source)) return null;
  return { note: source.note, setup: line.setup, bandA: score.bandA };
}
