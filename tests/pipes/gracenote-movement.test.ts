import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CHANTER_NOTES, type ChanterNote, NINE_NOTES, type PlainNote } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { type FingeringTable, fingeringTable } from "../../src/pipes/fingering-table.ts";
import { formatHoles, type Hole, parseHoles } from "../../src/pipes/fingerings.ts";
import { movementsOf } from "../../src/pipes/gracenote-group.ts";
import { gracenotesFromLetters, lettersOfGracenotes } from "../../src/pipes/gracenote-letters.ts";
import { type GracenoteMovement, movementUpon } from "../../src/pipes/gracenote-movement.ts";
import { soundingHole, soundsLike } from "../../src/pipes/sounding-hole.ts";
import type { Outcome } from "../../src/units/outcome.ts";

const table = fingeringTable(defaultSetup("B"));
const seeded = { seed: 20261125 };

function upon(note: ChanterNote, gracenote: PlainNote): Outcome<GracenoteMovement, unknown> {
  return movementUpon(table[note], gracenote, table[gracenote]);
}

function spelled(letters: string, note: ChanterNote, before: ChanterNote | null, fingerings: FingeringTable = table) {
  const gracenotes = gracenotesFromLetters(letters);
  if (!gracenotes.ok) throw new RangeError(gracenotes.reason);
  return movementsOf(fingerings, gracenotes.value, { before, note });
}

/** Each gracenote's movement as text: `lift 4 X XXX OXXX`. */
function played(letters: string, note: ChanterNote, before: ChanterNote | null): readonly string[] {
  const judged = spelled(letters, note, before);
  if (!judged.ok) throw new RangeError(judged.reason);
  return judged.value.map(({ kind, fingers, holes }) => `${kind} ${fingers.join("+")} ${formatHoles(holes)}`);
}

function reason(letters: string, note: ChanterNote, before: ChanterNote | null): string | null {
  const judged = spelled(letters, note, before);
  return judged.ok ? null : judged.reason;
}

describe("the open hole nearest the reed", () => {
  it("is another one for each of the nine, so it names them", () => {
    expect(NINE_NOTES.map((note) => soundingHole(table[note]))).toEqual([8, 7, 6, 5, 4, 3, 2, 1, 0]);
  });

  it("tells no two of the twelve fingerings for one note", () => {
    for (const one of CHANTER_NOTES) {
      for (const other of CHANTER_NOTES) expect(soundsLike(table[one], table[other]), `${one}, ${other}`).toBe(one === other);
    }
  });
});

describe("a gracenote", () => {
  // Published: one finger lifted, or a strike, upon the fingering beneath (graded lessons).
  it("is one finger lifted upon the note beneath: {g} on low A is X OXX XXXO", () => {
    const movement = upon("low-a", "high-g");
    expect(movement).toEqual({ ok: true, value: { kind: "lift", fingers: [1], holes: parseHoles("X OXX XXXO") } });
  });

  it.each<[PlainNote, ChanterNote, string]>([
    ["d", "low-g", "X XXX OXXX"],
    ["d", "b", "X XXX OXOO"],
    ["e", "low-g", "X XXO XXXX"],
    ["e", "d", "X XXO OOOX"],
    ["high-a", "high-g", "O OOO XXXO"],
    ["high-g", "f-natural", "X OOX XXXO"],
    ["f", "e", "X XOO XXXO"],
    ["low-g", "d", "X XXX XXXX"],
    ["c", "d", "X XXX XOOX"],
    ["low-a", "e", "X XXX XXXO"],
    ["e", "f", "X XXO XXXO"],
    ["f", "high-g", "X XOO XXXO"],
    ["high-g", "high-a", "X OOX XXXO"],
  ])("%s upon %s sounds with %s", (gracenote, note, holes) => {
    const movement = upon(note, gracenote);
    expect(movement.ok && formatHoles(movement.value.holes)).toBe(holes);
  });

  it("lifts for G under high G, for D under D, for E under E, for the thumb under high A; the first finger is down on high G sharp too", () => {
    const lifted = (note: ChanterNote) =>
      (["high-g", "d", "e", "high-a"] as const).filter((gracenote) => {
        const movement = upon(note, gracenote);
        return movement.ok && movement.value.kind === "lift";
      });
    const height = (note: ChanterNote) => CHANTER_NOTES.indexOf(note);
    for (const note of CHANTER_NOTES.filter((one) => one !== "high-g-sharp")) {
      expect(lifted(note), note).toEqual((["high-g", "d", "e", "high-a"] as const).filter((gracenote) => height(note) < height(gracenote)));
    }
    expect(lifted("high-g-sharp")).toEqual(["high-g"]);
  });

  it("upon any holes whatever moves the fingers it names and no others, and sounds unlike what lies beneath", () => {
    const holes = fc.array(fc.constantFrom<Hole>("closed", "open", "half"), { minLength: 8, maxLength: 8 });
    let fitted = 0;
    fc.assert(
      fc.property(holes, fc.constantFrom(...NINE_NOTES), (beneath, gracenote) => {
        const movement = movementUpon(beneath, gracenote, table[gracenote]);
        if (!movement.ok) return;
        fitted += 1;
        const { kind, fingers, holes: during } = movement.value;
        expect(fingers.length).toBeGreaterThan(0);
        expect(during).toEqual(beneath.map((hole, finger) => (fingers.includes(finger) ? (kind === "lift" ? "open" : "closed") : hole)));
        expect(fingers.every((finger) => during[finger] !== beneath[finger])).toBe(true);
        expect(soundsLike(during, beneath)).toBe(false);
      }),
      { ...seeded, numRuns: 2000 },
    );
    expect(fitted).toBeGreaterThan(300);
  });

  it("follows an edited fingering: upon a B with its little finger down {d} leaves that finger where it is", () => {
    const edited: FingeringTable = { ...table, b: parseHoles("X XXX XXOX") };
    const judged = spelled("gBd", "b", "low-a", edited);
    expect(judged.ok && judged.value.map(({ holes }) => formatHoles(holes))).toEqual(["X OXX XXOX", "X XXX XXOX", "X XXX OXOX"]);
  });
});

describe("a group of gracenotes", () => {
  it("rests on what sounds next: in {gBd} the B is the note itself", () => {
    expect(played("gBd", "b", "low-a")).toEqual(["lift 1 X OXX XXOO", "strike 4 X XXX XXOO", "lift 4 X XXX OXOO"]);
  });

  it("stands on low G inside a taorluath, with the E upon the melody note", () => {
    expect(played("GdGe", "c", "low-a")).toEqual([
      "strike 4 X XXX XXXX",
      "lift 4 X XXX OXXX",
      "strike 3+5+6 X XXX XXXX",
      "lift 3 X XXO XOOX",
    ]);
  });

  it("means C natural by its C upon C natural, and F natural by its F upon F natural", () => {
    expect(played("gcd", "c-natural", "low-a")).toEqual(["lift 1 X OXX XOXX", "strike 4 X XXX XOXX", "lift 4 X XXX OOXX"]);
    expect(played("gfg", "f-natural", "low-a")).toEqual(["lift 1 X OOX XXXO", "strike 1 X XOX XXXO", "lift 1 X OOX XXXO"]);
  });

  it("may begin after silence with what fits the note", () => {
    expect(played("g", "low-a", null)).toEqual(["lift 1 X OXX XXXO"]);
    expect(reason("g", "high-a", null)).toContain("Only between two high As");
  });
});

describe("a group that cannot be fingered is refused with the reason", () => {
  it.each<[string, ChanterNote, ChanterNote | null, string]>([
    [
      "g",
      "high-g",
      "e",
      "On high G the first finger is off already, so a G gracenote has nothing to lift. Take a thumb gracenote, or strike an F.",
    ],
    ["g", "low-a", "high-g", "After high G the first finger is off already, so a G gracenote has nothing to lift."],
    ["g", "low-a", "high-a", "After high A the first finger is off already, so a G gracenote has nothing to lift."],
    ["g", "high-a", "e", "Next to high A the first finger is off already. Only between two high As can a G be struck, with the thumb."],
    ["d", "d", "e", "On D its finger is off already: a D gracenote fits only on notes below D."],
    ["d", "e", "c", "A D gracenote fits only on notes below D: on E its finger changes nothing."],
    ["d", "low-a", "d", "After D a D gracenote is not heard: the two sound as one."],
    ["e", "e", "low-a", "On E its finger is off already: an E gracenote fits only on notes below E."],
    ["e", "high-a", "high-a", "An E gracenote fits only on notes below E: on high A its finger changes nothing."],
    ["a", "high-a", "e", "On high A the thumb is off already, so a thumb gracenote has nothing to lift."],
    ["a", "f", "high-a", "After high A the thumb is off already, so a thumb gracenote has nothing to lift."],
    ["f", "low-a", "e", "An F gracenote on low A would lift two fingers at once. A gracenote lifts one."],
    ["f", "high-a", "high-a", "An F cannot be struck on high A. The strike there is a G."],
    ["A", "high-g", "high-g", "A low A struck on high G would put down three fingers at once. The strike there is an F."],
    ["G", "e", "e", "A low G struck on E would put down two fingers at once. The strike there is a low A."],
    ["G", "low-g", "low-a", "On low G every finger is down already: there is none to strike."],
    ["GdG", "low-a", "low-g", "After low G a low G is not heard: the two sound as one."],
    ["GdG", "low-g", "c", "On low G every finger is down already: there is none to strike."],
    ["ag", "high-a", "high-a", "After high A the thumb is off already, so a thumb gracenote has nothing to lift."],
    ["de", "low-a", "c", "A D gracenote fits only on notes below D: before an E gracenote its finger changes nothing."],
    ["gg", "low-a", "c", "A G gracenote before a G gracenote is not heard: the two sound as one."],
    ["ga", "low-a", "e", "A G gracenote before a thumb gracenote is not heard: the two sound as one."],
    ["B", "b", "c", "A B on B is not heard: it is the note itself."],
  ])("{%s} on %s after %s", (letters, note, before, sentence) => {
    expect(reason(letters, note, before)).toBe(sentence);
  });

  it("leaves two high As the strike G alone, and two high Gs the thumb and the F, among single gracenotes", () => {
    const dividing = (note: ChanterNote) => NINE_NOTES.filter((gracenote) => movementsOf(table, [gracenote], { before: note, note }).ok);
    expect(dividing("high-a")).toEqual(["high-g"]);
    expect(dividing("high-g")).toEqual(["f", "high-a"]);
  });

  it("lets {e} follow F, whose ring finger is off, since it is heard", () => {
    expect(played("e", "low-a", "f")).toEqual(["lift 3 X XXO XXXO"]);
  });

  it("ends every reason as a sentence, whatever is spelled", () => {
    const group = fc.array(fc.constantFrom(...NINE_NOTES), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(group, fc.constantFrom(...CHANTER_NOTES), fc.constantFrom(null, ...CHANTER_NOTES), (gracenotes, note, before) => {
        const judged = movementsOf(table, gracenotes, { before, note });
        if (judged.ok) expect(judged.value.length).toBe(gracenotes.length);
        else expect(judged.reason).toMatch(/^[A-Z].*\.$/);
        if (!judged.ok) expect(judged.reason).not.toMatch(/undefined|silence|high-|low-/);
      }),
      { ...seeded, numRuns: 2000 },
    );
  });
});

describe("gracenotes in letters", () => {
  it("are written and read as the ABC standard spells them (2.1, 4.12)", () => {
    expect(lettersOfGracenotes(["high-g", "b", "d"])).toBe("{gBd}");
    expect(lettersOfGracenotes([])).toBe("");
    expect(gracenotesFromLetters("{GAGAG}")).toEqual({ ok: true, value: ["low-g", "low-a", "low-g", "low-a", "low-g"] });
    expect(gracenotesFromLetters(" g c d ")).toEqual({ ok: true, value: ["high-g", "c", "d"] });
  });

  it("go to text and back", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...NINE_NOTES)), (gracenotes) => {
        expect(gracenotesFromLetters(lettersOfGracenotes(gracenotes))).toEqual({ ok: true, value: gracenotes });
      }),
      seeded,
    );
  });

  it("are refused with the letter that is none of the nine", () => {
    expect(gracenotesFromLetters("gbd")).toEqual({
      ok: false,
      reason: "b is no gracenote. They are G A B c d e f g a, low G to high A.",
    });
  });
});
