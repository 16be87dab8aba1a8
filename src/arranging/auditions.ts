import { type ChanterNote, type CrossFingeredNote, isCrossFingered } from "../pipes/chanter-note.ts";
import { leadingToneOf } from "../pipes/leading-tone.ts";
import { noteName } from "../pipes/note-names.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import { withCrossFingering, withScale } from "../pipes/setup-changes.ts";
import { speaks } from "../pipes/sounding.ts";
import { readChord } from "../pitch/chord.ts";
import { tonicPitchClass } from "../pitch/key-signature.ts";
import { positiveModulo } from "../pitch/letter.ts";
import type { Address } from "../score/address.ts";
import type { PipeNote } from "../score/bar.ts";
import { chordSpans } from "../score/chords-in-force.ts";
import type { Edit } from "../score/edit.ts";
import type { Frame } from "../score/frame.ts";
import { pipeLineOf } from "../score/line-of.ts";
import { eventAt } from "../score/placed-events.ts";
import type { Score } from "../score/score.ts";
import type { Ticks } from "../units/ticks.ts";

/** One way of playing a passage. */
export interface AuditionVersion {
  /** `Flat seventh`. */
  readonly name: string;
  /** What the chanter plays at the place that is judged, in order. */
  readonly notes: readonly ChanterNote[];
  /** What turns the score into this version, as one step; none for the version that stands there. */
  readonly edits: readonly Edit[];
}

/** A question for the ear: one place, played in several ways. */
export interface Audition {
  readonly kind: "leading-tone" | "substitute" | "gracing" | "temperament";
  /** As it stands over the page: `Flat seventh or leading tone?` */
  readonly question: string;
  readonly versions: readonly AuditionVersion[];
}

/** What can be auditioned at a place, and what there is to say where something cannot. */
export interface Auditions {
  readonly offers: readonly Audition[];
  /** Sentences; empty where there is nothing to say. */
  readonly remarks: readonly string[];
}

const NOTHING: Auditions = { offers: [], remarks: [] };

/** The plain note and the cross-fingered one that share a letter. */
const SUBSTITUTES: readonly (readonly [plain: ChanterNote, crossFingered: CrossFingeredNote])[] = [
  ["c", "c-natural"],
  ["f", "f-natural"],
  ["high-g", "high-g-sharp"],
];

/** Everything that can be heard in more than one way at the pipe note that sounds at a place. */
export function auditionsAt(score: Score, at: Address): Auditions {
  const line = pipeLineOf(score, at.line);
  const bar = line?.bars[at.bar];
  const frame = score.frames[at.bar];
  const placed = bar === undefined ? null : eventAt(bar, at.at);
  if (line === null || frame === undefined || placed === null || placed.event.kind !== "note") return NOTHING;
  const note = placed.event as PipeNote;
  const place: Place = { score, frame, setup: line.setup, at: { ...at, at: placed.at }, note };
  const leading = leadingTone(place);
  const offers = [...leading.offers, ...(leading.offers.length > 0 ? [] : substitute(place)), ...gracing(place), temperament(place)];
  return { offers, remarks: leading.remarks };
}

interface Place {
  readonly score: Score;
  readonly frame: Frame;
  readonly setup: PipeSetup;
  /** Where the note begins. */
  readonly at: Address;
  readonly note: PipeNote;
}

/**
 * Flat seventh, leading tone, one after the other: where the section's tonic is written A and the note is the one or the other. Elsewhere
 * the leading tone is a plain note, or the chanter has none; that is said.
 */
function leadingTone(place: Place): Auditions {
  const { frame, setup, note } = place;
  const leading = leadingToneOf(setup, frame.key);
  if (leading.kind === "none") return { offers: [], remarks: ["The chanter has no leading tone in this key."] };
  if (leading.kind === "plain") {
    const name = noteName(leading.note);
    return { offers: [], remarks: [`The leading tone here is ${name}, a plain note: there is nothing to cross-finger.`] };
  }
  if (leading.note !== "high-g-sharp" || !["high-g", "high-g-sharp"].includes(note.note)) return NOTHING;
  const versions = [
    { name: "Flat seventh", notes: ["high-g"], edits: [...became(place, "high-g"), ...dominant(place, "minor")] },
    {
      name: "Leading tone",
      notes: ["high-g-sharp"],
      edits: [...became(place, "high-g-sharp"), ...dominant(place, "major"), ...spoken(place, "high-g-sharp")],
    },
    {
      name: "One, then the other",
      notes: ["high-g", "high-g-sharp"],
      edits: [...oneThenTheOther(place), ...dominant(place, "major"), ...spoken(place, "high-g-sharp")],
    },
  ] as const;
  return { offers: [{ kind: "leading-tone", question: "Flat seventh or leading tone?", versions }], remarks: [] };
}

function substitute(place: Place): readonly Audition[] {
  const pair = SUBSTITUTES.find((one) => one.includes(place.note.note));
  if (pair === undefined) return [];
  const versions = pair.map((note) => ({
    name: capitalised(noteName(note)),
    notes: [note],
    edits: [...became(place, note), ...(isCrossFingered(note) ? spoken(place, note) : [])],
  }));
  return [{ kind: "substitute", question: `${versions[0]?.name} or ${noteName(pair[1])}?`, versions }];
}

function gracing({ at, note }: Place): readonly Audition[] {
  if (note.gracenotes.length === 0) return [];
  const bare: readonly Edit[] = [{ kind: "gracenotes", at, gracenotes: [] }];
  return [
    {
      kind: "gracing",
      question: "With its gracenotes or without?",
      versions: [
        { name: "With gracenotes", notes: [note.note], edits: [] },
        { name: "Without", notes: [note.note], edits: bare },
      ],
    },
  ];
}

/** The chanter as it is tuned, and as it would be in equal temperament. */
function temperament({ at, setup, note }: Place): Audition {
  const isEqual = setup.scale.kind === "published" && setup.scale.name === "equal";
  const tuned = (scale: PipeSetup["scale"]): readonly Edit[] => [{ kind: "setup", line: at.line, setup: withScale(setup, scale) }];
  const just = { kind: "published", name: "septimal" } as const;
  return {
    kind: "temperament",
    question: "Just or equal?",
    versions: [
      { name: isEqual ? "Septimal" : "As it is tuned", notes: [note.note], edits: isEqual ? tuned(just) : [] },
      { name: "Equal", notes: [note.note], edits: isEqual ? [] : tuned({ kind: "published", name: "equal" }) },
    ],
  };
}

function became({ at, note }: Place, wanted: ChanterNote): readonly Edit[] {
  return note.note === wanted ? [] : [{ kind: "repitch", at, content: { kind: "pipes", note: wanted } }];
}

/** A note is halved on this grid, ticks: a hundred-and-twenty-eighth is never split further. */
const SHORTEST = 30;

/** Both in the time of one; what divides them is the change of fingers itself. */
function oneThenTheOther(place: Place): readonly Edit[] {
  const { at, note } = place;
  const half = (Math.floor(note.ticks / 2 / SHORTEST) * SHORTEST) as Ticks;
  const second = { ...at, at: (at.at + half) as Ticks };
  return [
    ...became(place, "high-g"),
    { kind: "split", at, ticks: half },
    { kind: "repitch", at: second, content: { kind: "pipes", note: "high-g-sharp" } },
    { kind: "gracenotes", at: second, gracenotes: [] },
  ];
}

/** The chord on the fifth degree as the note wants it: minor over the flat seventh, major over the leading tone. Other chords stay. */
function dominant({ score, frame, at }: Place, wanted: "minor" | "major"): readonly Edit[] {
  const span = chordSpans(score.frames, at.bar).find(({ from, to }) => from <= at.at && at.at < to);
  const chord = span === undefined ? null : readChord(span.symbol);
  if (span === undefined || chord === null || !span.begins) return [];
  const fifth = positiveModulo(tonicPitchClass(frame.key) + 7, 12);
  if (tonicPitchClass({ tonic: chord.root, mode: "major" }) !== fifth) return [];
  const isMinor = /^m(?!aj)/.test(chord.quality);
  if (isMinor === (wanted === "minor")) return [];
  const quality = wanted === "minor" ? `m${chord.quality}` : chord.quality.slice(1);
  const symbol = `${chord.root}${quality}${chord.bass === null ? "" : `/${chord.bass}`}`;
  const chords = frame.chords.map((one) => (one.at === span.from ? { ...one, symbol } : one));
  return [{ kind: "chords", bar: at.bar, chords }];
}

function spoken({ setup, at }: Place, note: CrossFingeredNote): readonly Edit[] {
  if (speaks(setup, note)) return [];
  return [{ kind: "setup", line: at.line, setup: withCrossFingering(setup, note, { speaks: true }) }];
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
