import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CHANTER_NOTES, type ChanterNote, NINE_NOTES, type PlainNote } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { type FingerChange, fingerChange, hardness } from "../../src/pipes/finger-change.ts";
import { fingersInWords } from "../../src/pipes/finger-change-words.ts";
import { type FingeringTable, fingeringTable } from "../../src/pipes/fingering-table.ts";
import { type Hole, parseHoles } from "../../src/pipes/fingerings.ts";
import { movementUpon } from "../../src/pipes/gracenote-movement.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";

const setup = defaultSetup("B");
const table = fingeringTable(setup);
const seeded = { seed: 20261125 };

function change(from: ChanterNote, to: ChanterNote, fingerings: FingeringTable = table): FingerChange {
  return fingerChange(fingerings[from], fingerings[to], fingerings);
}

function between(from: ChanterNote, to: ChanterNote, fingerings: FingeringTable = table): readonly PlainNote[] {
  return change(from, to, fingerings).passing.map(({ note }) => note);
}

describe("the step from one note to the next", () => {
  // Derived from the fingerings, which are common practice.
  it("moves 1, 1, 1, 2, 1, 5, 1, 1 and 2 fingers from low G up to high A", () => {
    const fingers = NINE_NOTES.slice(1).map((note, index) => {
      const { lifts, closes } = change(NINE_NOTES[index] as PlainNote, note);
      return lifts.length + closes.length;
    });
    expect(fingers).toEqual([1, 1, 2, 1, 5, 1, 1, 2]);
  });

  it.each<[PlainNote, PlainNote, readonly PlainNote[]]>([
    ["d", "e", ["low-g", "low-a", "b", "c"]],
    ["c", "e", ["low-g", "low-a", "b"]],
    ["b", "e", ["low-a"]],
    ["low-a", "e", []],
    ["low-g", "f", ["low-a", "e"]],
    ["d", "high-a", ["low-g", "low-a", "b", "c"]],
    ["f", "high-a", ["high-g"]],
  ])("between %s and %s lets exactly these sound: %j", (from, to, notes) => {
    expect(between(from, to)).toEqual(notes);
    expect(between(to, from)).toEqual(notes);
  });

  it("lets nothing sound in between where one finger moves", () => {
    for (const [from, to] of [
      ["low-g", "low-a"],
      ["low-a", "b"],
      ["e", "f"],
      ["f", "high-g"],
    ] as const) {
      expect(between(from, to)).toEqual([]);
    }
  });

  it("names the fingers: from D to E two lift and three close", () => {
    expect(change("d", "e")).toMatchObject({ lifts: [3, 7], closes: [4, 5, 6] });
    expect(fingersInWords(change("d", "e"))).toBe("upper ring and lower little lift, lower index, lower middle and lower ring close");
    expect(fingersInWords(change("e", "f"))).toBe("upper middle lifts");
    expect(fingersInWords(change("e", "e"))).toBe("");
  });

  it("says which fingers have moved when a note in between sounds", () => {
    expect(change("b", "e").passing).toEqual([{ note: "low-a", moved: [6] }]);
    expect(change("f", "high-a").passing).toEqual([{ note: "high-g", moved: [1] }]);
  });
});

describe("a change between any two fingerings", () => {
  const holes = fc.array(fc.constantFrom<Hole>("closed", "open", "half"), { minLength: 8, maxLength: 8 });

  it("lets sound what some order of the fingers reaches, and nothing else", () => {
    fc.assert(
      fc.property(fc.constantFrom(...CHANTER_NOTES), holes, fc.boolean(), (note, edited, forwards) => {
        const [from, to] = forwards ? [table[note], edited] : [edited, table[note]];
        const reached = reachedByOrders(from, to);
        const expected = NINE_NOTES.filter((candidate) => reached.has(table[candidate].join()));
        expect(fingerChange(from, to, table).passing.map((passing) => passing.note)).toEqual(expected);
      }),
      { ...seeded, numRuns: 300 },
    );
  });

  it("lets the same notes sound there and back, and is as hard", () => {
    fc.assert(
      fc.property(holes, holes, (from, to) => {
        const [there, back] = [fingerChange(from, to, table), fingerChange(to, from, table)];
        expect(back.passing.map(({ note }) => note)).toEqual(there.passing.map(({ note }) => note));
        expect(back.lifts).toEqual(there.closes);
        expect(hardness(back)).toBe(hardness(there));
      }),
      seeded,
    );
  });

  it("puts the holes where they are to be, once each finger named has moved", () => {
    fc.assert(
      fc.property(holes, holes, (from, to) => {
        const { lifts, closes } = fingerChange(from, to, table);
        const moved = [...lifts, ...closes];
        expect(from.map((hole, finger) => (moved.includes(finger) ? to[finger] : hole))).toEqual(to);
        expect(moved.every((finger) => from[finger] !== to[finger])).toBe(true);
      }),
      seeded,
    );
  });
});

describe("an edited fingering", () => {
  it("is judged as it is fingered: a D with its little finger up crosses into E through low A and not through low G", () => {
    const edited: FingeringTable = { ...table, d: parseHoles("X XXX OOOO") };
    expect(between("d", "e", edited)).toEqual(["low-a", "b"]);
  });

  it("of C natural decides what sounds on the way in and out", () => {
    const other = fingeringTable(withCrossFingering(setup, "c-natural", { holes: "X XXX XOXO" }));
    expect(between("b", "c-natural")).toEqual(["low-g", "low-a", "c"]);
    expect(between("b", "c-natural", other)).toEqual(["low-a"]);
    expect(between("c-natural", "d")).toEqual(["c"]);
    expect(between("c-natural", "d", other)).toEqual(["c"]);
  });

  it("is asked for with gracenotes too: a G gracenote on low A gives way to C as low A does, and to low A by one finger", () => {
    const upon = movementUpon(table["low-a"], "high-g", table["high-g"]);
    if (!upon.ok) throw new RangeError("a G gracenote fits on low A");
    expect(fingerChange(upon.value.holes, table.c, table).passing.map(({ note }) => note)).toEqual(["low-g", "low-a", "b"]);
    expect(fingerChange(upon.value.holes, table["low-a"], table)).toEqual({ lifts: [], closes: [1], passing: [] });
  });
});

describe("hardness", () => {
  it("is 0 for a held note, 1 for low A to E, 11 for D to E", () => {
    expect(hardness(change("e", "e"))).toBe(0);
    expect(hardness(change("low-a", "e"))).toBe(1);
    expect(hardness(change("d", "e"))).toBe(11);
  });
});

/** Every set of holes on the way, found by trying the orders: which finger next, and which after that. */
function reachedByOrders(from: readonly Hole[], to: readonly Hole[]): ReadonlySet<string> {
  const reached = new Set<string>();
  const go = (holes: readonly Hole[]): void => {
    for (const [finger, hole] of holes.entries()) {
      if (hole === to[finger]) continue;
      const next = holes.with(finger, to[finger] as Hole);
      if (reached.has(next.join())) continue;
      reached.add(next.join());
      go(next);
    }
  };
  go(from);
  reached.delete(to.join());
  return reached;
}
