import * as v from "valibot";
import { setupFault } from "../pipes/setup-fault.ts";
import { concertPitchOf } from "../pipes/sounding.ts";
import { semitoneOf } from "../pitch/semitone.ts";
import { ReadError } from "../units/read-error.ts";
import { LONGEST_FILE } from "./limits.ts";
import { frameTicks, meterTicks } from "./meter.ts";
import { SAVED_SCORE } from "./saved-schema.ts";
import { type SavedFields, upgraded } from "./saved-upgrades.ts";
import { SAVED_VERSION, writeScore } from "./saved-writing.ts";
import type { Line, PipeLine, Score } from "./score.ts";

/** Thrown for a sketch that a later version of the program saved. */
export class LaterVersionError extends ReadError {
  constructor(version: number) {
    super({ where: "version", expected: `at most ${SAVED_VERSION}`, found: String(version) });
    this.name = "LaterVersionError";
    this.message = `Saved by a later Ninefold (version ${version}). This one reads up to ${SAVED_VERSION}.`;
  }
}

/** The sketch as text: JSON, one bar a line, the same text for the same score. */
export function savedFormOf(score: Score): string {
  return writeScore(score);
}

/**
 * The score that was saved. Older versions are brought up to date; bars that do not fill their frames are taken as they are, `check` finds them.
 * @throws ReadError when the text is no sketch, or one that cannot be right: the path of the first fault, what was expected and what was found.
 */
export function scoreFromSavedForm(saved: string): Score {
  const fields = upgraded(fieldsOf(saved), SAVED_VERSION);
  const read = v.safeParse(SAVED_SCORE, fields, { abortEarly: true, abortPipeEarly: true });
  if (!read.success) throw errorOf(read.issues[0]);
  const score = read.output as unknown as Score;
  checkStructure(score);
  return score;
}

function fieldsOf(saved: string): SavedFields & { readonly version: number } {
  if (saved.length > LONGEST_FILE)
    throw new ReadError({ where: "file", expected: `at most ${LONGEST_FILE} characters`, found: `${saved.length}` });
  const value = parsed(saved);
  if (!isFields(value) || value.format !== "ninefold") {
    throw new ReadError({
      where: "file",
      expected: "a sketch saved by Ninefold",
      found: isFields(value) ? "another kind of file" : shown(value),
    });
  }
  const { format: _, version, ...fields } = value;
  if (!Number.isInteger(version) || (version as number) < 1) {
    throw new ReadError({ where: "version", expected: "a whole number from 1", found: shown(version) });
  }
  if ((version as number) > SAVED_VERSION) throw new LaterVersionError(version as number);
  return { ...fields, version: version as number };
}

function parsed(saved: string): unknown {
  try {
    return JSON.parse(saved.charCodeAt(0) === 0xfeff ? saved.slice(1) : saved);
  } catch {
    // The engine's own words for what is wrong differ from one to the next, so they are not passed on.
    throw new ReadError({ where: "file", expected: "JSON", found: saved.trim() === "" ? "nothing" : "text that is not JSON" });
  }
}

function isFields(value: unknown): value is SavedFields {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** What a schema cannot say: what has to agree with something elsewhere in the file. */
function checkStructure(score: Score): void {
  score.frames.forEach((frame, bar) => {
    const where = `frames[${bar}]`;
    if (frame.short !== null)
      require(frame.short <= meterTicks(frame.meter), `${where}.short`, "no longer than the meter says", frame.short);
    frame.chords.forEach((chord, index) => {
      const before = frame.chords[index - 1];
      require(chord.at < frameTicks(frame), `${where}.chords[${index}].at`, "a time inside the bar", chord.at);
      require(before === undefined || before.at < chord.at, `${where}.chords[${index}].at`, "a time after the chord before", chord.at);
    });
  });
  const pipes = new Set(score.lines.filter((line) => line.kind === "pipes").map((line) => line.id));
  const known = new Set<string>();
  score.lines.forEach((line, index) => {
    const where = `lines[${index}]`;
    require(!known.has(line.id), `${where}.id`, "an id that no other line has", line.id);
    known.add(line.id);
    require(line.bars.length === score.frames.length, `${where}.bars`, `${score.frames.length} bars, one for each frame`, line.bars.length);
    if (line.kind === "pipes") checkSetup(line, where);
    else checkConcertBars(line, where, pipes);
  });
}

function checkSetup(line: PipeLine, where: string): void {
  const fault = setupFault(line.setup);
  if (fault !== null) throw new ReadError({ ...fault, where: `${where}.setup.${fault.where}` });
  try {
    concertPitchOf(line.setup, "c");
  } catch {
    throw new ReadError({
      where: `${where}.setup.lowAIs`,
      expected: "a name from which every note can be spelled",
      found: line.setup.lowAIs,
    });
  }
}

function checkConcertBars(line: Line & { kind: "concert" }, where: string, pipes: ReadonlySet<string>): void {
  line.bars.forEach((bar, index) => {
    if (bar.kind === "doubling") {
      require(pipes.has(bar.of), `${where}.bars[${index}].of`, "the id of a pipe line", bar.of);
      return;
    }
    bar.events.forEach((event, place) => {
      if (event.kind === "rest") return;
      const rising = event.pitches.every((pitch, at) => at === 0 || semitoneOf(event.pitches[at - 1] as typeof pitch) <= semitoneOf(pitch));
      require(rising, `${where}.bars[${index}].events[${place}].pitches`, "the lowest pitch first", event.pitches.join(" "));
    });
  });
}

function require(holds: boolean, where: string, expected: string, found: unknown): void {
  if (!holds) throw new ReadError({ where, expected, found: shown(found) });
}

function errorOf(issue: v.BaseIssue<unknown>): ReadError {
  const last = issue.path?.at(-1);
  const where = pathOf(issue);
  if (last !== undefined && "origin" in last && last.origin === "key") {
    const missing = issue.received === "undefined";
    return new ReadError({ where, expected: missing ? "a value" : "no entry of that name", found: missing ? "nothing" : "one" });
  }
  const expected = issue.message.startsWith("Invalid") ? (issue.expected ?? "another value") : issue.message;
  return new ReadError({ where, expected, found: shown(issue.input) });
}

/** `lines[0].bars[3].events[1].ticks` */
function pathOf(issue: v.BaseIssue<unknown>): string {
  const steps = (issue.path ?? []).map((step) => (typeof step.key === "number" ? `[${step.key}]` : `.${String(step.key)}`)).join("");
  return steps === "" ? "file" : steps.replace(/^\./, "");
}

/** A value in so few characters that it fits into a sentence. */
function shown(value: unknown): string {
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) return "an object";
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}
