import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { check } from "../../src/score/check.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { Finding, FindingKind } from "../../src/score/finding.ts";
import type { Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { ticks } from "../../src/units/ticks.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { asText, pipeSketch } from "../support/pipe-sketch.ts";
import { scoreFrom } from "../support/random-music.ts";

function applied(score: Score, edits: readonly Edit[]): Score {
  const outcome = applyEdits(score, edits);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

const ofKind = (score: Score, kind: FindingKind): readonly Finding[] => check(score).filter((finding) => finding.kind === kind);

/** A sketch at so many quarters a minute. */
const atTempo = (music: string, perMinute: number): Score =>
  applied(pipeSketch(music), [{ kind: "tempo", range: { first: 0, last: 0 }, tempo: { beat: ticks(960), perMinute: bpm(perMinute) } }]);

const cure = (score: Score, finding: Finding | undefined, label: string): Score => {
  const found = finding?.cures.find((one) => one.label === label);
  if (found === undefined) throw new Error(`no cure ${label} among ${finding?.cures.map((one) => one.label).join(", ")}`);
  return applied(score, found.edits);
};

describe("a crossing", () => {
  // Source: derived from the fingerings, which are common practice: finger order free, the nine notes only.
  it.each([
    ["d4! e4", ["c", "b", "low-a", "low-g"]],
    ["c4! e4", ["b", "low-a", "low-g"]],
    ["B4! e4", ["low-a"]],
    ["G4! f4", ["low-a", "e"]],
    ["f4! a4", ["high-g"]],
  ])("in %s names exactly the notes that can sound", (music, notes) => {
    const [finding, another] = ofKind(pipeSketch(music), "crossing");
    expect(another).toBeUndefined();
    expect(finding?.notes).toEqual(notes);
    expect(finding?.address).toMatchObject({ bar: 0, at: 1920 });
  });

  it("from low A to E is none: one finger moves", () => {
    expect(ofKind(pipeSketch("A4! e4"), "crossing")).toEqual([]);
  });

  it("is none where silence lies between, and one where a repeat leads back", () => {
    expect(ofKind(pipeSketch("d4!. e4!"), "crossing")).toEqual([]);
    const repeated = applied(pipeSketch("e4! d4"), [{ kind: "repeat", range: { first: 0, last: 0 }, on: true }]);
    expect(ofKind(repeated, "crossing").map(({ address }) => address.at)).toEqual([0, 1920]);
  });

  it("is covered by a gracenote where one hides the change, and asks for less care then", () => {
    const score = pipeSketch("d4! e4");
    const [finding] = ofKind(score, "crossing");
    const covered = cure(score, finding, "Cover it with a G gracenote");
    expect(asText(covered)).toBe("d4! {g}e4");
    const [left] = ofKind(covered, "crossing");
    expect(left?.message).toBe(
      "From D to E with a G gracenote, fingers that do not move as one sound C, B, low A or low G, unless the upper index is off first.",
    );
    expect(left?.cures).toEqual([]);
  });

  it("of a cross-fingered note goes by its way in and its way out as the piper fingers it", () => {
    const setup = { ...defaultSetup("B"), crossFingerings: defaultCrossFingerings(["high-g-sharp"]) };
    const score = applied(pipeSketch("f4! ^g4"), [{ kind: "setup", line: "pipes", setup }]);
    const [finding] = ofKind(score, "crossing");
    expect(finding?.notes).toEqual(["e", "low-a"]);
    expect(finding?.message).toContain("From F to high G♯");
  });
});

describe("a group without time", () => {
  it("is found on a note shorter than twice the group, and the longest usual group that has time is offered", () => {
    // A doubling is three gracenotes: 120 ms at the usual 40 ms each (a setting, from memory). A quaver at 150 lasts 200 ms.
    const score = atTempo("A4! {gBd}B1 A3", 150);
    const [finding] = ofKind(score, "too-fast");
    expect(finding?.address).toMatchObject({ bar: 0, at: 1920 });
    expect(finding?.message).toMatch(/^A doubling takes 120 ms, and this note lasts 200 ms: less than twice as long\./);
    for (const { label, edits } of finding?.cures ?? []) expect(ofKind(applied(score, edits), "too-fast"), label).toEqual([]);
    expect(finding?.cures.length).toBeGreaterThan(0);
  });

  it("is none where the note has time, ties counted", () => {
    expect(ofKind(atTempo("A4! {gBd}B2 A2", 150), "too-fast")).toEqual([]);
    expect(ofKind(atTempo("A4! {gBd}B1- B3", 150), "too-fast")).toEqual([]);
  });

  it("before the beat takes its time from the note before, and is found where that is too short", () => {
    const [finding] = ofKind(atTempo("A1! {GdG}c7", 150), "too-fast");
    expect(finding?.message).toContain("the note before lasts 200 ms");
  });
});

describe("a rest the chanter cannot make", () => {
  it("is held, sunk into the drones, filled or cut off, in this order where it is short", () => {
    const score = pipeSketch("d2! e2 z2 A2");
    const [finding] = ofKind(score, "rest");
    expect(finding?.cures.map(({ label }) => label)).toEqual(["Hold E", "Drone note high A", "Fill with D, B", "Mark a cut-off"]);
    const curedBy = (label: string) => asText(cure(score, finding, label));
    expect(curedBy("Hold E")).toBe("d2! e4 A2");
    expect(curedBy("Drone note high A")).toBe("d2! e2 a2 A2");
    expect(curedBy("Fill with D, B")).toBe("d2! e2 d B A2");
    expect(curedBy("Mark a cut-off")).toBe("d2! e2. z2 A2!");
  });

  it("is cut off first where the silence is a bar or 2 s long", () => {
    // Source: about 2 s or a bar: common practice.
    const [finding] = ofKind(pipeSketch("d8! | z8 | f8"), "rest");
    expect(finding?.cures[0]?.label).toBe("Mark a cut-off");
    expect(finding?.message).toBe("The chanter cannot rest here. Mark a cut-off, or hold D.");
  });

  it("is filled step by step on the beats, what is over being held first, and turns round a goal that is next door", () => {
    const filled = (music: string) => {
      const score = pipeSketch(music);
      const [finding] = ofKind(score, "rest");
      return asText(cure(score, finding, finding?.cures.find(({ label }) => label.startsWith("Fill"))?.label ?? ""));
    };
    expect(filled("d2! z4 g2")).toBe("d2! e2 f2 g2");
    expect(filled("d2! z4 f2")).toBe("d4! e2 f2");
    expect(filled("e2! z4 e2")).toBe("e4! f2 e2");
  });

  it("sinks to the drone note that the chord has, E in written E and low A in A and D, and to the nearest where it has none", () => {
    // On a B flat chanter written A, D, B minor and E sound B flat, E flat, C minor and F.
    const under = (symbol: string) =>
      applied(pipeSketch("B2! B1- B1 z2 B2"), [{ kind: "chords", bar: 0, chords: [{ at: ticks(0), symbol }] }]);
    const drone = (symbol: string) => ofKind(under(symbol), "rest")[0]?.cures[1]?.label;
    expect([drone("Bb"), drone("Eb"), drone("Cm")]).toEqual(["Drone note low A", "Drone note low A", "Drone note low A"]);
    expect(drone("F")).toBe("Drone note E");
  });

  it("at the end of a repeat is held up to where playing goes back, over bar lines too", () => {
    const score = applied(pipeSketch("e4! d2 z2 | z8"), [{ kind: "repeat", range: { first: 0, last: 1 }, on: true }]);
    const [finding, another] = ofKind(score, "rest");
    expect(another).toBeUndefined();
    expect(finding?.address).toMatchObject({ bar: 0, at: 2880 });
    expect(asText(cure(score, finding, "Hold D"))).toBe("e4! d2- d2- | d8");
  });

  it("between like notes is held with a gracenote that divides them", () => {
    const score = pipeSketch("d2! e2 z2 e2");
    expect(asText(cure(score, ofKind(score, "rest")[0], "Hold E"))).toBe("d2! e4 {g}e2");
  });
});

describe("like notes", () => {
  it("are found where a repeat leads back from a note to the same one", () => {
    const score = applied(pipeSketch("e4! f4 | {g}e8"), [{ kind: "repeat", range: { first: 0, last: 1 }, on: true }]);
    const [finding] = ofKind(score, "like-notes");
    expect(finding?.address).toMatchObject({ bar: 0, at: 0 });
    expect(finding?.message).toMatch(/^Where the repeat goes back, two Es/);
    expect(ofKind(cure(score, finding, "Add it"), "like-notes")).toEqual([]);
  });

  it("are 14 pairs in the 62 notes of the Ode to Joy, written in D", () => {
    // Source: L. van Beethoven, Symphony 9 (1824), public domain; the count is the house's trade facts, derived.
    const first = "f2 f2 g2 a2 | a2 g2 f2 e2 | d2 d2 e2 f2 | ";
    const music = `${first}f3 e1 e4 | ${first}e3 d1 d4 | e2 e2 f2 d2 | e2 f1 g1 f2 d2 | e2 f1 g1 f2 e2 | d2 e2 A4 | ${first}e3 d1 d4`;
    const score = pipeSketch(music.replace("f2", "f2!"));
    const notes = score.lines.flatMap((line) => (line.kind === "pipes" ? line.bars.flatMap(({ events }) => events) : []));
    expect(notes).toHaveLength(62);
    expect(ofKind(score, "like-notes")).toHaveLength(14);
  });
});

describe("cures", () => {
  const KINDS: readonly FindingKind[] = ["like-notes", "rest", "too-fast", "crossing", "tie", "cross-fingering"];
  /** A crossing may be left smaller, and a new way of fingering a note is for all its places, so they are judged apart. */
  const GONE: readonly FindingKind[] = ["like-notes", "rest", "too-fast"];

  it(
    "take away their finding, make no other of its kind, and leave a crossing gone, smaller or hidden behind one finger, in any score",
    () => {
      const tried = new Map<FindingKind, number>();
      fc.assert(
        fc.property(fc.array(fc.nat(), { minLength: 60, maxLength: 400 }), fc.nat(), (numbers, pick) => {
          const score = pick % 2 === 0 ? scoreFrom(numbers) : hurried(scoreFrom(numbers));
          const found = check(score);
          const all = found.filter(({ kind, cures }) => KINDS.includes(kind) && cures.length > 0);
          const kinds = [...new Set(all.map(({ kind }) => kind))];
          // One of each kind, since crossings outnumber all the rest.
          const picked = kinds.map((kind) => all.filter((one) => one.kind === kind)).map((alike) => alike[pick % alike.length] as Finding);
          for (const [finding, { label, edits }] of picked.flatMap((one) => one.cures.map((cured) => [one, cured] as const))) {
            const outcome = applyEdits(score, edits);
            // A cure that would take a sung word away is refused, and says so.
            if (!outcome.ok && outcome.reason.includes("would lose its note")) continue;
            if (!outcome.ok) throw new Error(`${asText(score)}: ${finding.message} ${label}: ${outcome.reason}`);
            tried.set(finding.kind, (tried.get(finding.kind) ?? 0) + 1);
            const said = `${asText(score)}: ${finding.message} ${label}`;
            const after = check(outcome.value).filter(({ kind }) => kind === finding.kind);
            const left = after.filter((one) => samePlace(one, finding));
            expect(
              left.map(({ message }) => message),
              said,
            ).not.toContain(finding.message);
            if (GONE.includes(finding.kind))
              expect(after.length, said).toBeLessThan(found.filter(({ kind }) => kind === finding.kind).length);
            if (finding.kind === "crossing") {
              for (const one of left) {
                if (!one.message.startsWith("Where")) expect(finding.notes, said).toEqual(expect.arrayContaining([...(one.notes ?? [])]));
                const isSmaller = (one.notes?.length ?? 0) < (finding.notes?.length ?? 0);
                expect(isSmaller || one.message.endsWith("is off first."), said).toBe(true);
              }
            }
          }
        }),
        { seed: 3113, numRuns: cases(150, 10_000), endOnFailure: true },
      );
      for (const kind of ["like-notes", "rest", "too-fast", "crossing"] as const) expect(tried.get(kind) ?? 0, kind).toBeGreaterThan(10);
    },
    PATIENCE,
  );
});

/** The same at 200 quarters a minute, where a 32nd lasts 37.5 ms. */
function hurried(score: Score): Score {
  return { ...score, frames: score.frames.map((frame) => ({ ...frame, tempo: { beat: ticks(960), perMinute: bpm(200) } })) };
}

function samePlace(one: Finding, other: Finding): boolean {
  return one.address.line === other.address.line && one.address.bar === other.address.bar && one.address.at === other.address.at;
}
