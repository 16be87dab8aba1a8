import type { BarDrawing, Mark, MarkGroup } from "../../src/engraving/drawing.ts";
import type { PlacedDrawing } from "../../src/engraving/page-drawing.ts";
import { boxesMeet, overlap, type Shape, shapeOf } from "./ink-shapes.ts";

/** What a mark is to a reader. */
export type MarkKind =
  | "staff line"
  | "bar line"
  | "repeat dot"
  | "signature"
  | "head"
  | "stem"
  | "flag"
  | "ledger line"
  | "accidental"
  | "dot"
  | "rest"
  | "gracenote head"
  | "gracenote stem"
  | "gracenote flag"
  | "gracenote beam"
  | "gracenote ledger line"
  | "beam"
  | "tie"
  | "tuplet"
  | "hole chart"
  | "words"
  | "syllable"
  | "chord"
  | "ending"
  | "furniture";

/** One mark where it stands on the paper. */
export interface PlacedMark {
  readonly kind: MarkKind;
  readonly mark: Mark;
  readonly group: MarkGroup;
  readonly shape: Shape;
}

/** Two marks that lie upon each other and may not. */
export interface Collision {
  readonly one: PlacedMark;
  readonly other: PlacedMark;
}

/** Where a pair may lie upon each other: anywhere, or only as parts of one group of marks. */
type Where = "anywhere" | "in one group" | "at the tip";

interface AllowedPair {
  readonly of: readonly MarkKind[];
  readonly with: readonly MarkKind[];
  readonly where: Where;
  readonly because: string;
}

const ON_THE_STAFF: readonly MarkKind[] = [
  "bar line",
  "repeat dot",
  "signature",
  "head",
  "stem",
  "flag",
  "accidental",
  "dot",
  "rest",
  "gracenote head",
  "gracenote stem",
  "gracenote flag",
  "gracenote beam",
  "beam",
  "tie",
];

/** The only marks that may lie upon each other. */
const ALLOWED: readonly AllowedPair[] = [
  { of: ["staff line"], with: ON_THE_STAFF, where: "anywhere", because: "the staff lies under what is read by it" },
  {
    of: ["stem"],
    with: ["head", "flag", "ledger line"],
    where: "in one group",
    because: "a stem grows from its heads, through their ledger lines, to its flag",
  },
  { of: ["ledger line"], with: ["head"], where: "in one group", because: "ledger lines carry their head" },
  { of: ["head"], with: ["head"], where: "in one group", because: "the heads of a second touch at their stem" },
  { of: ["beam"], with: ["stem"], where: "at the tip", because: "a beam lies upon the ends of its own stems" },
  {
    of: ["gracenote stem"],
    with: ["gracenote head", "gracenote flag", "gracenote beam", "gracenote ledger line"],
    where: "in one group",
    because: "as with stems of the full size",
  },
  { of: ["gracenote ledger line"], with: ["gracenote head"], where: "in one group", because: "ledger lines carry their head" },
  {
    of: ["tie"],
    with: ["bar line", "repeat dot", "signature"],
    where: "anywhere",
    because: "a tie holds its note over the bar line and whatever changes there",
  },
  { of: ["signature"], with: ["signature"], where: "in one group", because: "the two figures of a meter meet at the middle line" },
  {
    of: ["bar line"],
    with: ["bar line"],
    where: "anywhere",
    because: "the strokes of a repeat sign stand on the bar line they make heavy",
  },
  { of: ["rest"], with: ["rest"], where: "in one group", because: "a rest over several bars is a beam between two strokes" },
  { of: ["tuplet"], with: ["tuplet"], where: "in one group", because: "the strokes of a bracket meet at its corners" },
  { of: ["ending"], with: ["ending"], where: "in one group", because: "the strokes of a bracket meet at its corners" },
  { of: ["hole chart"], with: ["hole chart"], where: "in one group", because: "a half-closed hole is a ring with a point in it" },
  { of: ["words"], with: ["words"], where: "in one group", because: "the note of a tempo is head, stem and flag" },
];

/** The marks of drawings put somewhere, and of groups that stand on the page itself. */
export function placedMarks(staves: readonly PlacedDrawing[], groups: readonly MarkGroup[] = []): readonly PlacedMark[] {
  return [...staves, { drawing: { groups } as BarDrawing, x: 0, y: 0 }].flatMap(({ drawing, x, y }) =>
    drawing.groups.flatMap((group) =>
      group.marks.map((mark): PlacedMark => ({ kind: kindOf(group, mark), mark, group, shape: shapeOf(mark, x, y) })),
    ),
  );
}

/** Every two marks that lie upon each other and are not allowed to, from left to right. */
export function collisionsOf(marks: readonly PlacedMark[]): readonly Collision[] {
  const found: Collision[] = [];
  const open: PlacedMark[] = [];
  for (const one of marks.toSorted((a, b) => a.shape.box.left - b.shape.box.left)) {
    const { left } = one.shape.box;
    for (let place = open.length - 1; place >= 0; place -= 1) {
      const other = open[place] as PlacedMark;
      if (other.shape.box.right < left) {
        open[place] = open.at(-1) as PlacedMark;
        open.pop();
      } else if (boxesMeet(one.shape.box, other.shape.box) && !isAllowed(one, other) && overlap(one.shape, other.shape))
        found.push({ one: other, other: one });
    }
    open.push(one);
  }
  return found;
}

/** A collision in words, for a test's report. */
export function inWords({ one, other }: Collision): string {
  return `${described(one)} on ${described(other)}`;
}

/** A mark in words: its kind, its corners on the paper, what it says and when it is played. */
export function described({ kind, mark, shape: { box }, group }: PlacedMark): string {
  const text = mark.kind === "text" ? ` “${mark.text}”` : "";
  const corners = [box.left, box.top, box.right, box.bottom].map((value) => value.toFixed(1)).join(" ");
  return `${kind} (${corners})${text}${group.at === null ? "" : ` at ${group.at}`}`;
}

/** Where two kinds may lie upon each other, by one and the other. */
const PLACES: ReadonlyMap<MarkKind, ReadonlyMap<MarkKind, ReadonlySet<Where>>> = placesByKind();

function placesByKind(): Map<MarkKind, Map<MarkKind, Set<Where>>> {
  const places = new Map<MarkKind, Map<MarkKind, Set<Where>>>();
  const allow = (one: MarkKind, other: MarkKind, where: Where) => {
    const row = places.get(one) ?? new Map<MarkKind, Set<Where>>();
    places.set(one, row.set(other, (row.get(other) ?? new Set<Where>()).add(where)));
  };
  for (const { of, with: others, where } of ALLOWED) {
    for (const one of of) {
      for (const other of others) {
        allow(one, other, where);
        allow(other, one, where);
      }
    }
  }
  return places;
}

function isAllowed(one: PlacedMark, other: PlacedMark): boolean {
  const places = PLACES.get(one.kind)?.get(other.kind);
  if (places === undefined) return false;
  if (places.has("anywhere") || (places.has("in one group") && one.group === other.group)) return true;
  return places.has("at the tip") && (one.kind === "beam" ? endsInBeam(one, other) : endsInBeam(other, one));
}

/** Whether a stem ends in the beam group that it lies upon: one that only passes through ends elsewhere. */
function endsInBeam(beam: PlacedMark, stem: PlacedMark): boolean {
  if (stem.mark.kind !== "line" || beam.mark.kind !== "path") return false;
  const { top, bottom } = stem.shape.box;
  const { box } = beam.shape;
  const [highest, lowest] = [box.top - BEAMS_REACH, box.bottom + BEAMS_REACH];
  return (top >= highest && top <= lowest) || (bottom >= highest && bottom <= lowest);
}

/** From a 32nd's inner beam to its outer one, px. */
const BEAMS_REACH = 12;

const HEADS = [0xe0a2, 0xe0a3, 0xe0a4];
const DOT = 0xe1e7;

function kindOf({ role }: MarkGroup, mark: Mark): MarkKind {
  const code = mark.kind === "glyph" ? mark.code : 0;
  const isLevel = mark.kind === "line" && mark.y1 === mark.y2;
  switch (role) {
    case "staff":
      return "staff line";
    case "bar-line":
      return code === DOT ? "repeat dot" : "bar line";
    case "rest":
      return code === DOT ? "dot" : "rest";
    case "note":
      if (mark.kind === "line") return isLevel ? "ledger line" : "stem";
      if (HEADS.includes(code)) return "head";
      if (code === DOT) return "dot";
      return code >= 0xe260 && code <= 0xe264 ? "accidental" : "flag";
    case "gracenotes":
      if (mark.kind === "path") return "gracenote beam";
      if (mark.kind === "line") return isLevel ? "gracenote ledger line" : "gracenote stem";
      return HEADS.includes(code) ? "gracenote head" : "gracenote flag";
    case "holes":
      return "hole chart";
    default:
      return role;
  }
}
