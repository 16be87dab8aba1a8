import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { notesBefore } from "../../src/arranging/grace-place.ts";
import { type GracenoteChoice, gracenoteChoiceAt, offersFor } from "../../src/arranging/gracenote-offers.ts";
import { gracingInWords } from "../../src/arranging/named-group.ts";
import { spelledGroup } from "../../src/arranging/spelled-group.ts";
import type { PlainNote } from "../../src/pipes/chanter-note.ts";
import { fingeringTable } from "../../src/pipes/fingering-table.ts";
import { movementsOf } from "../../src/pipes/gracenote-group.ts";
import { lettersOfGracenotes } from "../../src/pipes/gracenote-letters.ts";
import { noteName } from "../../src/pipes/note-names.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";
import type { Address } from "../../src/score/address.ts";
import { pipeLines } from "../../src/score/line-of.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import type { Score } from "../../src/score/score.ts";
import { bpm } from "../../src/units/bpm.ts";
import { ticks } from "../../src/units/ticks.ts";
import { cases } from "../support/cases.ts";
import { at, pipeSketch } from "../support/pipe-sketch.ts";
import { draws, scoreFrom } from "../support/random-music.ts";

function sketch(text: string, perMinute = 60): Score {
  const score = pipeSketch(text);
  return { ...score, frames: score.frames.map((frame) => ({ ...frame, tempo: { beat: ticks(960), perMinute: bpm(perMinute) } })) };
}

function choice(score: Score, address: Address): GracenoteChoice {
  const found = gracenoteChoiceAt(score, address);
  if (found === null) throw new RangeError("no note there");
  return found;
}

describe("what is offered on a note", () => {
  it("is named with its strike, in letters, with its mark and source", () => {
    const offers = offersFor(sketch("d2! d6"), at(0, 2));
    expect(offers.slice(0, 4).map(({ name, spelling }) => `${name} ${spelling}`)).toEqual([
      "G gracenote {g}",
      "E gracenote {e}",
      "low G strike {G}",
      "C strike {c}",
    ]);
    expect(offers.find(({ name }) => name === "light throw")).toMatchObject({ mark: "published" });
    expect(offers.find(({ spelling }) => spelling === "{gde}")).toMatchObject({ mark: "from-memory", source: "From memory." });
  });

  it("is G, D, E in turn on the first of three like notes that have time for it, after the single gracenotes", () => {
    const offers = offersFor(sketch("e2! B2 B2 B2"), at(0, 2));
    const place = offers.findIndex(({ further }) => further.length > 0);
    expect(offers[place]).toMatchObject({ name: "G, D, E in turn", spelling: "{g}B {d}B {e}B", gracenotes: ["high-g"] });
    expect(offers[place]?.further).toEqual([
      { address: at(0, 4), note: "b", gracenotes: ["d"], seconds: 1 },
      { address: at(0, 6), note: "b", gracenotes: ["e"], seconds: 1 },
    ]);
    expect(offers.slice(0, place).every(({ gracenotes }) => gracenotes.length === 1)).toBe(true);
    expect(offers[place + 1]?.gracenotes.length).toBeGreaterThan(1);
  });

  it("is G, D, E neither on two like notes, nor over a cut-off, nor after high G", () => {
    const spans = (text: string) => offersFor(sketch(text), at(0, 2)).some(({ further }) => further.length > 0);
    expect(spans("e2! B2 B2 c2")).toBe(false);
    expect(spans("e2! B2 B2. B2!")).toBe(false);
    expect(spans("g2! B2 B2 B2")).toBe(false);
    expect(spans("e2! B2 B2 B2")).toBe(true);
  });

  it("is a tachum on a C that is shorter than the low A after it", () => {
    const tachum = (text: string) => offersFor(sketch(text), at(0, 2)).find(({ name }) => name === "tachum");
    expect(tachum("e2! c2 A4")?.further).toEqual([{ address: at(0, 4), note: "low-a", gracenotes: ["e"], seconds: 2 }]);
    expect(tachum("e2! c4 A2")).toBeUndefined();
  });

  it("can be fingered and has time on every note of any score, and is spelled once", () => {
    let offered = 0;
    fc.assert(
      fc.property(draws, (numbers) => {
        const score = scoreFrom(numbers);
        for (const line of pipeLines(score)) {
          for (const [bar, own] of line.bars.entries()) {
            for (const { at: time, event } of placedEvents(own)) {
              const found = gracenoteChoiceAt(score, { line: line.id, bar, at: time });
              expect(found === null).toBe(event.kind === "rest");
              if (found === null) continue;
              expect(found.whyNone === null).toBe(found.offers.length > 0);
              expect(new Set(found.offers.map(({ spelling }) => spelling)).size).toBe(found.offers.length);
              for (const { gracenotes, seconds } of found.offers) {
                offered += 1;
                expect(found.place.seconds).toBeGreaterThanOrEqual(2 * seconds - 1e-9);
                for (const before of notesBefore(found.place))
                  expect(movementsOf(fingeringTable(line.setup), gracenotes, { before, note: found.place.note.note }).ok).toBe(true);
              }
            }
          }
        }
      }),
      { seed: 20261125, numRuns: cases(100, 2000) },
    );
    expect(offered).toBeGreaterThan(5000);
  });
});

describe("where nothing fits, a sentence says why:", () => {
  it("the note is too short at the tempo in force", () => {
    const short = choice(sketch("B1! c240/480 d1 e5", 240), at(0, 1));
    expect(short.offers).toEqual([]);
    expect(short.whyNone).toBe("This note lasts 63 ms at the tempo in force. Even one gracenote wants 80 ms of it.");
  });

  it("a repeat leads there from notes that have nothing in common", () => {
    const score = sketch("a2! d2 c2 d2");
    const frames = score.frames.map((frame) => ({ ...frame, repeatStart: true, repeatEnd: true }));
    const line = pipeLines(score)[0];
    if (line === undefined) throw new RangeError("no pipes");
    const started = choice({ ...score, frames }, at(0, 0));
    expect(notesBefore(started.place)).toEqual([null, "d"]);
    expect(started.offers.map(({ spelling }) => spelling)).toEqual(["{ag}"]);
  });

  it("no finger is left to move as the piper fingers the notes", () => {
    const score = sketch("=c2! =f6");
    const [line] = pipeLines(score);
    if (line === undefined) throw new RangeError("no pipes");
    // From every hole closed, like low G, to every hole open: nothing lifts, and what goes down goes down with others.
    const closed = withCrossFingering(line.setup, "c-natural", { holes: "X XXX XXXX" });
    const setup = withCrossFingering(closed, "f-natural", { holes: "O OOO OOOO" });
    const edited = { ...score, lines: [{ ...line, setup }] };
    const { offers, whyNone } = choice(edited, at(0, 2));
    expect(offers).toEqual([]);
    expect(whyNone).toBe("As you finger them, no gracenote can be heard between C natural and F natural.");
  });
});

describe("what a note is graced with, in words,", () => {
  it.each([
    ["B2! {Gdc}d6", "a light throw"],
    ["B2! {e}d6", "an E gracenote"],
    ["d2! {c}d6", "a C strike"],
    ["f2! {e}f6", "an E strike"],
    ["B2! {gege}d6", "gracenotes high G, E, high G, E"],
    ["B2! d6", ""],
  ])("of the second note of %s is %j", (text, words) => {
    expect(gracingInWords(choice(sketch(text), at(0, 2)).place)).toBe(words);
  });
});

describe("a group spelled by hand", () => {
  const onB = () => choice(sketch("c2! B6"), at(0, 2));
  const spelled = (text: string, of = onB()) => {
    const outcome = spelledGroup(of, text);
    return outcome.ok ? `${outcome.value.offer.name} ${outcome.value.offer.spelling} ${outcome.value.caution}`.trim() : outcome.reason;
  };

  it.each([
    ["{gBd}", "doubling {gBd}"],
    ["high G, B, D", "doubling {gBd}"],
    ["Doubling", "doubling {gBd}"],
    ["gdgd", "your own spelling {gdgd}"],
    ["gege", "your own spelling {gege}"],
    ["gfge", "An F cannot be struck before a G gracenote."],
    ["", "Write the gracenotes in the order they are played."],
    ["gx", "“x” is no gracenote. Write letters, G A B c d e f g a from low G to high A, or names: low G, D, C."],
    ["gB", "A B on B is not heard: it is the note itself."],
    ["fd", "An F gracenote before a D gracenote would lift two fingers at once. A gracenote lifts one."],
    ["dededededededed", "A group has 12 gracenotes at most; these are 15."],
  ])("%j is answered %j", (text, answer) => {
    expect(spelled(text)).toBe(answer);
  });

  it("is refused for each note that a repeat leads from", () => {
    const score = sketch("B2! c2 d2 g2");
    const frames = score.frames.map((frame) => ({ ...frame, repeatStart: true, repeatEnd: true }));
    expect(spelled("g", choice({ ...score, frames }, at(0, 0)))).toBe(
      "After high G the first finger is off already, so a G gracenote has nothing to lift. A repeat leads here from high G.",
    );
  });

  it("may be put on a note that is short for it, which is said", () => {
    expect(spelled("gBd", choice(sketch("c2! B240/480 c5", 120), at(0, 2)))).toBe(
      "doubling {gBd} That takes 120 ms, and the note lasts 125 ms at this tempo: it will be hurried.",
    );
  });

  it("is known again when it is written in letters or in names, whatever is offered", () => {
    for (const note of ["A", "B", "d", "e", "g", "a"]) {
      const of = choice(sketch(`c2! ${note}6`), at(0, 2));
      for (const { gracenotes } of of.offers.filter(({ further }) => further.length === 0)) {
        const names = gracenotes.map((one: PlainNote) => noteName(one)).join(", ");
        for (const text of [lettersOfGracenotes(gracenotes), names]) {
          const outcome = spelledGroup(of, text);
          expect(outcome.ok && outcome.value.offer.gracenotes, text).toEqual(gracenotes);
        }
      }
    }
  });
});
