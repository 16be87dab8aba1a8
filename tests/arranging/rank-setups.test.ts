import { describe, expect, it } from "vitest";
import { keptAt, phraseTallies } from "../../src/arranging/rank-kept.ts";
import { rankSetups } from "../../src/arranging/rank-setups.ts";
import { playerOf } from "../../src/ensemble/catalogue.ts";
import { CHANTER_NAMES, defaultSetup } from "../../src/pipes/default-setups.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";
import { keyName } from "../../src/pitch/key-signature.ts";
import { songNotes } from "../support/tune-notes.ts";

const OWN = CHANTER_NAMES.map(defaultSetup);
const BAND = [playerOf("trumpet-bb"), playerOf("fiddle")];
const SPEAKING = OWN.map((setup) => withCrossFingering(setup, "c-natural", { speaks: true }));

/* Written in D, semitones of MIDI and quarters: E E F G, and so on. Public domain. */
const ODE =
  "66 66 67 69 69 67 66 64 62 62 64 66 66:1.5 64:.5 64:2 66 66 67 69 69 67 66 64 62 62 64 66 64:1.5 62:.5 62:2 64 64 66 62 64 66:.5 67:.5 66 62 64 66:.5 67:.5 66 64 62 64 57 66:2 66 67 69 69 67 66 64 62 62 64 66 64:1.5 62:.5 62:2";
const D = { tonic: "D", mode: "major" } as const;
const rank = (notes = songNotes(ODE), setups = OWN) => rankSetups({ notes, key: D, setups, band: BAND });

describe("ranking setups", () => {
  it("Ode to Joy has 62 notes and 14 like pairs, and is kept whole in written D", () => {
    const notes = songNotes(ODE);
    expect(notes).toHaveLength(62);
    expect(notes.filter((note, at) => note.semitone === notes[at - 1]?.semitone)).toHaveLength(14);
    const best = rank()[0];
    expect(best && keyName(best.writtenKey)).toBe("D major");
    expect(best).toMatchObject({ share: 1, shareInOneOctave: 1, changed: 0, folded: 0, drone: 5, semitones: 0 });
  });

  it("Ode to Joy keeps 98 % in written A with the nine", () => {
    const inA = rank().find(({ writtenKey }) => writtenKey.tonic === "A");
    expect(inA?.uses).toEqual([]);
    expect(inA?.shareInOneOctave).toBeCloseTo(0.98, 2);
  });

  it("moving the song by any number of semitones changes only the band's move", () => {
    const row = (by: number) =>
      rankSetups({
        notes: songNotes(ODE, by),
        key: { tonic: ["D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B", "C", "C#"][by] as string, mode: "major" },
        setups: OWN,
        band: BAND,
      })
        .map(({ setup, concertKey, writtenKey, share, changed, folded, drone, worstSignature }) =>
          JSON.stringify([setup.lowAIs, concertKey, writtenKey, share, changed, folded, drone, worstSignature]),
        )
        .sort();
    for (let by = 1; by < 12; by++) expect(row(by)).toEqual(row(0));
  });

  it("a cross-fingering that the best row does not use does not change it", () => {
    const best = (setups: typeof OWN) => {
      const { setup, ...row } = rank(songNotes(ODE), setups)[0] as ReturnType<typeof rank>[number];
      return [setup.lowAIs, row];
    };
    expect(best(SPEAKING)).toEqual(best(OWN));
  });

  it("no row with a cross-fingered tonic or fifth stands above a plain one that keeps its share less 0.2", () => {
    const rows = rank(songNotes(ODE), SPEAKING);
    const weak = rows.filter(({ uses, writtenKey }) => uses.includes("c-natural") && ["C", "F"].includes(writtenKey.tonic));
    expect(weak.length).toBeGreaterThan(0);
    for (const one of weak)
      for (const plain of rows.filter(({ uses, share }) => uses.length === 0 && share >= one.share - 0.2))
        expect(rows.indexOf(plain)).toBeLessThan(rows.indexOf(one));
  });

  it("takes a fold only where it may begin, and tells it", () => {
    const stepwise = phraseTallies(songNotes("69 71 73 74 76 78 79 81 83"));
    expect(keptAt(stepwise, 0, [])).toMatchObject({ folded: 0, changed: 1 });
    const leaping = phraseTallies(songNotes("69 71 73 74 62 64 66"));
    expect(keptAt(leaping, 0, [])).toMatchObject({ folded: 1, changed: 0, share: 1 });
  });
});
