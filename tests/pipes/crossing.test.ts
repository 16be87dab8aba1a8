import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CHANTER_NOTES, type ChanterNote, type PlainNote } from "../../src/pipes/chanter-note.ts";
import { crossingOf } from "../../src/pipes/crossing.ts";
import { crossingSentence, spokenPassing } from "../../src/pipes/crossing-words.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { embellishmentsBetween } from "../../src/pipes/embellishments.ts";
import { shareOfOrders } from "../../src/pipes/finger-orders.ts";
import { fingeringTable } from "../../src/pipes/fingering-table.ts";
import { gracenotesFromLetters } from "../../src/pipes/gracenote-letters.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";

const setup = defaultSetup("B");
const table = fingeringTable(setup);

function graced(letters: string): readonly PlainNote[] {
  const read = gracenotesFromLetters(letters);
  if (!read.ok) throw new RangeError(read.reason);
  return read.value;
}

const between = (from: ChanterNote | null, to: ChanterNote, letters = "", pipes = setup): readonly PlainNote[] =>
  crossingOf(pipes, from, to, graced(letters)).notes;

const said = (from: ChanterNote | null, to: ChanterNote, letters = ""): string | null =>
  crossingSentence({ from, to, gracenotes: graced(letters) }, crossingOf(setup, from, to, graced(letters)));

describe("a crossing without gracenotes", () => {
  // Derived from the fingerings, which are common practice; nearest to the note before first.
  it.each<[ChanterNote, ChanterNote, readonly PlainNote[]]>([
    ["d", "e", ["c", "b", "low-a", "low-g"]],
    ["e", "d", ["c", "b", "low-a", "low-g"]],
    ["c", "e", ["b", "low-a", "low-g"]],
    ["b", "e", ["low-a"]],
    ["low-a", "e", []],
    ["low-g", "f", ["low-a", "e"]],
    ["d", "high-a", ["c", "b", "low-a", "low-g"]],
    ["f", "high-a", ["high-g"]],
    ["f", "high-g-sharp", ["e", "low-a"]],
  ])("from %s to %s lets exactly these sound: %j", (from, to, notes) => {
    expect(between(from, to)).toEqual(notes);
  });

  it("after silence lets nothing sound", () => {
    for (const note of CHANTER_NOTES) expect(between(null, note)).toEqual([]);
  });

  it("is judged by the way in and the way out of a cross-fingered note as the piper fingers it", () => {
    const other = withCrossFingering(setup, "c-natural", { holes: "X XXX XOXO" });
    expect([between("b", "c-natural"), between("c-natural", "d")]).toEqual([["low-a", "low-g", "c"], ["c"]]);
    expect([between("b", "c-natural", "", other), between("c-natural", "d", "", other)]).toEqual([["low-a"], ["c"]]);
  });
});

describe("a crossing on a setup whose nine are fingered otherwise", () => {
  it("goes by that fingering: with the little finger up on D, low G cannot sound on the way to E, and C no more", () => {
    const edited = { ...setup, fingerings: { ...setup.fingerings, d: "X XXX OOOO" } };
    expect(between("d", "e", "", edited)).toEqual(["b", "low-a"]);
    expect(between("d", "e")).toEqual(["c", "b", "low-a", "low-g"]);
  });
});

describe("a crossing with gracenotes", () => {
  it("goes from the note before straight to the first gracenote: D to a G gracenote on E moves six fingers, from there to E one", () => {
    const { steps } = crossingOf(setup, "d", "e", ["high-g"]);
    expect(steps.map(({ lifts, closes }) => [lifts, closes])).toEqual([
      [
        [1, 3, 7],
        [4, 5, 6],
      ],
      [[], [1]],
    ]);
    expect(steps[1]?.passing).toEqual([]);
  });

  it("lets the same notes sound while the G finger is late, and none once it is off first", () => {
    const bare = crossingOf(setup, "d", "e", []);
    const covered = crossingOf(setup, "d", "e", ["high-g"]);
    expect(covered.notes).toEqual(bare.notes);
    expect([bare.hiddenBy, covered.hiddenBy]).toEqual([null, 1]);
    expect(covered.share).toBeLessThan(bare.share);
  });

  it("makes what passed a note that is meant: a low A struck on E takes it out of the way from B", () => {
    expect(between("b", "e")).toEqual(["low-a"]);
    expect(between("b", "e", "A")).toEqual([]);
  });

  it("passes through all its gracenotes: a grip from C to E leaves low A, where its last low G opens to E", () => {
    expect(between("c", "e", "GdG")).toEqual(["low-a"]);
    expect(between("d", "d", "G")).toEqual(["c"]);
    expect(between("low-a", "low-a", "gAGAG")).toEqual([]);
  });

  it("takes gracenotes that cannot be fingered as if they were not there", () => {
    expect(between("d", "high-a", "g")).toEqual(between("d", "high-a"));
  });

  it("is the same object when it is asked for again", () => {
    expect(crossingOf(setup, "d", "e", ["high-g"])).toBe(crossingOf(setup, "d", "e", ["high-g"]));
  });

  it("never lets through what is written there, whichever usual group stands between any two notes", () => {
    for (const before of CHANTER_NOTES) {
      for (const note of CHANTER_NOTES) {
        for (const { embellishment } of embellishmentsBetween(table, { before, note })) {
          const { notes, share, steps } = crossingOf(setup, before, note, embellishment.gracenotes);
          expect(notes).not.toContain(before);
          expect(notes).not.toContain(note);
          expect(share > 0).toBe(notes.length > 0);
          expect(steps.length).toBe(embellishment.gracenotes.length + 1);
        }
      }
    }
  });
});

describe("a crossing in words", () => {
  it("says what sounds, and which fingers come too soon", () => {
    expect(said("d", "e")).toBe("From D to E, fingers that do not move as one sound C, B, low A or low G.");
    expect(said("b", "e")).toBe("From B to E, fingers closing before the others open sound low A.");
    expect(said("e", "b")).toBe("From E to B, fingers closing before the others open sound low A.");
    expect(said("low-a", "e")).toBeNull();
    expect(said("f", "high-g-sharp")).toBe("From F to high G♯, fingers closing before the others open sound E or low A.");
  });

  it("names the gracenotes, and the finger that hides it all when it is off first", () => {
    expect(said("d", "e", "g")).toBe(
      "From D to E with a G gracenote, fingers that do not move as one sound C, B, low A or low G, unless the upper index is off first.",
    );
    expect(said("e", "d", "G")).toBe("From E to D with a strike to low G, fingers that do not move as one sound C or low A.");
    expect(said("c", "e", "GdG")).toBe("From C to E with a grip, fingers that do not move as one sound low A.");
    expect(said("d", "d", "G")).toBe("From D to D with a strike to low G, fingers that do not move as one sound C.");
  });

  it("is spoken without signs", () => {
    expect(spokenPassing(["low-a", "high-g"])).toBe("Low A or high G can sound on the way.");
    expect(spokenPassing([])).toBe("");
  });
});

describe("the share of orders", () => {
  it("is a half for one finger before the other, and 1 when either will do", () => {
    expect(shareOfOrders([3, 6], [[6]])).toBe(0.5);
    expect(shareOfOrders([3, 6], [[6], [3]])).toBe(1);
    expect(shareOfOrders([3, 6], [])).toBe(0);
    expect(shareOfOrders([], [])).toBe(0);
  });

  it("is what counting all orders one by one gives", () => {
    const sets = fc.array(fc.subarray([0, 2, 3, 5, 7], { minLength: 1, maxLength: 4 }), { maxLength: 4 });
    fc.assert(
      fc.property(sets, (reached) => {
        const wanted = new Set(reached.map((set) => set.join()));
        const orders = ordersOf([0, 2, 3, 5, 7]);
        const passing = orders.filter((order) => order.some((_, count) => wanted.has(order.slice(0, count).sort().join())));
        expect(shareOfOrders([0, 2, 3, 5, 7], reached)).toBeCloseTo(passing.length / orders.length, 12);
      }),
      { seed: 20261125, numRuns: 60 },
    );
  });
});

function ordersOf(fingers: readonly number[]): readonly (readonly number[])[] {
  if (fingers.length === 0) return [[]];
  return fingers.flatMap((first) => ordersOf(fingers.filter((one) => one !== first)).map((rest) => [first, ...rest]));
}
