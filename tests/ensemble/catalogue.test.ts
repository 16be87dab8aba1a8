import { describe, expect, it } from "vitest";
import { isPlayerId, PLAYERS, playerOf, writtenForPlayer } from "../../src/ensemble/catalogue.ts";
import { partKeyOf } from "../../src/ensemble/part-key.ts";
import { alterInKey, fifthsOf, keyFromName, keyName, MODES, scalePitchClasses } from "../../src/pitch/key-signature.ts";
import { semitoneOf } from "../../src/pitch/semitone.ts";
import { spelledInKey } from "../../src/pitch/spelled-in-key.ts";
import { concertPitch, spellingOf } from "../../src/pitch/spelling.ts";
import { transposed } from "../../src/pitch/transpose.ts";

describe("the catalogue of players", () => {
  it("writes each so many semitones over what sounds (standard; any orchestration or brass-band handbook)", () => {
    const table: Record<string, number> = {
      fiddle: 0,
      flute: 0,
      oboe: 0,
      mandolin: 0,
      accordion: 0,
      piano: 0,
      "clarinet-bb": 2,
      "soprano-sax": 2,
      "trumpet-bb": 2,
      "cornet-bb": 2,
      "flugelhorn-bb": 2,
      "tenor-sax": 14,
      "alto-sax": 9,
      "tenor-horn-eb": 9,
      "soprano-cornet-eb": -3,
      "baritone-sax": 21,
      "bass-eb": 21,
      "baritone-bb": 14,
      "euphonium-bb": 14,
      "trombone-bb": 14,
      "bass-bb": 26,
      "horn-f": 7,
      viola: 0,
      cello: 0,
      trombone: 0,
      euphonium: 0,
      tuba: 0,
      guitar: 12,
      "bass-guitar": 12,
      "double-bass": 12,
    };
    for (const [id, semitones] of Object.entries(table)) expect(playerOf(id).transposition.chromatic, id).toBe(semitones);
  });

  it("lets every whistle read D for its lowest note", () => {
    const whistles = PLAYERS.filter(({ id }) => id.includes("whistle"));
    expect(whistles.length).toBe(8);
    for (const whistle of whistles) expect(writtenForPlayer(whistle.range.lowest, whistle), whistle.id).toBe("D4");
  });

  it("never shifts by an octave twice", () => {
    for (const { octaveClef, transposition, id } of PLAYERS)
      expect(octaveClef === 0 || Math.abs(transposition.chromatic) < 12, id).toBe(true);
  });

  it("spells by intervals that exist: so many staff steps for so many semitones", () => {
    for (const { transposition, id } of PLAYERS) {
      expect(Math.abs(transposition.chromatic - (transposition.diatonic * 12) / 7), id).toBeLessThan(1.5);
    }
  });

  it("has a range from low to high for each, a source, and no name twice", () => {
    for (const { range, id, source } of PLAYERS) {
      expect(semitoneOf(range.highest) - semitoneOf(range.lowest), id).toBeGreaterThan(12);
      expect(source.length, id).toBeGreaterThan(10);
    }
    expect(new Set(PLAYERS.map(({ id }) => id)).size).toBe(PLAYERS.length);
    expect(new Set(PLAYERS.map(({ name, clef }) => name + clef)).size).toBe(PLAYERS.length);
  });

  it("knows who is in it", () => {
    expect(isPlayerId("fiddle")).toBe(true);
    expect(isPlayerId("kazoo")).toBe(false);
    expect(() => playerOf("kazoo")).toThrow(RangeError);
  });
});

describe("a player's key", () => {
  const reads = (id: string, concert: string) => keyName(partKeyOf(playerOf(id), keyFromName(concert)).key);

  it("on a B-flat chanter in concert E flat is F for B-flat players, C for E-flat players, B flat for the horn (derived)", () => {
    expect([reads("trumpet-bb", "Eb major"), reads("alto-sax", "Eb major"), reads("horn-f", "Eb major")]).toEqual([
      "F major",
      "C major",
      "Bb major",
    ]);
  });

  it("on an A chanter in concert D is E, B, A", () => {
    expect([reads("trumpet-bb", "D major"), reads("alto-sax", "D major"), reads("horn-f", "D major")]).toEqual([
      "E major",
      "B major",
      "A major",
    ]);
  });

  it("on a B chanter in concert E is F sharp, D flat, B; in concert B it is D flat, A flat, F sharp", () => {
    expect([reads("trumpet-bb", "E major"), reads("alto-sax", "E major"), reads("horn-f", "E major")]).toEqual([
      "F# major",
      "Db major",
      "B major",
    ]);
    expect([reads("trumpet-bb", "B major"), reads("alto-sax", "B major"), reads("horn-f", "B major")]).toEqual([
      "Db major",
      "Ab major",
      "F# major",
    ]);
  });

  it("never has more than six accidentals, and its notes stand as its signature has them", () => {
    for (const player of PLAYERS) {
      for (const tonic of ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]) {
        for (const mode of MODES) {
          const concert = { tonic, mode };
          if (Math.abs(fifthsOf(concert)) > 6) continue;
          const { key, transposition } = partKeyOf(player, concert);
          expect(Math.abs(fifthsOf(key))).toBeLessThanOrEqual(6);
          for (const degree of scalePitchClasses(concert)) {
            const written = transposed(spelledInKey(60 + degree, concert), transposition.diatonic, transposition.chromatic);
            const { letter, alter } = spellingOf(written);
            expect(alter, `${written} for ${player.id} in ${keyName(concert)}`).toBe(alterInKey(key, letter));
          }
        }
      }
    }
  });
});

it("A trumpet reads D5 for concert C5, an alto saxophone A5 for concert C5, a guitar E5 for concert E4", () => {
  expect(writtenForPlayer(concertPitch("C5"), playerOf("trumpet-bb"))).toBe("D5");
  expect(writtenForPlayer(concertPitch("C5"), playerOf("alto-sax"))).toBe("A5");
  expect(writtenForPlayer(concertPitch("E4"), playerOf("guitar"))).toBe("E5");
});
