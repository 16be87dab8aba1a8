import { describe, expect, it } from "vitest";
import { fitLine } from "../../src/arranging/fit-line.ts";
import { markedNotes } from "../../src/arranging/fit-marks.ts";
import { rankSetups } from "../../src/arranging/rank-setups.ts";
import { songKey } from "../../src/arranging/rank-song-key.ts";
import { songFromBytes } from "../../src/exchange/reading/read-song.ts";
import { CHANTER_NAMES, defaultSetup } from "../../src/pipes/default-setups.ts";
import { withCrossFingering } from "../../src/pipes/setup-changes.ts";
import { keyName } from "../../src/pitch/key-signature.ts";
import { melodyGuesses } from "../../src/song/melody-guess.ts";
import type { SongNote } from "../../src/song/song.ts";
import { suiteFiles } from "../support/suites.ts";
import { songNotes } from "../support/tune-notes.ts";

/* Shares: derived, one octave choice for the tune; what a good piper does: from memory. Tunes in the public domain. */

const SETUPS = CHANTER_NAMES.map((name) => withCrossFingering(defaultSetup(name), "c-natural", { speaks: true }));
const D = { tonic: "D", mode: "major" } as const;
const ranked = (notes: readonly SongNote[], key: { readonly tonic: string; readonly mode: "major" } = D) =>
  rankSetups({ notes, key, setups: SETUPS, band: [] });

const AMAZING_GRACE =
  "69 74:2 78:.5 74:.5 78:2 76 74:2 71 69:2 69 74:2 78:.5 74:.5 78:2 76 81:3 78 81:1.5 78:.5 81:.5 78:.5 74:2 69 71:1.5 74:.5 74:.5 71:.5 69:2 69 74:2 78:.5 74:.5 78:2 76 74:3";

describe("tunes that pipers know", () => {
  it("Amazing Grace: written D, plain, nothing changed; written C keeps it whole too and stands below every plain row of 80 %", () => {
    const notes = songNotes(AMAZING_GRACE);
    const rows = ranked(notes);
    const best = rows[0];
    expect(best && keyName(best.writtenKey)).toBe("D major");
    expect(best).toMatchObject({ shareInOneOctave: 1, uses: [] });
    const inC = rows.filter(({ writtenKey, share }) => writtenKey.tonic === "C" && share === 1);
    expect(inC.length).toBeGreaterThan(0);
    const lastPlain = rows.findLastIndex(({ uses, share }) => uses.length === 0 && share >= 0.8);
    for (const row of inC) expect(rows.indexOf(row)).toBeGreaterThan(lastPlain);
    const fitted = fitLine({ notes, bars: [], chords: [], key: D, setup: defaultSetup("A"), semitones: 0 });
    expect(fitted.notes.every(({ change }) => change === null)).toBe(true);
  });

  const [file] = suiteFiles("songs", /^hymn-stille-nacht\.abc$/);
  it.skipIf(!file)("Silent Night: written G, 93.1 % plain, 93.8 % with C natural, which is not worth it", () => {
    const song = songFromBytes(file?.bytes ?? new Uint8Array(), "silent night");
    const key = songKey(song);
    const notes = markedNotes(song, melodyGuesses(song)[0]?.line ?? 0, []);
    const rows = ranked(notes, { tonic: key?.tonic ?? "", mode: "major" });
    const inG = rows.filter(({ writtenKey }) => writtenKey.tonic === "G");
    expect(rows[0] && keyName(rows[0].writtenKey)).toBe("G major");
    expect(rows[0]?.uses).toEqual([]);
    expect(rows[0]?.shareInOneOctave).toBeCloseTo(0.931, 3);
    expect(inG.find(({ uses }) => uses.length === 1)?.shareInOneOctave).toBeCloseTo(0.938, 3);
  });

  it("looks only at bars that are marked to be played", () => {
    const [file] = [songNotes("62 64")];
    const song = { lines: [{ name: "Voice", chordsThinned: 0, notes: file.map((note, bar) => ({ ...note, bar })) }] };
    expect(markedNotes(song as never, 0, ["silent", "play"]).map(({ semitone }) => semitone)).toEqual([64]);
    expect(markedNotes(song as never, 0, ["hold"]).map(({ semitone }) => semitone)).toEqual([64]);
  });
});
