import { CHANTER_NOTES, type ChanterNote, NINE_NOTES, type PlainNote } from "./chanter-note.ts";
import type { Embellishment, EmbellishmentName, EmbellishmentPlacement } from "./embellishment.ts";
import { gracenotesFromLetters } from "./gracenote-letters.ts";
import type { SourceMark } from "./source-mark.ts";
import { USUAL_STRIKES } from "./usual-strikes.ts";

/** A spelling's mark and where it comes from. */
type Vouched = readonly [mark: SourceMark, source: string];

const SAMPLES: Vouched = ["published", "ABC standard 2.1, sample tunes."];
const STANDARD: Vouched = ["published", "ABC standard 2.1, 4.12."];
const STANDARD_AND_SAMPLES: Vouched = ["published", "ABC standard 2.1, 4.12 and sample tunes."];
const THROWS: Vouched = ["published", "ABC standard 2.1, sample tunes; J. Grant, Oban Times, 19 December 1925."];
const PRACTICE: Vouched = ["common-practice", "Common practice."];
const PRACTICE_OR_MEMORY: Vouched = ["from-memory", "Common practice, partly from memory."];
const MEMORY: Vouched = ["from-memory", "From memory."];
const FROM_HOLES: Vouched = ["derived", "As on the plain note of that letter; the fingers allow it."];
const SHARP_G: Vouched = [
  "from-memory",
  "From memory: high G sharp leaves the first finger to lift, where its fingering is the usual one.",
];

const FORK_DOWN: Vouched = ["derived", "From the fingering: the finger that opens the fork goes down."];
const FORK_GRIP: Vouched = ["derived", "As on the other high notes; the fingers allow it."];

/** What a group may follow, beside the one rule that each gracenote is heard. */
interface After {
  readonly notes: readonly ChanterNote[];
  readonly silence: boolean;
}

/** Any note but those named, or silence. */
const allBut = (...notes: readonly ChanterNote[]): After => ({
  notes: CHANTER_NOTES.filter((note) => !notes.includes(note)),
  silence: true,
});
const only = (...notes: readonly ChanterNote[]): After => ({ notes, silence: false });

/** The first finger is off on these, so no group that opens with a G gracenote follows them. */
const FIRST_FINGER_ON = allBut("high-g", "high-a");
const THUMB_ON = allBut("high-g-sharp", "high-a");

/** What stands in one row for all its spellings. */
interface Family {
  readonly name: EmbellishmentName;
  readonly after: After;
  readonly placement: EmbellishmentPlacement;
}

/** A single gracenote falls on the beat; so does a doubling's first; so, from memory, do those of a throw and of a birl. */
const onBeat = (name: EmbellishmentName, after: After): Family => ({ name, after, placement: "on-beat" });
/** A grip comes before the beat; so, from memory, does a taorluath, which is a grip with an E. */
const beforeBeat = (name: EmbellishmentName, after: After): Family => ({ name, after, placement: "before-beat" });

type Spelled = readonly [on: ChanterNote, letters: string, vouched: Vouched];

/** The same letters on several notes. */
const on = (notes: readonly ChanterNote[], letters: string, vouched: Vouched): readonly Spelled[] =>
  notes.map((note) => [note, letters, vouched]);

const UP_TO_C = ["low-g", "low-a", "b", "c"] as const;
const UP_TO_D = [...UP_TO_C, "d"] as const;
const UP_TO_F = [...UP_TO_D, "e", "f"] as const;
/** Those a grip leads to: its last gracenote is a low G, which low G would swallow. */
const ABOVE_LOW_G = NINE_NOTES.filter((note) => note !== "low-g");

/** How each doubling goes on after its opening gracenote. */
const DOUBLED: readonly Spelled[] = [
  ["low-g", "Gd", MEMORY],
  ["low-a", "Ad", MEMORY],
  ["b", "Bd", SAMPLES],
  ["c", "cd", SAMPLES],
  ["d", "de", MEMORY],
  ["d", "dc", MEMORY],
  ["e", "ef", SAMPLES],
  ["f", "fg", SAMPLES],
  ["high-g", "f", SAMPLES],
];

/** Doublings with an opening: a G, nothing after high G and high A, the thumb after high G. Vouched for no better than the doubling itself. */
const opened = (opening: string, vouched: Vouched): readonly Spelled[] =>
  DOUBLED.map(([note, rest, own]) => [note, `${opening}${rest}`, own === MEMORY ? MEMORY : vouched]);

/** Notes a strike comes down from: like notes, and higher ones. */
const fromLikeOrAbove = (note: ChanterNote): After => only(...CHANTER_NOTES.slice(CHANTER_NOTES.indexOf(note)));

const PLAIN_ROWS: readonly Embellishment[] = [
  ...rows(onBeat("g-gracenote", FIRST_FINGER_ON), on(UP_TO_F, "g", STANDARD_AND_SAMPLES)),
  ...rows(onBeat("d-gracenote", allBut("d")), on(UP_TO_C, "d", STANDARD_AND_SAMPLES)),
  // After F and high G its finger is off, so nothing lifts: heard, and therefore not refused, but not offered.
  ...rows(onBeat("e-gracenote", allBut("e", "f", "high-g")), on(UP_TO_D, "e", STANDARD_AND_SAMPLES)),
  ...rows(onBeat("thumb-gracenote", THUMB_ON), on([...UP_TO_F, "high-g"], "a", STANDARD_AND_SAMPLES)),

  ...rows(onBeat("doubling", FIRST_FINGER_ON), opened("g", SAMPLES)),
  ...rows(onBeat("doubling", THUMB_ON), [["high-a", "ag", SAMPLES]]),
  ...rows(onBeat("half-doubling", only("high-g", "high-a")), opened("", PRACTICE)),
  ...rows(onBeat("thumb-doubling", only("high-g")), opened("a", PRACTICE)),

  ...rows(onBeat("light-throw", allBut("low-g")), [["d", "Gdc", THROWS]]),
  ...rows(onBeat("light-throw", only("low-g")), [["d", "dc", SAMPLES]]),
  ...rows(onBeat("heavy-throw", allBut("low-g")), [["d", "GdGc", THROWS]]),
  ...rows(onBeat("heavy-throw", only("low-g")), [["d", "dGc", PRACTICE]]),

  ...rows(beforeBeat("grip", allBut("low-g", "d")), [...on(ABOVE_LOW_G, "GdG", SAMPLES), ["high-g-sharp", "GdG", FORK_GRIP]]),
  ...rows(beforeBeat("grip", only("d")), [...on(ABOVE_LOW_G, "GBG", MEMORY), ["high-g-sharp", "GBG", FORK_GRIP]]),
  ...rows(beforeBeat("grip", only("low-g")), [...on(ABOVE_LOW_G, "dG", MEMORY), ["high-g-sharp", "dG", FORK_GRIP]]),
  ...rows(beforeBeat("taorluath", allBut("low-g", "d")), on(UP_TO_D, "GdGe", STANDARD)),
  ...rows(beforeBeat("taorluath", only("d")), on(UP_TO_D, "GBGe", PRACTICE)),
  ...rows(beforeBeat("taorluath", only("low-g")), on(UP_TO_D, "dGe", MEMORY)),

  ...rows(onBeat("birl", FIRST_FINGER_ON), [["low-a", "gAGAG", SAMPLES]]),
  ...rows(onBeat("plain-birl", allBut("low-a")), [["low-a", "AGAG", MEMORY]]),
  ...rows(onBeat("plain-birl", only("low-a")), [["low-a", "GAG", SAMPLES]]),

  ...rows(onBeat("g-gracenote", FIRST_FINGER_ON), [["high-g-sharp", "g", SHARP_G]]),
  ...strikes(),
  ...forkStrikes(),
];

/** Cross-fingered notes that lie under the same fingers as a plain one, and take its embellishments; not its strikes, which the fork changes. */
const NATURALS: Partial<Readonly<Record<ChanterNote, ChanterNote>>> = { c: "c-natural", f: "f-natural" };

/**
 * Every embellishment by the note it leads into and the notes it may follow. Shakes, the bubbly note and the crunluath are left out: no
 * spelling of them could be vouched for. Two further customs span several notes and stand in `figures.ts`.
 */
export const EMBELLISHMENTS: readonly Embellishment[] = PLAIN_ROWS.flatMap((row) => {
  const natural = NATURALS[row.on];
  if (natural === undefined || row.name === "strike") return [row];
  return [row, { ...row, on: natural, mark: FROM_HOLES[0], source: FROM_HOLES[1] }];
});

function strikes(): readonly Embellishment[] {
  return NINE_NOTES.flatMap((note) =>
    USUAL_STRIKES[note].map((strike) => row(onBeat("strike", fromLikeOrAbove(note)), note, [strike], PRACTICE_OR_MEMORY)),
  );
}

/**
 * On a cross-fingered note the strike is the finger that opens its fork, put down: the lower middle makes C natural low G, the upper middle
 * makes F natural low A, the thumb makes high G sharp low A. The last also follows high G: every finger of the upper hand moves there, and
 * low A is what they pass through.
 */
function forkStrikes(): readonly Embellishment[] {
  return [
    ...rows(onBeat("strike", fromLikeOrAbove("c-natural")), [["c-natural", "G", FORK_DOWN]]),
    ...rows(onBeat("strike", fromLikeOrAbove("f-natural")), [["f-natural", "A", FORK_DOWN]]),
    ...rows(onBeat("strike", fromLikeOrAbove("high-g")), [["high-g-sharp", "A", FORK_DOWN]]),
  ];
}

function rows(family: Family, spelled: readonly Spelled[]): readonly Embellishment[] {
  return spelled.map(([note, letters, vouched]) => {
    const gracenotes = gracenotesFromLetters(letters);
    if (!gracenotes.ok) throw new RangeError(gracenotes.reason);
    return row(family, note, gracenotes.value, vouched);
  });
}

function row(
  { name, after, placement }: Family,
  note: ChanterNote,
  gracenotes: readonly PlainNote[],
  [mark, source]: Vouched,
): Embellishment {
  return {
    name,
    on: note,
    after: after.notes,
    afterSilence: after.silence,
    gracenotes,
    placement,
    placementDisputed: gracenotes.length > 1,
    mark,
    source,
  };
}
