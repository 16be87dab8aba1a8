import { describe, expect, it } from "vitest";
import { PLAYERS } from "../../src/ensemble/catalogue.ts";
import { musicxmlOfPart, musicxmlOfScore } from "../../src/exchange/musicxml-score.ts";
import { CHANTER_NAMES } from "../../src/pipes/default-setups.ts";
import type { Line, Score } from "../../src/score/score.ts";
import { lanternScore } from "../support/lantern-score.ts";
import type { MidiNote } from "../support/midi-notes.ts";
import { type SoundingEvent, soundingEvents } from "../support/sounding-events.ts";
import { soundOfMusicxml } from "../support/verovio-reading.ts";

/** Verovio ends its notes a tick of its own early, so that like notes do not run together; in quarters. */
const A_TICK = 1 / 60;

/** What Verovio's notes are to be for one event: the gracenotes take their time from it, how much is Verovio's choice. */
function expectEvent(heard: MidiNote[], event: SoundingEvent): void {
  const group = heard.splice(0, event.gracenotes + event.semitones.length);
  const [graces, notes] = [group.slice(0, event.gracenotes), group.slice(event.gracenotes)];
  expect(Math.abs((group[0]?.from ?? Number.NaN) - event.from)).toBeLessThan(A_TICK);
  expect(notes.map(({ pitch }) => pitch)).toEqual(event.semitones);
  for (const note of notes) expect(Math.abs(note.to - event.to)).toBeLessThan(2 * A_TICK);
  for (const grace of graces) expect(grace.to).toBeLessThanOrEqual(notes[0]?.from ?? 0);
}

function expectHeard(heard: readonly MidiNote[] | undefined, score: Score, line: Line): void {
  const left = [...(heard ?? [])];
  for (const event of soundingEvents(score, line)) expectEvent(left, event);
  expect(left).toEqual([]);
}

describe("MusicXML as another reader plays it", () => {
  it.each(CHANTER_NAMES)("has every note's sounding pitch, onset and length with a %s chanter, repeats played", async (chanter) => {
    const score = lanternScore(chanter);
    const heard = await soundOfMusicxml(musicxmlOfScore(score));
    expect(heard.length).toBe(score.lines.length);
    for (const [index, line] of score.lines.entries()) expectHeard(heard[index], score, line);
  });

  it("sounds at concert pitch for every player of the catalogue, whatever he reads", async () => {
    for (const { id } of PLAYERS) {
      const score = lanternScore("B", id);
      const line = score.lines[1] as Line;
      expectHeard((await soundOfMusicxml(musicxmlOfPart(score, line)))[0], score, line);
    }
  });
});
