import { isPlayerId, playerOf } from "../ensemble/catalogue.ts";
import type { Player } from "../ensemble/player.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { shownPitch } from "../pitch/spelling.ts";
import { transposed } from "../pitch/transpose.ts";
import type { ConcertEvent, ConcertNote, OwnBar } from "./bar.ts";
import { type CheckedOwnBar, checkOwnBar, type OutOfReach, octavesIntoReach, outOfReach, type TiedOver } from "./check-concert-bar.ts";
import { concertEventsOf } from "./doubling.ts";
import type { Edit } from "./edit.ts";
import type { Finding } from "./finding.ts";
import type { Frame } from "./frame.ts";
import { MOST_OCTAVES } from "./limits.ts";
import { findingAt, looseTie } from "./local-finding.ts";
import { placedEvents } from "./placed-events.ts";
import type { ConcertLine, Score } from "./score.ts";

interface Kept extends CheckedOwnBar {
  readonly frame: Frame;
  readonly before: TiedOver | null;
}

const kept = new WeakMap<OwnBar, Kept>();
const reaches = new WeakMap<readonly ConcertEvent[], { readonly player: Player; readonly found: OutOfReach | null }>();

/** Everything found in a player's line, first to last. */
export function checkConcertLine(score: Score, line: ConcertLine): readonly Finding[] {
  return [...ownFindings(score, line), ...rangeFindings(score, line)];
}

function ownFindings(score: Score, line: ConcertLine): readonly Finding[] {
  const found: Finding[] = [];
  let before: TiedOver | null = null;
  line.bars.forEach((bar, index) => {
    const frame = score.frames[index];
    if (frame === undefined) return;
    // Doubled bars are looked at where they are written: in the pipes' line.
    if (bar.kind === "doubling") {
      before = null;
      return;
    }
    const checked = checkedOwn(bar, frame, before);
    for (const finding of checked.findings) found.push(findingAt(finding, line.id, index));
    before = checked.tiedOver;
  });
  const loose = before as TiedOver | null;
  if (loose !== null) found.push(findingAt(looseTie(0, loose.at), line.id, line.bars.length - 1));
  return found;
}

function checkedOwn(bar: OwnBar, frame: Frame, before: TiedOver | null): CheckedOwnBar {
  const known = kept.get(bar);
  if (known !== undefined && known.frame === frame && known.before?.note === before?.note && known.before?.at === before?.at) return known;
  const made: Kept = { ...checkOwnBar(bar.events, frame, before), frame, before };
  kept.set(bar, made);
  return made;
}

/** One finding for each bar of a player's own with a note out of reach, and one for each stretch of doubling. */
function rangeFindings(score: Score, line: ConcertLine): readonly Finding[] {
  if (!isPlayerId(line.player)) return [];
  const player = playerOf(line.player);
  const found: Finding[] = [];
  let told = -1;
  line.bars.forEach((bar, index) => {
    if (index <= told || score.frames[index] === undefined) return;
    const events = concertEventsOf(score, line, index);
    const reach = reachOf(events, player);
    if (reach === null) return;
    if (bar.kind === "own") {
      const edits = ownCure(line, index, events, player);
      const label = capital(octavesAway(reach.octaves, "higher", "lower"));
      found.push(rangeFinding(line, index, reach, player, edits.length === 0 ? [] : [{ label, edits }]));
      return;
    }
    const last = lastOfDoubling(line, index);
    const octaves = bar.octaves + reach.octaves;
    const edits: readonly Edit[] = [{ kind: "double", line: line.id, range: { first: index, last }, of: bar.of, octaves }];
    const label = octaves === 0 ? "Double at the pipes’ pitch" : `Double ${octavesAway(octaves, "above", "below")}`;
    found.push(rangeFinding(line, index, reach, player, Math.abs(octaves) <= MOST_OCTAVES ? [{ label, edits }] : []));
    told = last;
  });
  return found;
}

function reachOf(events: readonly ConcertEvent[], player: Player): OutOfReach | null {
  const known = reaches.get(events);
  if (known?.player === player) return known.found;
  const found = outOfReach(events, player);
  reaches.set(events, { player, found });
  return found;
}

function rangeFinding(
  line: ConcertLine,
  bar: number,
  { at, pitch, octaves }: OutOfReach,
  player: Player,
  cures: Finding["cures"],
): Finding {
  const [side, limit] = octaves > 0 ? ["under", player.range.lowest] : ["over", player.range.highest];
  const where = octavesAway(octaves, "higher", "lower");
  return {
    kind: "range",
    address: { line: line.id, bar, at },
    message: `${shownPitch(pitch)} lies ${side} ${shownPitch(limit)}, where this player’s range ends. Play it ${where}.`,
    cures,
  };
}

/** So many octaves up (down, if negative) in words: `an octave lower`, `2 octaves above`. */
function octavesAway(octaves: number, up: string, down: string): string {
  const count = Math.abs(octaves);
  return `${count === 1 ? "an octave" : `${count} octaves`} ${octaves > 0 ? up : down}`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Every note of the bar that is out of reach, octaves away; a note that is tied into the bar moves with its beginning. */
function ownCure(line: ConcertLine, bar: number, events: readonly ConcertEvent[], player: Player): readonly Edit[] {
  return placedEvents({ events }).flatMap(({ at, event }): readonly Edit[] => {
    if (event.kind === "rest") return [];
    const octaves = event.pitches.map((pitch) => octavesIntoReach(pitch, player)).find((one) => one !== 0);
    if (octaves === undefined) return [];
    return [{ kind: "repitch", at: { line: line.id, bar, at }, content: { kind: "concert", pitches: moved(event, octaves) } }];
  });
}

function moved(note: ConcertNote, octaves: number): readonly ConcertPitch[] {
  return note.pitches.map((pitch) => transposed(pitch, octaves * 7, octaves * 12));
}

/** The last bar of the stretch in which a player doubles as he does in a bar. */
function lastOfDoubling(line: ConcertLine, from: number): number {
  const first = line.bars[from];
  let last = from;
  for (let bar = line.bars[last + 1]; bar !== undefined; bar = line.bars[last + 1]) {
    if (bar.kind !== "doubling" || first?.kind !== "doubling" || bar.of !== first.of || bar.octaves !== first.octaves) break;
    last += 1;
  }
  return last;
}
