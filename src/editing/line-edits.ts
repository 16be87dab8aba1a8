import { PLAYERS } from "../ensemble/catalogue.ts";
import type { PlayerId } from "../ensemble/player.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { setupFault } from "../pipes/setup-fault.ts";
import type { ConcertBar, ConcertEvent, DoublingBar, OwnBar } from "../score/bar.ts";
import { concertEventsOf } from "../score/doubling.ts";
import type { BarRange } from "../score/edit.ts";
import { LONGEST_TEXT, MOST_LINES, MOST_OCTAVES } from "../score/limits.ts";
import type { LineId } from "../score/line-id.ts";
import { lineOf, pipeLineOf } from "../score/line-of.ts";
import { frameTicks } from "../score/meter.ts";
import { emptyPipeBar } from "../score/new-score.ts";
import type { ConcertLine, Line, Score } from "../score/score.ts";
import { done, type Outcome, refused } from "../units/outcome.ts";
import { isRange } from "./bars-in-and-out.ts";
import { restOf } from "./events-made.ts";
import { NO_SUCH_BAR } from "./refusals.ts";
import { withLine } from "./with-bars.ts";

const NO_PIPES = refused("There are no such pipes to double.");
const NO_OCTAVES = refused(`A player doubles at most ${MOST_OCTAVES} octaves away.`);
const NO_LINE = refused("There is no such line.");

/** Adds a set of pipes that does not play yet, after the other lines. */
export function addPipes(score: Score, id: LineId, name: string, setup: PipeSetup): Outcome<Score> {
  return setupRefusal(setup) ?? added(score, { kind: "pipes", id, name, setup, bars: score.frames.map(emptyPipeBar) });
}

/** Adds a player after the other lines, who doubles some pipes all through or does not play yet. */
export function addPlayer(
  score: Score,
  { id, name, player, doubles, octaves }: { id: LineId; name: string; player: PlayerId; doubles: LineId | null; octaves: number },
): Outcome<Score> {
  if (!PLAYERS.some((one) => one.id === player)) return refused("Nobody plays that instrument here.");
  if (doubles !== null && pipeLineOf(score, doubles) === null) return NO_PIPES;
  if (!isOctaves(octaves)) return NO_OCTAVES;
  const doubling: ConcertBar | null = doubles === null ? null : { kind: "doubling", of: doubles, octaves: octaves + 0 };
  const bars = score.frames.map((frame): ConcertBar => doubling ?? { kind: "own", events: [restOf(frameTicks(frame))] });
  return added(score, { kind: "concert", id, name, player, bars });
}

function added(score: Score, line: Line): Outcome<Score> {
  if (line.id === "" || line.id.length > LONGEST_TEXT) return refused("A line needs a name.");
  if (lineOf(score, line.id) !== null) return refused("There is a line of that name already.");
  if (score.lines.length >= MOST_LINES) return refused(`A sketch has at most ${MOST_LINES} lines.`);
  if (!isName(line.name)) return refused("A line needs a name.");
  return done({ ...score, lines: [...score.lines, line] });
}

/** Changes what a part is headed with; the line keeps its id. */
export function renameLine(score: Score, id: LineId, name: string): Outcome<Score> {
  const line = lineOf(score, id);
  if (line === null) return NO_LINE;
  if (!isName(name)) return refused("A line needs a name.");
  return done(withLine(score, { ...line, name }));
}

/** Takes a line out. Who doubled it keeps the notes as his own. */
export function removeLine(score: Score, id: LineId): Outcome<Score> {
  if (lineOf(score, id) === null) return NO_LINE;
  if (score.lines.length === 1) return refused("One line has to stay.");
  const lines = score.lines
    .filter((line) => line.id !== id)
    .map((line) => (line.kind === "pipes" ? line : withoutDoubling(score, line, id)));
  return done({ ...score, lines });
}

function withoutDoubling(score: Score, line: ConcertLine, id: LineId): ConcertLine {
  if (!line.bars.some((bar) => bar.kind === "doubling" && bar.of === id)) return line;
  return { ...line, bars: line.bars.map((bar, index) => (bar.kind === "doubling" && bar.of === id ? ownBar(score, line, index) : bar)) };
}

/** Gives a set of pipes another setup. Its notes stay the same chanter notes, so they sound elsewhere; who doubles them follows. */
export function changeSetup(score: Score, id: LineId, setup: PipeSetup): Outcome<Score> {
  const line = pipeLineOf(score, id);
  if (line === null) return refused("Only pipes have a setup.");
  return setupRefusal(setup) ?? done(withLine(score, { ...line, setup }));
}

/** Lets a player double some pipes. Notes of his own go; bars in which he sings words of his own are refused. */
export function double(score: Score, id: LineId, range: BarRange, of: LineId, octaves: number): Outcome<Score> {
  const line = lineOf(score, id);
  if (line?.kind !== "concert") return refused("Only the other players double the pipes.");
  if (!isRange(score, range)) return NO_SUCH_BAR;
  if (pipeLineOf(score, of) === null) return NO_PIPES;
  if (!isOctaves(octaves)) return NO_OCTAVES;
  // Adding 0 makes a zero of a minus zero, which a saved sketch could not tell.
  const doubling: DoublingBar = { kind: "doubling", of, octaves: octaves + 0 };
  const isSame = (bar: ConcertBar): boolean => bar.kind === "doubling" && bar.of === of && bar.octaves === doubling.octaves;
  const bars = line.bars.map((bar, index) => (index < range.first || index > range.last || isSame(bar) ? bar : doubling));
  return done(withLine(score, { ...line, bars }));
}

/** Makes the doubled bars of a range a player's own, note for note. */
export function makeOwn(score: Score, id: LineId, range: BarRange): Outcome<Score> {
  const line = lineOf(score, id);
  if (line?.kind !== "concert") return refused("Only the other players double the pipes.");
  if (!isRange(score, range)) return NO_SUCH_BAR;
  const bars = line.bars.map((bar, index) =>
    bar.kind === "doubling" && index >= range.first && index <= range.last ? ownBar(score, line, index) : bar,
  );
  return done(withLine(score, { ...line, bars }));
}

function setupRefusal(setup: PipeSetup): ReturnType<typeof refused<string>> | null {
  const fault = setupFault(setup);
  return fault === null ? null : refused(`No pipes are like that: ${fault.where} is ${fault.found}, and has to be ${fault.expected}.`);
}

function ownBar(score: Score, line: ConcertLine, index: number): OwnBar {
  const events: readonly ConcertEvent[] = concertEventsOf(score, line, index);
  return { kind: "own", events };
}

function isName(name: string): boolean {
  return name.trim() !== "" && name.length <= LONGEST_TEXT;
}

function isOctaves(octaves: number): boolean {
  return Number.isInteger(octaves) && Math.abs(octaves) <= MOST_OCTAVES;
}
