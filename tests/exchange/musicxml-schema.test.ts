import { describe, expect, it } from "vitest";
import { PLAYERS } from "../../src/ensemble/catalogue.ts";
import { PIPES_SOUND, soundOfPlayer } from "../../src/exchange/musicxml-instruments.ts";
import { musicxmlOfPart, musicxmlOfScore } from "../../src/exchange/musicxml-score.ts";
import { CHANTER_NAMES } from "../../src/pipes/default-setups.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { PipeLine } from "../../src/score/score.ts";
import { EXAMPLE_SKETCHES } from "../support/examples.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { HAS_SCHEMA, SCHEMA_NOTE, schemaFaults, soundNames } from "../support/musicxml-schema.ts";
import { pipeSketch } from "../support/pipe-sketch.ts";

/* *Source:* the MusicXML 4.0 schema, W3C Music Notation Community Group. */
describe.skipIf(!HAS_SCHEMA)(`MusicXML against the 4.0 schema${SCHEMA_NOTE}`, () => {
  it.each(CHANTER_NAMES)("is valid for the whole score with a %s chanter", (chanter) => {
    expect(schemaFaults(musicxmlOfScore(lanternScore(chanter)))).toEqual([]);
  });

  it.each(EXAMPLE_SKETCHES)("is valid for the score and every part of $file", ({ text }) => {
    const score = scoreFromSavedForm(text);
    expect(schemaFaults(musicxmlOfScore(score))).toEqual([]);
    for (const line of score.lines) expect(schemaFaults(musicxmlOfPart(score, line)), line.id).toEqual([]);
  });

  it("is valid with every note's holes, and with tunes of a medley", () => {
    const score = lanternScore();
    const tune = { title: "Crane Lullaby", tuneType: "Slow air", composer: "Mairi Quern" };
    const medley = { ...score, frames: score.frames.map((one, bar) => (bar === 2 ? { ...one, tune } : one)) };
    for (const line of medley.lines) expect(schemaFaults(musicxmlOfPart(medley, line, { charts: "every-note" })), line.id).toEqual([]);
  });

  it("is valid where silent bars are read as one rest", () => {
    const score = pipeSketch("d8!. | z8 | z8 | d8!");
    const text = musicxmlOfPart(score, score.lines[0] as PipeLine);
    expect(text).toContain("<multiple-rest>2</multiple-rest>");
    expect(schemaFaults(text)).toEqual([]);
  });

  it("is valid for the part of every player of the catalogue", () => {
    for (const { id } of PLAYERS) {
      const score = lanternScore("B", id, id);
      for (const line of score.lines) expect(schemaFaults(musicxmlOfPart(score, line)), id).toEqual([]);
    }
  });

  it("is valid with texts that XML has no place for", () => {
    const score = { ...lanternScore(), title: 'Rain & <shine> "\u0000\u001b\ud800" 🎏' };
    expect(schemaFaults(musicxmlOfScore(score, { encodingDate: "2026-11-25" }))).toEqual([]);
  });

  it("finds fault with a file that breaks the rules", () => {
    const valid = musicxmlOfScore(lanternScore());
    expect(schemaFaults(valid.replace("<step>A</step>", "<step>H</step>"))).not.toEqual([]);
    expect(schemaFaults(valid.replace(/ *<duration>480<\/duration>\n/, ""))).not.toEqual([]);
    expect(schemaFaults(valid.replace('<measure number="1">', "<measure>"))).not.toEqual([]);
  });

  it("names only sounds of the format's own list", () => {
    const known = soundNames();
    const used = [PIPES_SOUND, ...PLAYERS.map(({ id }) => soundOfPlayer(id))];
    expect(used.map(({ sound }) => sound).filter((sound) => !known.has(sound))).toEqual([]);
  });

  it("knows a sound for every player of the catalogue but the piano's as a last resort", () => {
    const likePiano = PLAYERS.filter(({ id }) => soundOfPlayer(id).sound === soundOfPlayer("nobody").sound);
    expect(likePiano.map(({ id }) => id)).toEqual(["piano"]);
  });
});
