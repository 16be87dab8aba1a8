import { isBandA } from "../pitch/reference-pitch.ts";
import type { Address } from "../score/address.ts";
import { timeOf } from "../score/bar-starts.ts";
import type { Edit } from "../score/edit.ts";
import type { Frame } from "../score/frame.ts";
import { LONGEST_TEXT } from "../score/limits.ts";
import { lineOf, pipeLineOf } from "../score/line-of.ts";
import { frameTicks } from "../score/meter.ts";
import type { Credits, Score } from "../score/score.ts";
import { assertNever } from "../units/assert-never.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import type { Ticks } from "../units/ticks.ts";
import { insertBars, insertClip, removeBars } from "./bars-in-and-out.ts";
import { emptied, grace, hold, move, repitch, resize, sing, split, tie } from "./change-notes.ts";
import { cutToFrame } from "./cut-to-frame.ts";
import { changeChords, changeKey, changeSection, changeTempo, changeTune } from "./frame-edits.ts";
import { type GracenotesEdit, graceMany } from "./grace-many.ts";
import { addPipes, addPlayer, changeSetup, double, makeOwn, removeLine, renameLine } from "./line-edits.ts";
import { lostWords } from "./lost-words.ts";
import { tiesMended } from "./mended-ties.ts";
import { changeMeter } from "./meter-change.ts";
import { moveBand } from "./move-band.ts";
import { paste } from "./paste.ts";
import { changePickup } from "./pickup.ts";
import { place } from "./place.ts";
import { CUTS_TUPLET, NO_SUCH_BAR } from "./refusals.ts";
import { changeEnding, changeRepeat } from "./repeats.ts";
import { cutOff, strikeIn } from "./strike-and-cut.ts";
import { breaksTuplet } from "./tuplet-law.ts";
import { sharing } from "./with-bars.ts";

/** Edits that say themselves that something goes, words and all. All others keep every sung syllable or are refused. */
const REMOVING: ReadonlySet<Edit["kind"]> = new Set(["clear", "paste", "syllables", "remove-bars", "remove-line"]);

/**
 * The score after an edit: it shares every frame and bar that was not touched, and its revision is one higher. A refusal is a sentence for the
 * reading line; the score is then as it was. Bars that a player doubles become his own when their notes are edited.
 */
export function applyEdit(score: Score, edit: Edit): Outcome<Score> {
  const place = addressOf(edit);
  const misplaced = place.find((at) => !isAddress(score, at, edit));
  if (misplaced !== undefined) return lineOf(score, misplaced.line) === null ? refused("There is no such line.") : NO_SUCH_BAR;
  const changed = change(score, edit);
  if (!changed.ok) return changed;
  if (breaksTuplet(score, changed.value)) return CUTS_TUPLET;
  const lost = REMOVING.has(edit.kind) ? [] : lostWords(score, changed.value);
  if (lost[0] !== undefined) return refused(`“${lost[0].text}” would lose its note. Move or clear the word first.`);
  return done({ ...sharing(score, tiesMended(score, changed.value)), revision: score.revision + 1 });
}

/** The score after several edits in order, or the first refusal; the score is then as it was before them all. */
export function applyEdits(score: Score, edits: readonly Edit[]): Outcome<Score> {
  let current = score;
  for (let index = 0; index < edits.length; ) {
    const run = gracenotesFrom(edits, index);
    const graced = run.length > 1 ? gracedAtOnce(current, run) : null;
    if (graced !== null) {
      current = graced;
      index += run.length;
      continue;
    }
    const applied = applyEdit(current, edits[index] as Edit);
    if (!applied.ok) return applied;
    current = applied.value;
    index += 1;
  }
  return done(current);
}

/** The edits from an index on that give gracenotes to notes of one line. */
function gracenotesFrom(edits: readonly Edit[], index: number): readonly GracenotesEdit[] {
  const run: GracenotesEdit[] = [];
  for (const edit of edits.slice(index)) {
    if (edit.kind !== "gracenotes" || (run[0] !== undefined && run[0].at.line !== edit.at.line)) break;
    run.push(edit);
  }
  return run;
}

/** Null where one of them would be refused: it is for that one to say why. */
function gracedAtOnce(score: Score, run: readonly GracenotesEdit[]): Score | null {
  const line = pipeLineOf(score, run[0]?.at.line ?? "");
  return line !== null && run.every((edit) => isAddress(score, edit.at, edit)) ? graceMany(score, line, run) : null;
}

/** The moments of lines that an edit names. */
function addressOf(edit: Edit): readonly Address[] {
  if (edit.kind === "clear") return [edit.from];
  if (edit.kind === "move") return [edit.at, edit.to];
  return "at" in edit ? [edit.at] : [];
}

function isAddress(score: Score, { line, bar, at }: Address, edit: Edit): boolean {
  const frame = score.frames[bar];
  if (lineOf(score, line) === null || frame === undefined) return false;
  // What runs over the end of a bar that is too long can be named so that it can be cut.
  const reach = edit.kind === "clear" ? Number.POSITIVE_INFINITY : frameTicks(frame);
  return Number.isInteger(at) && at >= 0 && at < reach;
}

function change(score: Score, edit: Edit): Outcome<Score> {
  const time = (at: Address): number => timeOf(score.frames, at);
  switch (edit.kind) {
    case "place":
      return place(score, edit.at.line, time(edit.at), edit.ticks, edit.tuplet, edit.content);
    case "repitch":
      return repitch(score, edit.at.line, time(edit.at), edit.content);
    case "resize":
      return resize(score, edit.at.line, time(edit.at), edit.ticks);
    case "move":
      return move(score, edit.at.line, time(edit.at), edit.to.line, time(edit.to), edit.content);
    case "split":
      return split(score, edit.at.line, time(edit.at), edit.ticks);
    case "tie":
      return tie(score, edit.at.line, time(edit.at), edit.tied);
    case "clear":
      return clear(score, edit.from, edit.ticks);
    case "gracenotes":
      return grace(score, edit.at.line, time(edit.at), edit.gracenotes);
    case "syllables":
      return sing(score, edit.at.line, time(edit.at), edit.syllables);
    case "strike-in":
      return strikeIn(score, edit.at.line, time(edit.at), edit.on);
    case "cut-off":
      return cutOff(score, edit.at.line, time(edit.at), edit.on);
    case "hold":
      return hold(score, edit.at.line, time(edit.at));
    case "paste":
      return paste(score, edit.at.line, time(edit.at), edit.clip);
    case "insert-bars":
      return insertBars(score, edit.before, edit.count);
    case "insert-clip":
      return insertClip(score, edit.before, edit.clip);
    case "remove-bars":
      return removeBars(score, edit.range);
    case "title":
      return titled(score, edit.title);
    case "credits":
      return credited(score, edit.credits);
    case "band-a":
      return isBandA(edit.bandA) ? done({ ...score, bandA: edit.bandA }) : refused("A band’s A lies between 380 and 480 Hz.");
    case "meter":
      return changeMeter(score, edit.range, edit.meter);
    case "pickup":
      return changePickup(score, edit.ticks);
    case "tempo":
      return changeTempo(score, edit.range, edit.tempo);
    case "key":
      return changeKey(score, edit.range, edit.key);
    case "move-band":
      return moveBand(score, edit.range, edit);
    case "section":
      return changeSection(score, edit.bar, edit.section);
    case "tune":
      return changeTune(score, edit.bar, edit.tune);
    case "chords":
      return changeChords(score, edit.bar, edit.chords);
    case "repeat":
      return changeRepeat(score, edit.range, edit.on);
    case "ending":
      return changeEnding(score, edit.range, edit.ending);
    case "setup":
      return changeSetup(score, edit.line, edit.setup);
    case "add-pipes":
      return addPipes(score, edit.id, edit.name, edit.setup);
    case "add-player":
      return addPlayer(score, edit);
    case "rename-line":
      return renameLine(score, edit.line, edit.name);
    case "remove-line":
      return removeLine(score, edit.line);
    case "double":
      return double(score, edit.line, edit.range, edit.of, edit.octaves);
    case "make-own":
      return makeOwn(score, edit.line, edit.range);
    default:
      return assertNever(edit);
  }
}

function clear(score: Score, from: Address, length: Ticks): Outcome<Score> {
  const runsOver = from.at >= frameTicks(score.frames[from.bar] as Frame);
  if (runsOver) return cutToFrame(score, from.line, from.bar);
  const time = timeOf(score.frames, from);
  return emptied(score, from.line, time, time + length);
}

function titled(score: Score, title: string): Outcome<Score> {
  return title.length > LONGEST_TEXT ? refused(`A title has at most ${LONGEST_TEXT} characters.`) : done({ ...score, title });
}

function credited(score: Score, credits: Credits): Outcome<Score> {
  const tooLong = Object.values(credits).some((text: string) => text.length > LONGEST_TEXT);
  return tooLong ? refused(`A name has at most ${LONGEST_TEXT} characters.`) : done({ ...score, credits });
}
