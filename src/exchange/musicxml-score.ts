import { type PartStyle, PLAIN_STYLE } from "../engraving/part-style.ts";
import { stretchesOf } from "../engraving/stretches.ts";
import type { Line, Score } from "../score/score.ts";
import { identificationElement, partListElement } from "./musicxml-head.ts";
import { measureElements } from "./musicxml-measures.ts";
import type { Part } from "./musicxml-part.ts";
import { element, elementWith, unlessEmpty, xmlDocument } from "./xml.ts";

const DOCUMENT_TYPE =
  '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">';

/** What may be chosen about a file. */
export interface MusicxmlOptions {
  /** The day it is made, `2026-11-25`; left out unless it is given, so that the same score gives the same file. */
  readonly encodingDate?: string;
  /** Which notes of the pipes say their holes: cross-fingered ones where the printed page charts them, or every one, as a learner's part does (cross-fingered). */
  readonly charts?: PartStyle["charts"];
}

/**
 * The whole score as MusicXML 4.0, every player's part at written pitch, in score order.
 * *Source:* MusicXML 4.0, W3C Music Notation Community Group.
 */
export function musicxmlOfScore(score: Score, options: MusicxmlOptions = {}): string {
  return documentOf(score, score.lines, options);
}

/**
 * One player's part as MusicXML 4.0.
 * @throws RangeError when the line is not of the score.
 */
export function musicxmlOfPart(score: Score, line: Line, options: MusicxmlOptions = {}): string {
  if (!score.lines.includes(line)) throw new RangeError(`The score has no line ${line.id}.`);
  return documentOf(score, [line], options);
}

function documentOf(score: Score, lines: readonly Line[], { encodingDate, charts = PLAIN_STYLE.charts }: MusicxmlOptions): string {
  const parts = lines.map(
    (line, index): Part => ({
      score,
      line,
      id: `P${index + 1}`,
      charts,
      restsFrom: lines.length > 1 ? new Map() : longRests(score, line),
    }),
  );
  return xmlDocument(
    DOCUMENT_TYPE,
    elementWith(
      "score-partwise",
      { version: "4.0" },
      score.title.trim() === "" ? null : element("work", unlessEmpty("work-title", {}, score.title)),
      identificationElement(score, encodingDate ?? null),
      partListElement(parts),
      ...parts.map((part) => elementWith("part", { id: part.id }, ...measureElements(part))),
    ),
  );
}

/** The silent bars that the printed part gathers in one rest: how many, by the first of them. */
function longRests(score: Score, line: Line): ReadonlyMap<number, number> {
  const long = stretchesOf(score, line).filter(({ first, last }) => last > first);
  return new Map(long.map(({ first, last }) => [first, last - first + 1]));
}
