import { describe, expect, it } from "vitest";
import { PLAYERS } from "../../src/ensemble/catalogue.ts";
import { musicxmlOfPart, musicxmlOfScore } from "../../src/exchange/musicxml-score.ts";
import { CHANTER_NAMES } from "../../src/pipes/default-setups.ts";
import { scoreFromSavedForm } from "../../src/score/saved-form.ts";
import type { Line } from "../../src/score/score.ts";
import { PATIENCE } from "../support/cases.ts";
import { EXAMPLE_SKETCHES } from "../support/examples.ts";
import { expectHeard } from "../support/heard.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { soundOfMusicxml } from "../support/verovio-reading.ts";

describe("MusicXML as another reader plays it", () => {
  it.each(CHANTER_NAMES)("has every note's sounding pitch, onset and length with a %s chanter, repeats played", async (chanter) => {
    const score = lanternScore(chanter);
    const heard = await soundOfMusicxml(musicxmlOfScore(score));
    expect(heard.length).toBe(score.lines.length);
    for (const [index, line] of score.lines.entries()) expectHeard(heard[index], score, line);
  });

  it.each(EXAMPLE_SKETCHES)("has every note of every part of $file", async ({ text }) => {
    const score = scoreFromSavedForm(text);
    const heard = await soundOfMusicxml(musicxmlOfScore(score));
    for (const [index, line] of score.lines.entries()) expectHeard(heard[index], score, line);
  });

  it("sounds at concert pitch for every player of the catalogue, whatever he reads", { timeout: PATIENCE }, async () => {
    for (const { id } of PLAYERS) {
      const score = lanternScore("B", id);
      const line = score.lines[1] as Line;
      expectHeard((await soundOfMusicxml(musicxmlOfPart(score, line)))[0], score, line);
    }
  });
});
