import { done, type Outcome, refused } from "../units/outcome.ts";
import type { ChanterNote, PlainNote } from "./chanter-note.ts";
import type { FingeringTable } from "./fingering-table.ts";
import type { Hole } from "./fingerings.ts";
import { type GracenoteFault, gracenoteFaultSentence } from "./gracenote-fault.ts";
import { type GracenoteMovement, LOWER_HAND, movementUpon } from "./gracenote-movement.ts";
import { soundingHole, soundsLike } from "./sounding-hole.ts";

/** Gracenotes where they stand: between the note that sounds before them and the note they lead into. */
export interface GracenotePlace {
  /** Null after silence. */
  readonly before: ChanterNote | null;
  readonly note: ChanterNote;
}

/**
 * What the fingers do for each gracenote of a group, in the order they are played: any spelling, in a table or not. Refused, with the
 * reason in a sentence, when one cannot be fingered or would not be heard.
 *
 * A group is read from its end: each gracenote is a lift or a strike upon what sounds after it, and its undoing leads there.
 *
 *     {g  B  d} B        d: lower index lifted upon B      B: put down again      g: upper index lifted upon B
 */
export function movementsOf(
  table: FingeringTable,
  gracenotes: readonly PlainNote[],
  place: GracenotePlace,
): Outcome<readonly GracenoteMovement[]> {
  const movements: GracenoteMovement[] = [];
  let beneath = table[place.note];
  for (const [fromEnd, gracenote] of gracenotes.toReversed().entries()) {
    const index = gracenotes.length - 1 - fromEnd;
    const follower = gracenotes[index + 1] ?? null;
    const refusal = (fault: GracenoteFault) => refused(faultSentence(gracenotes, index, place, fault));
    const upon = movementUpon(beneath, gracenote, standingFor(gracenote, table, place.note));
    if (!upon.ok) return refusal(upon.reason);
    const movement = upon.value;
    const fault = overForkInside(movement, follower) ?? strikeFault(movement, gracenote, gracenotes.length);
    if (fault) return refusal(fault);
    movements.unshift(movement);
    beneath = movement.holes;
  }
  return heardInTurn(table, gracenotes, place, movements);
}

/**
 * The fingering a gracenote stands for. Inside an embellishment upon C natural or F natural the letter of the melody note means that very
 * note: the C of `{gcd}` is then C natural.
 */
function standingFor(gracenote: PlainNote, table: FingeringTable, note: ChanterNote): readonly Hole[] {
  const natural: ChanterNote | null = gracenote === "c" ? "c-natural" : gracenote === "f" ? "f-natural" : null;
  return table[natural === note ? natural : gracenote];
}

/** A finger lifted under an open thumb is heard on high G sharp itself, not upon a gracenote that happens to have its holes. */
function overForkInside({ kind, fingers, holes }: GracenoteMovement, follower: PlainNote | null): GracenoteFault | null {
  const heardBelowOpenHole = kind === "lift" && follower !== null && fingers[0] !== soundingHole(holes);
  return heardBelowOpenHole ? { kind: "nothing-to-move" } : null;
}

/**
 * A strike is one finger of the upper hand, or fingers of the lower hand together; only inside a group do both hands go down, to low G.
 * *Source:* derived from the strikes in use; it leaves two high As the strike G alone, and two high Gs the F.
 */
function strikeFault({ kind, fingers }: GracenoteMovement, gracenote: PlainNote, length: number): GracenoteFault | null {
  if (kind === "lift" || (gracenote === "low-g" && length > 1)) return null;
  const together = fingers.length === 1 || fingers.every((finger) => finger >= LOWER_HAND);
  return together ? null : { kind: "strikes-several", fingers };
}

/** Whether each gracenote is heard after what sounds before it. That it is heard before what follows lies in every movement. */
function heardInTurn(
  table: FingeringTable,
  gracenotes: readonly PlainNote[],
  place: GracenotePlace,
  movements: readonly GracenoteMovement[],
): Outcome<readonly GracenoteMovement[]> {
  let sounding = place.before === null ? null : table[place.before];
  for (const [index, movement] of movements.entries()) {
    const gracenote = gracenotes[index] as PlainNote;
    const fault = unheardAfter(sounding, movement, gracenote);
    if (fault) return refused(faultSentence(gracenotes, index, place, fault));
    sounding = movement.holes;
  }
  return done(movements);
}

/**
 * The two highest gracenotes are refused next to a note that has their finger off already; a struck G needs high A before it. Lower ones
 * only have to sound unlike what comes before: an E after F has no finger to lift, and yet it is heard.
 * *Source:* derived; that a G is impossible next to high G and high A follows from its being one finger lifted.
 */
function unheardAfter(sounding: readonly Hole[] | null, movement: GracenoteMovement, gracenote: PlainNote): GracenoteFault | null {
  const struckG = gracenote === "high-g" && movement.kind === "strike";
  if (struckG && (sounding === null || soundingHole(sounding) !== 0)) return { kind: "struck-from-below" };
  if (sounding === null) return null;
  const topLift = movement.kind === "lift" && (gracenote === "high-g" || gracenote === "high-a");
  if (topLift && movement.fingers.some((finger) => sounding[finger] !== "closed")) return { kind: "off-before" };
  return soundsLike(sounding, movement.holes) ? { kind: "sounds-already" } : null;
}

function faultSentence(gracenotes: readonly PlainNote[], index: number, { before, note }: GracenotePlace, fault: GracenoteFault): string {
  const earlier = gracenotes[index - 1];
  const previous = earlier ? ({ kind: "gracenote", note: earlier } as const) : before && ({ kind: "note", note: before } as const);
  return gracenoteFaultSentence(
    { gracenote: gracenotes[index] as PlainNote, previous, follower: gracenotes[index + 1] ?? null, note },
    fault,
  );
}
