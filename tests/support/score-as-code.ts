import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeEvent, PipeNote } from "../../src/score/bar.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { LineEvent } from "../../src/score/like-events.ts";
import { savedFormOf } from "../../src/score/saved-form.ts";
import type { Line, Score } from "../../src/score/score.ts";

/** How each chanter note is written: the letters of ABC as piped, cross-fingered ones with their accidental. */
export const LETTERS: Readonly<Record<ChanterNote, string>> = {
  "low-g": "G",
  "low-a": "A",
  b: "B",
  "c-natural": "=c",
  c: "c",
  d: "d",
  e: "e",
  "f-natural": "=f",
  f: "f",
  "high-g": "g",
  "high-g-sharp": "^g",
  "high-a": "a",
};

/** A case of a law that failed, to be read (each line as ABC with eighths as the unit) and to be pasted into a test. */
export function caseAsCode(score: Score, edits: readonly Edit[]): string {
  const lines = score.lines.map((line) => `// ${line.id}: ${lineAsAbc(line)}`);
  const meters = score.frames.map(({ meter, short }) => `${meter.beats}/${meter.unit}${short === null ? "" : ` (${short})`}`);
  return [
    "",
    `// ${meters.join(" | ")}`,
    ...lines,
    `const score = scoreFromSavedForm(String.raw\`${savedFormOf(score)}\`);`,
    `const edits: Edit[] = ${JSON.stringify(edits)};`,
    "",
  ].join("\n");
}

/** A line as ABC: `!` after a note is a strike-in, `.` a cut-off, `3:` or `2:` before it a tuplet. */
export function lineAsAbc(line: Line): string {
  return line.bars
    .map((bar) => (bar.kind === "doubling" ? `(with ${bar.of})` : (bar.events as readonly LineEvent[]).map(eventAsAbc).join(" ")))
    .join(" | ");
}

function eventAsAbc(event: LineEvent): string {
  const tuplet = event.tuplet === null ? "" : `${event.tuplet}:`;
  if (event.kind === "rest") return `${tuplet}z${lengthAsAbc(event.ticks)}`;
  const words = event.syllables.map(({ text }) => `"${text}"`).join("");
  const tie = event.tied ? "-" : "";
  if (!("note" in event)) return `${tuplet}${words}[${event.pitches.join(" ")}]${lengthAsAbc(event.ticks)}${tie}`;
  return `${tuplet}${words}${gracesAsAbc(event)}${LETTERS[event.note]}${lengthAsAbc(event.ticks)}${event.strikeIn ? "!" : ""}${event.cutOff ? "." : ""}${tie}`;
}

function gracesAsAbc({ gracenotes }: PipeNote): string {
  return gracenotes.length === 0 ? "" : `{${gracenotes.map((note) => LETTERS[note]).join("")}}`;
}

function lengthAsAbc(length: number): string {
  if (length % 480 === 0) return length === 480 ? "" : String(length / 480);
  return `${length}/480`;
}

/** Events of one pipe bar as ABC. */
export function barAsAbc(events: readonly PipeEvent[]): string {
  return events.map(eventAsAbc).join(" ");
}
