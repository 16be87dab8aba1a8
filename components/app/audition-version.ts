import { type AuditionVersion, auditionsAt } from "../../src/arranging/auditions.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { snippetOf } from "../../src/engraving/snippet.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import { withSigns } from "../../src/pitch/spelling.ts";
import { type AuditionCompany, companyAt, inCompany } from "../../src/playback/audition-company.ts";
import type { Blend } from "../../src/playback/blend.ts";
import { type JudgedNote, judgedNote } from "../../src/playback/judged-note.ts";
import type { Address } from "../../src/score/address.ts";
import { chordSpans } from "../../src/score/chords-in-force.ts";
import type { BarRange } from "../../src/score/edit.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import type { Score } from "../../src/score/score.ts";

/** A version with all that is seen, heard and judged of it. */
export interface SeenVersion {
  readonly version: AuditionVersion;
  /** The sketch as this version has it. */
  readonly score: Score;
  /** The same as it is heard. */
  readonly heard: Score;
  /** One for each note it plays at the place. */
  readonly judged: readonly JudgedNote[];
  /** The chord there, as it is shown, or an empty text. */
  readonly chord: string;
  /** What sounds before and after; null for silence. */
  readonly before: ChanterNote | null;
  readonly after: ChanterNote | null;
}

/** The versions of one question that can be had, in order. One whose edits are refused (a word would lose its note) is left out. */
export function seenVersions(score: Score, at: Address, question: number, company: AuditionCompany, blend: Blend): readonly SeenVersion[] {
  const versions = auditionsAt(score, at).offers[question]?.versions ?? [];
  return versions.flatMap((version): readonly SeenVersion[] => {
    const applied = version.edits.length === 0 ? { ok: true as const, value: score } : applyEdits(score, version.edits);
    if (!applied.ok) return [];
    const heard = inCompany(applied.value, company);
    const line = pipeLineOf(applied.value, at.line);
    if (line === null) return [];
    const beside = companyAt(heard, at, blend);
    const span = chordSpans(applied.value.frames, at.bar).find(({ from, to }) => from <= at.at && at.at < to);
    return [
      {
        version,
        score: applied.value,
        heard,
        judged: version.notes.map((note) => judgedNote(line.setup, note, beside)),
        chord: span === undefined ? "" : withSigns(span.symbol),
        ...neighbours(applied.value, at, version.notes.length),
      },
    ];
  });
}

/** What sounds before the first and after the last of some notes that begin at a place. */
function neighbours(score: Score, at: Address, count: number): Pick<SeenVersion, "before" | "after"> {
  const line = pipeLineOf(score, at.line);
  const notes = [-1, 0, 1].flatMap((step) => {
    const bar = line?.bars[at.bar + step];
    return bar === undefined ? [] : placedEvents(bar).map(({ at: moment, event }) => ({ bar: at.bar + step, at: moment, event }));
  });
  const here = notes.findIndex(({ bar, at: moment }) => bar === at.bar && moment === at.at);
  const soundingAt = (index: number): ChanterNote | null => {
    const found = notes[index]?.event;
    return found?.kind === "note" ? found.note : null;
  };
  const [before, first] = [notes[here - 1]?.event, notes[here]?.event];
  const silent = before?.kind === "note" && before.cutOff;
  return {
    before: silent || (first?.kind === "note" && first.strikeIn) ? null : soundingAt(here - 1),
    after: soundingAt(here + count),
  };
}

/** The bars around a place as a picture's drawing. */
export function pictureOf({ score }: SeenVersion, at: Address, range: BarRange, width: number) {
  const line = pipeLineOf(score, at.line);
  return line === null ? null : snippetOf(score, line, range, width);
}
